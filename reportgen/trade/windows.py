"""As long as the produce is to be had, and as much of it: what fits, and what does not."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    first_known,
    greatest,
    join,
    known,
    least,
    round_up,
    same,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.closed import lain_back
from reportgen.trade.constants import ONE_DAY
from reportgen.trade.tables import nominal_weights, plan
from reportgen.units import DRIED, FRESH, HOUR, MONEY

# --- as much as is to be had ----------------------------------------------------------------------


@plan.derived(FLAG, label="only so much is to be had")
def limited(at_most: Expr, at_most_weight: Expr) -> Expr:
    """It says how much there is to be had at most."""
    return known(at_most) | known(at_most_weight)


@plan.derived(TEXT, label="at most, of which container")
def most_of(at_most_of: Expr, buy_used: Expr) -> Expr:
    """The container that at most counts: the one named, else what it is bought in."""
    return first_known(at_most_of, buy_used)


@plan.derived(TEXT)
def most_name(product: Link, most_of: Expr) -> Expr:
    """Product and that container, which name a weight."""
    return join(product, "/", most_of)


@plan.link(nominal_weights)
def most_in(most_name: Expr) -> Expr:
    """The nominal weight of that container."""
    return most_name


@plan.derived(FRESH, label="one of these holds")
def most_each(most_of: Expr, buy_used: Expr, container_weight: Expr, most_in: Link) -> Expr:
    """What one holds that at most counts: as the row is bought, where it is the same container."""
    return where(most_of == buy_used, container_weight, most_in.weight)


@plan.derived(FRESH, label="to be had at most")
def most_bought(at_most_weight: Expr, at_most: Expr, most_each: Expr) -> Expr:
    """The most that is to be had, as bought."""
    return first_known(at_most_weight, at_most * most_each)


@plan.derived(FRESH, label="prepped weight planned")
def prepped_planned(limited: Expr, prepped_needed: Expr, most_bought: Expr, product: Link) -> Expr:
    """Prepped weight that is bought: what is needed, and no more than is to be had."""
    most = least(prepped_needed, most_bought * product.prep_yield_used)
    return where(limited, most, prepped_needed)


@plan.derived(DRIED, label="dried weight it is short of")
def short(limited: Expr, prepped_needed: Expr, prepped_planned: Expr, product: Link) -> Expr:
    """Dried weight that is not made, because no more is to be had."""
    missing = (prepped_needed - prepped_planned) / product.ratio_used
    return where(limited, missing, unknown())


@plan.derived(COUNT, label="left empty")
def count_short(short: Expr, net: Expr) -> Expr:
    """How many stay empty, because no more is to be had."""
    return round_up(short / net, 1)


@plan.derived(COUNT, label="to be filled")
def count_filled(limited: Expr, count_left: Expr, count_short: Expr) -> Expr:
    """How many will be filled of those that are still to make."""
    return where(limited, count_left - count_short, count_left)


@plan.derived(DRIED, label="dried weight planned")
def dried_planned(limited: Expr, dried_needed: Expr, short: Expr) -> Expr:
    """Dried weight that will be made."""
    return where(limited, dried_needed - short, dried_needed)


@plan.check("caution", "Plan fewer, buy elsewhere too, or plan the rest for later.")
def too_little(short: Expr) -> Expr:
    """Less is to be had than is needed: some will stay empty."""
    return short > 0


# --- as long as it is to be had -------------------------------------------------------------------


@plan.derived(FLAG, label="gone some day")
def goes(until: Expr) -> Expr:
    """It says until when it is to be had."""
    return known(until)


@plan.derived(HOUR, label="gone")
def gone(until: Expr, season: SingleRow) -> Expr:
    """The end of the last day on which it is to be had, in hours from the plan's first start."""
    return until + ONE_DAY - season.plan_start


@plan.derived(HOUR, label="since it closed, when it is gone")
def closed_since_gone(closed: Children, dryer: Link, gone: Expr) -> Expr:
    """Hours from each time that the dryer closed before then until then, added up."""
    return lain_back(same(closed.dryer, dryer).closes.before(gone), "closes", gone)


@plan.derived(HOUR, label="since it opened, when it is gone")
def opened_since_gone(closed: Children, dryer: Link, gone: Expr) -> Expr:
    """Hours from each time that it opened again before then until then, added up."""
    return lain_back(same(closed.dryer, dryer).opens.before(gone), "opens", gone)


@plan.derived(HOUR, label="gone, in open hours")
def open_gone(gone: Expr, closed_since_gone: Expr, opened_since_gone: Expr) -> Expr:
    """The end of that day, in open hours of its dryer."""
    return gone - closed_since_gone + opened_since_gone


@plan.derived(COUNT, label="runs that do not fit")
def runs_over(runs_needed: Expr, open_finish: Expr, open_gone: Expr, slot: Expr) -> Expr:
    """Runs that end after the last day on which it is to be had."""
    return least(runs_needed, round_up(greatest(open_finish - open_gone, 0) / slot, 1))


@plan.derived(COUNT, label="runs that fit")
def runs_fit(runs_needed: Expr, runs_over: Expr) -> Expr:
    """Runs that end by the end of that day."""
    return runs_needed - runs_over


@plan.derived(FRESH, label="to be dried")
def to_run(prepped_planned: Expr, waiting_here: Expr) -> Expr:
    """Prepped weight that goes on the trays: what is bought, and what is waiting."""
    return prepped_planned + waiting_here


@plan.derived(FRESH, label="weight that does not fit")
def weight_over(to_run: Expr, runs_fit: Expr, run_weight: Expr) -> Expr:
    """Prepped weight that is left over when it is gone."""
    return greatest(to_run - runs_fit * run_weight, 0)


@plan.derived(MONEY, label="would have earned")
def earned_over(weight_over: Expr, product: Link) -> Expr:
    """What that would have been worth, dried, above its running cost."""
    return weight_over / product.ratio_used * product.gain_packed


@plan.check(
    "caution", "Begin sooner, put it in another dryer, move closed days, or buy less of it."
)
def does_not_fit(runs_over: Expr) -> Expr:
    """Runs that do not end by the last day on which it is to be had."""
    return runs_over > 0


@plan.check("error", "Correct start or until.")
def gone_before_start(until: Expr, start: Expr) -> Expr:
    """It is gone before it starts."""
    return until < start


@plan.check("caution", "Write a start; then it is known what fits.")
def until_without_start(goes: Expr, start: Expr) -> Expr:
    """It says until when, and not from when: what fits is not known."""
    return goes & ~known(start)
