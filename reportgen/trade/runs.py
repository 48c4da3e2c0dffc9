"""Runs: hours, energy, upkeep and wear, and the water each took out."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    estimate,
    first_known,
    known,
    on_estimates,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import BALANCE, FLOOR_TIMES, ONE_DAY, SUBLIMATION_FLOOR
from reportgen.trade.tables import runs
from reportgen.units import AREA, DRIED, ENERGY, FRESH, HOUR, KG, MONEY


@runs.derived(HOUR)
def hours(duration: Expr, ended: Expr, started: Expr) -> Expr:
    """How long it ran: as given, else from start to end."""
    return first_known(duration, ended - started)


@runs.derived(ENERGY)
def metered(energy: Expr, meter_to: Expr, meter_from: Expr) -> Expr:
    """Energy by the meter: an amount, else the difference of two readings."""
    return first_known(energy, meter_to - meter_from)


@runs.derived(ENERGY, label="energy by power and time")
def energy_by_power(dryer: Link, hours: Expr) -> Expr:
    """Energy by the dryer's mean power."""
    return estimate(dryer.mean_power * hours)


@runs.derived(ENERGY)
def energy_used(metered: Expr, log_energy: Expr, energy_by_power: Expr) -> Expr:
    """Energy: metered, else by the log of its power, else by the dryer's mean power."""
    return first_known(metered, log_energy, energy_by_power)


@runs.derived(MONEY)
def energy_cost(energy_used: Expr, rates: SingleRow, cost_by_period: Expr) -> Expr:
    """What the energy cost: at the one price, else by time of use."""
    return first_known(energy_used * rates.electricity, cost_by_period)


@runs.derived(MONEY)
def upkeep_cost(dryer: Link) -> Expr:
    """The dryer's upkeep for one run."""
    return dryer.upkeep_per_run


@runs.derived(MONEY)
def wear_cost(dryer: Link) -> Expr:
    """The dryer's wear for one run."""
    return dryer.wear_per_run


@runs.derived(MONEY)
def labor_cost(labor: Expr, rates: SingleRow) -> Expr:
    """Loading and unloading, at the rate."""
    return where(labor > 0, labor * rates.labor, 0)


@runs.derived(FRESH, label="wet weight in")
def weight_in(loads: Children) -> Expr:
    """Weight of everything that went in."""
    return total(loads.weight_in)


@runs.derived(DRIED)
def dried_out(loads: Children) -> Expr:
    """Weight of everything that came out."""
    return total(loads.weight_out)


@runs.derived(COUNT)
def loads_guessed(loads: Children) -> Expr:
    """Its loads with a weight that was estimated or shared out."""
    return count(loads, loads.guessed)


@runs.derived(FLAG)
def energy_estimate(energy_used: Expr) -> Expr:
    """Its energy is an estimate."""
    return on_estimates(energy_used)


@runs.derived(FRESH)
def load_limit(dryer: Link) -> Expr:
    """Wet weight that its dryer takes."""
    return dryer.load_limit


@runs.derived(FLAG)
def done(weight_in: Expr, dried_out: Expr, given_up: Expr) -> Expr:
    """It has loads, all have a wet and a dry weight, and it was not given up."""
    return (first_known(weight_in, 0) > 0) & (first_known(dried_out, 0) > 0) & ~given_up


@runs.derived(FLAG)
def counted(done: Expr, energy_used: Expr) -> Expr:
    """It is done, or its energy is known all the same."""
    return done | known(energy_used)


@runs.derived(FRESH)
def water_removed(done: Expr, weight_in: Expr, dried_out: Expr) -> Expr:
    """Water taken out of everything in the run, once it is done."""
    return where(done, weight_in - dried_out, unknown())


@runs.derived(ENERGY / KG, label="energy by water removed")
def specific_energy(energy_used: Expr, water_removed: Expr) -> Expr:
    """Energy by water removed; the ice alone takes the heat of sublimation."""
    return where(water_removed > 0, energy_used / water_removed, unknown())


@runs.derived(FLAG, label="holds a fresh load")
def with_fresh(loads: Children) -> Expr:
    """Something went into it for the first time: there was ice to take out."""
    return count(loads, loads.first_pass) > 0


@runs.derived(ENERGY / KG, label="energy by water removed, fresh loads")
def energy_drawn(with_fresh: Expr, specific_energy: Expr) -> Expr:
    """Its energy by water removed as charts show it; not of what went back in, which had little
    water left."""
    return where(with_fresh, specific_energy, unknown())


@runs.derived(KG / AREA)
def tray_loading(weight_in: Expr, dryer: Link) -> Expr:
    """Wet weight by tray area."""
    return weight_in / dryer.trays_area


@runs.derived(DRIED)
def drawn(draws: Children) -> Expr:
    """What packs that name this run alone hold."""
    return total(draws.drawn, draws.only_run)


@runs.check(
    "caution",
    "Check the meter readings, the hours and the weights: no dryer takes less than the ice itself.",
    source="heat of sublimation of ice, see the constant",
)
def energy_below_floor(specific_energy: Expr) -> Expr:
    """Less energy than it takes to turn the ice to vapour."""
    return specific_energy < SUBLIMATION_FLOOR


@runs.check("caution", "Check the meter readings, the hours, the dryer's power and the weights.")
def energy_above_all(energy_drawn: Expr) -> Expr:
    """More than ten times the energy that the ice itself takes."""
    return energy_drawn > SUBLIMATION_FLOOR * FLOOR_TIMES


@runs.check("caution", "Write energy from a power meter, or hours and the dryer's mean power.")
def energy_missing(done: Expr, energy_used: Expr) -> Expr:
    """A run that is done, without energy: its products have no cost."""
    return done & ~known(energy_used)


@runs.check("caution", "Check the weights; a load above the limit dries slowly or not at all.")
def above_load_limit(weight_in: Expr, dryer: Link) -> Expr:
    """More wet weight than the dryer takes."""
    return weight_in > dryer.load_limit


@runs.check("error", "Correct the weights: a run gives off water.")
def no_water_removed(water_removed: Expr) -> Expr:
    """A run that is done and took out no water."""
    return water_removed <= 0


@runs.check("error", "Correct the packs' weights, or name all the runs they came from.")
def packs_above_run(drawn: Expr, dried_out: Expr) -> Expr:
    """Packs that name this run alone hold more than it gave."""
    return drawn > dried_out + dried_out * BALANCE


@runs.check("caution", "Correct the date, or wait until it has come.")
def started_to_come(started: Expr, season: SingleRow) -> Expr:
    """Started after the day this was judged on."""
    return started - season.as_of >= ONE_DAY
