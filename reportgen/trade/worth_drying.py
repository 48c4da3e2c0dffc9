"""What is worth drying: what each product earned, by hour of the machine, by run, by hour of work.

Earned is what it is worth above its running cost, of what was sold or kept; what is still in bulk
has earned nothing yet, though it took its hours.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, find, known, rank, total, unknown, where
from reportgen.algebra.tables import COUNT, FLAG, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import loads, products, runs, season, worth_drying
from reportgen.units import HOUR, MONEY, ONE

BY_HOUR = MONEY / HOUR


@runs.derived(HOUR, label="hours of the machine")
def machine_hours(hours: Expr, dryer: Link) -> Expr:
    """How long it held the dryer: its hours, and the turnaround after it."""
    return hours + dryer.turnaround


@loads.derived(HOUR, label="hours of the machine")
def machine_hours(run: Link, run_share: Expr) -> Expr:
    """Its share of the hours that the run held the dryer."""
    return run.machine_hours * run_share


@products.derived(HOUR, label="hours of the machine")
def machine_hours(loads: Children) -> Expr:
    """Hours of the machine that its finished loads took, by their shares of the runs."""
    return total(loads.machine_hours, loads.finished)


@products.derived(ONE, label="whole runs it took")
def runs_taken(loads: Children) -> Expr:
    """Runs that it took, a shared one by its share."""
    return total(loads.run_share, loads.finished)


@products.derived(HOUR, label="hours of work, written")
def hours_written(hours: Expr, pack_hours: Expr) -> Expr:
    """Hours of work on its lots, runs and packs, as far as they were written."""
    return hours + pack_hours


@products.derived(HOUR, label="hours of work")
def hours_worked(hours_written: Expr) -> Expr:
    """The same, where any were written."""
    return where(hours_written > 0, hours_written, unknown())


@products.derived(MONEY)
def earned(valued_weight: Expr, gain_packed: Expr) -> Expr:
    """What was sold or kept is worth, above its running cost."""
    return valued_weight * gain_packed


@products.derived(
    BY_HOUR,
    label="earned by hour of the machine",
    source="contribution by unit of what is scarce, a method of cost accounting",
)
def earned_per_machine_hour(earned: Expr, machine_hours: Expr) -> Expr:
    """What it earned for each hour that it held a dryer: what is worth drying."""
    return earned / machine_hours


@products.derived(MONEY, label="earned by run")
def earned_per_run(earned: Expr, runs_taken: Expr) -> Expr:
    """What it earned for each run that it took."""
    return earned / runs_taken


@products.derived(BY_HOUR, label="earned by hour of work")
def earned_per_hour(earned: Expr, hours_worked: Expr) -> Expr:
    """What it earned for each hour of work; not known where none were written."""
    return earned / hours_worked


@products.derived(TEXT)
def ranked(earned_per_machine_hour: Expr) -> Expr:
    """The list in which it is ranked, where what it earned is known."""
    return where(known(earned_per_machine_hour), "worth drying", unknown())


@products.derived(FLAG)
def unranked(runs_taken: Expr, earned_per_machine_hour: Expr) -> Expr:
    """It took a dryer, and what it earned is not known."""
    return (runs_taken > 0) & ~known(earned_per_machine_hour)


@season.derived(COUNT, label="dried, and not in this list")
def worth_unranked(products: Children) -> Expr:
    """Products of which it is not known what they earned: some is kept, without a shop price, or
    nothing is packed."""
    return count(products, products.unranked)


@products.derived(COUNT, label="its place in what is worth drying")
def worth_turn(earned_per_machine_hour: Expr, ranked: Expr) -> Expr:
    """Its place by what it earned for each hour of the machine, 1 for the most."""
    return rank(earned_per_machine_hour, ranked, highest=True)


@products.derived(TEXT, label="hours of work")
def hours_said(hours_written: Expr) -> Expr:
    """Whether hours of work were written."""
    return where(hours_written > 0, "written", "none written")


@worth_drying.link(products)
def product(products: Children, place: Expr) -> Expr:
    """The product in this place."""
    return find(products.worth_turn, place)


@worth_drying.derived(TEXT, label="product")
def called(product: Link) -> Expr:
    """Its name."""
    return product.called


@worth_drying.derived(HOUR, label="hours of the machine")
def machine_hours(product: Link) -> Expr:
    """Hours that it held a dryer."""
    return product.machine_hours


@worth_drying.derived(MONEY)
def earned(product: Link) -> Expr:
    """What it earned, above its running cost."""
    return product.earned


@worth_drying.derived(BY_HOUR, label="earned by hour of the machine")
def earned_per_machine_hour(product: Link) -> Expr:
    """What it earned for each hour that it held a dryer."""
    return product.earned_per_machine_hour


@worth_drying.derived(MONEY, label="earned by run")
def earned_per_run(product: Link) -> Expr:
    """What it earned for each run that it took."""
    return product.earned_per_run


@worth_drying.derived(BY_HOUR, label="earned by hour of work")
def earned_per_hour(product: Link) -> Expr:
    """What it earned for each hour of work; not known where none were written."""
    return product.earned_per_hour


@worth_drying.derived(TEXT, label="hours of work")
def hours_said(product: Link) -> Expr:
    """Whether hours of work were written."""
    return product.hours_said
