"""Energy by time of use: what a run took in each period of the tariff, and what that cost."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    first_known,
    known,
    no,
    size,
    total,
    total_known,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, SHARE
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import BALANCE, DEAR_ELECTRICITY, LOG_GAP
from reportgen.trade.tables import loads, periods, products, rates, run_energy, runs
from reportgen.trade.tariff import PRICED
from reportgen.units import ENERGY, FRESH, HOUR, KG, MONEY


@run_energy.derived(FLAG)
def logged(kwh: Expr) -> Expr:
    """A log has told the energy of the period."""
    return known(kwh)


@run_energy.derived(SHARE)
def share(kwh: Expr, run: Link) -> Expr:
    """The period's share of the run's energy, by the log."""
    return kwh / run.log_energy


@run_energy.derived(PRICED, label="hours by price")
def priced(hours: Expr, period: Link) -> Expr:
    """The log's hours in the period, times their price."""
    return hours * period.price


@run_energy.derived(MONEY)
def cost(run: Link, share: Expr, period: Link) -> Expr:
    """What the energy of the period cost; unknown where no period of the tariff holds."""
    return run.energy_used * share * period.price


@runs.derived(HOUR)
def hours_split(run_energy: Children) -> Expr:
    """Hours of its log, told apart by period of the tariff."""
    return total(run_energy.hours, run_energy.logged)


@runs.derived(PRICED, label="the log's hours by price")
def log_priced(run_energy: Children) -> Expr:
    """Hours of its log, each times its price when the log was read."""
    return total(run_energy.priced, run_energy.logged)


@runs.derived(COUNT)
def periods_logged(run_energy: Children) -> Expr:
    """How many periods of the tariff its log tells of."""
    return count(run_energy, run_energy.logged)


@runs.derived(ENERGY, label="energy by the log")
def log_energy(periods_logged: Expr, run_energy: Children) -> Expr:
    """Energy by the log of the power."""
    return where(periods_logged > 0, total(run_energy.kwh, run_energy.logged), unknown())


@runs.derived(MONEY)
def cost_logged(run_energy: Children) -> Expr:
    """What the energy cost by the log, over all periods."""
    return total(run_energy.cost, run_energy.logged)


@runs.derived(MONEY)
def cost_by_period(log_energy: Expr, cost_logged: Expr, cost_by_hours: Expr) -> Expr:
    """What the energy cost by time of use: as the log shares it out, else by the hours."""
    return where(known(log_energy), cost_logged, cost_by_hours)


@rates.derived(MONEY / ENERGY)
def electricity_paid(electricity: Expr, season: SingleRow) -> Expr:
    """Price of electricity: the one price, else what the season's runs paid on average."""
    return first_known(electricity, season.energy_cost / season.energy_used)


@runs.derived(HOUR)
def hours_unlogged(run_energy: Children) -> Expr:
    """Hours without a reading in the log: gaps, and what it leaves out."""
    return total_known(run_energy.unlogged)


@runs.check("caution", "See whether the log misses what the run took; else use the meter's count.")
def log_incomplete(hours_unlogged: Expr) -> Expr:
    """The log lacks readings of the run: gaps are bridged, time before and after is left out."""
    return hours_unlogged > LOG_GAP


@runs.check("caution", "Find out which is right: a plug may have stood on another device.")
def log_differs(metered: Expr, log_energy: Expr) -> Expr:
    """The meter and the log do not agree; the meter counts."""
    return size(log_energy - metered) > metered * BALANCE


@runs.check("caution", "Build again from the season's files: the log is then read for these hours.")
def hours_not_split(hours_split: Expr, hours: Expr) -> Expr:
    """The hours of the log are not those of the run; its cost is shared by them all the same."""
    return (hours_split > 0) & (size(hours_split - hours) > LOG_GAP)


@runs.check("caution", "Build again from the season's files: the log is then read for these hours.")
def log_of_other_hours(log_priced: Expr, periods_logged: Expr, hours_priced: Expr) -> Expr:
    """Start or tariff were changed since the log was read: its hours had other prices."""
    return (periods_logged > 0) & (size(log_priced - hours_priced) > hours_priced * BALANCE)


@runs.check(
    "caution",
    "Write the price of electricity; with prices by time of day, the clock time of the start, and "
    "a period without from and to for the rest of the day.",
)
def energy_without_price(energy_used: Expr, energy_cost: Expr) -> Expr:
    """The energy is known, its cost is not: there is no price for some of the hours."""
    return known(energy_used) & ~known(energy_cost)


@rates.check("caution", "Check its unit: cents are written as 21.2 cents per kWh.")
def electricity_dear(electricity: Expr, season: SingleRow) -> Expr:
    """A price of electricity out of all proportion."""
    return first_known((electricity > DEAR_ELECTRICITY) & season.dollar_sized, no())


@periods.check("caution", "Check its unit: cents are written as 21.2 cents per kWh.")
def period_dear(price: Expr, season: SingleRow) -> Expr:
    """A price of electricity out of all proportion in one period."""
    return (price > DEAR_ELECTRICITY) & season.dollar_sized


@loads.derived(ENERGY)
def energy_share(run: Link, run_share: Expr) -> Expr:
    """Its part of the run's energy, by the water it gave up."""
    return run.energy_used * run_share


@products.derived(ENERGY)
def energy_used(loads: Children) -> Expr:
    """Energy of its finished loads."""
    return total(loads.energy_share, loads.finished)


@products.derived(FRESH)
def water_removed(loads: Children) -> Expr:
    """Water taken out of it in its finished loads."""
    return total(loads.water_removed, loads.finished)


@products.derived(ENERGY / KG, label="energy by water removed")
def specific_energy(energy_used: Expr, water_removed: Expr) -> Expr:
    """Energy by water removed, over its finished loads."""
    return energy_used / water_removed
