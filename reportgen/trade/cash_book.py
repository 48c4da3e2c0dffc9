"""From what was spent to the money that went out, line by line; and stall days still to come.

Spent is the produce and the running cost of what is done; money out is all that was paid. They
differ by the lines beside it (fees, overheads, the stall, paid time) and by the energy and upkeep
of runs that are not done.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    first_known,
    greatest,
    known,
    no,
    own_place,
    place_of,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG
from reportgen.algebra.views import Children, SingleRow
from reportgen.trade.constants import ONE_DAY
from reportgen.trade.tables import season, uses
from reportgen.units import HOUR, MONEY, Unit

DAY = Unit.of("d")


@uses.derived(FLAG)
def at_stall(of_stall: Expr, date: Expr, season: SingleRow) -> Expr:
    """Sold at the stall, on a day that has come."""
    return of_stall & first_known(date <= season.as_of, no())


@uses.derived(FLAG)
def stall_undated(of_stall: Expr, date: Expr) -> Expr:
    """Sold at the stall, on a day that nobody wrote down."""
    return of_stall & ~known(date)


@uses.derived(HOUR, label="stall day, from the day it is judged on")
def stall_day(at_stall: Expr, date: Expr, season: SingleRow) -> Expr:
    """The day at the stall as a number, by which days alike are found."""
    return where(at_stall, date - season.as_of, unknown())


@uses.derived(COUNT, label="place of the first of that day")
def stall_day_place(uses: Children, stall_day: Expr) -> Expr:
    """Where the first sale of the same day at the stall stands among the uses."""
    return place_of(uses.stall_day, stall_day)


@uses.derived(FLAG)
def first_at_stall(stall_day_place: Expr) -> Expr:
    """The first sale of its day at the stall: it speaks for the day."""
    return own_place(stall_day_place)


@season.derived(DAY, label="stall days with a sale")
def stall_days_held(uses: Children) -> Expr:
    """Days on which something was sold at the stall."""
    return count(uses, uses.first_at_stall) * ONE_DAY


@season.derived(COUNT, label="stall sales without a day")
def stall_sales_undated(uses: Children) -> Expr:
    """Sales at the stall of which nobody knows the day: all days then count as held."""
    return count(uses, uses.stall_undated)


@season.derived(DAY, label="stall days to come")
def stall_days_ahead(stall_sales_undated: Expr, pricing: SingleRow, stall_days_held: Expr) -> Expr:
    """Planned days at the stall without a sale yet."""
    return where(stall_sales_undated > 0, 0, greatest(pricing.days - stall_days_held, 0))


@season.derived(MONEY, label="stall, days to come")
def stall_ahead(
    market_days: Expr, markets: Children, stall_days_ahead: Expr, pricing: SingleRow
) -> Expr:
    """Planned stall days without a sale yet, or fees of market days to come: not in money out."""
    fees = total(markets.place_cost, markets.to_come)
    return where(market_days > 0, fees, stall_days_ahead * pricing.stall)


@season.derived(MONEY, label="energy and upkeep in spent so far")
def machine_in_spent(
    cost_energy: Expr, cost_upkeep: Expr, failed_running: Expr, failed_produce: Expr
) -> Expr:
    """Energy and upkeep of runs that are done or given up."""
    return cost_energy + cost_upkeep + failed_running - failed_produce


@season.derived(MONEY, label="energy and upkeep of runs not done")
def paid_for_going(money_out_machine: Expr, machine_in_spent: Expr) -> Expr:
    """Energy and upkeep of runs that are not done: paid, and not in spent so far."""
    return money_out_machine - machine_in_spent


@season.derived(MONEY, label="money out beyond spent so far")
def paid_beyond_spent(money_out: Expr, spent: Expr) -> Expr:
    """Fees, tax, overheads, the stall, paid time; energy and upkeep of runs not done."""
    return money_out - spent
