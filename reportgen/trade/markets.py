"""Market days: what was to be taken in, what was, and what the day left, in all and by the hour.

Sales stand at their prices everywhere else. What the purse says otherwise is the day's difference,
which is the season's and no product's; so are the fee of the day, its driving and its time.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, first_known, known, no, same, total, unknown, where
from reportgen.algebra.tables import COUNT, DATE, FLAG
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.channels import IN_A_PRICE
from reportgen.trade.constants import ONE_DAY
from reportgen.trade.tables import markets, season, uses
from reportgen.units import HOUR, MONEY

A_MARKET_DAY = (
    "cost to market: fees, driving, time and samples against what was taken in, the method of "
    "extension services"
)


@markets.derived(DATE)
def day(date: Expr) -> Expr:
    """Its day, where it is known."""
    return where(known(date), date, unknown())


@markets.derived(MONEY, label="fee of the day")
def place_cost(fee: Expr) -> Expr:
    """What the place cost; nothing where no fee is written."""
    return where(fee > 0, fee, 0)


@markets.derived(COUNT, label="packs sold")
def packs_sold(market_packs: Children) -> Expr:
    """How many containers were sold."""
    return total(market_packs.sold)


@markets.derived(MONEY, label="to be taken in")
def expected(market_packs: Children) -> Expr:
    """What was to be taken in: what was sold, at its prices, tax included."""
    return total(market_packs.paid)


@markets.derived(COUNT)
def purses(market_takings: Children) -> Expr:
    """How many sums taken in were written."""
    return count(market_takings)


@markets.derived(MONEY, label="taken in")
def takings(market_takings: Children, purses: Expr) -> Expr:
    """What was taken in, however it was paid; unknown where nobody wrote it."""
    return where(purses > 0, total(market_takings.amount), unknown())


@markets.derived(MONEY, label="more than was to be")
def difference(takings: Expr, expected: Expr) -> Expr:
    """What was taken in above what was to be; below 0: it lacks."""
    return takings - expected


@markets.derived(FLAG, label="counted")
def purse_known(purses: Expr) -> Expr:
    """What was taken in was written."""
    return purses > 0


@markets.derived(MONEY, label="taken in, or to be")
def taken_in(takings: Expr, expected: Expr) -> Expr:
    """What was taken in: as written, else as it was to be."""
    return first_known(takings, expected)


@markets.derived(MONEY, source=IN_A_PRICE, label="tax in it")
def tax_in_it(taken_in: Expr, channel: Link) -> Expr:
    """The tax that is in what was taken in; it is passed on."""
    return taken_in - taken_in * channel.net_share


@markets.derived(MONEY)
def fees(taken_in: Expr, channel: Link) -> Expr:
    """What selling it cost, as a share of what was taken in."""
    return taken_in * channel.fees_taken


@markets.derived(MONEY, label="driving")
def travel_cost(travel: Expr, rates: SingleRow) -> Expr:
    """Driving there and back, at the rate."""
    return where(travel > 0, travel * rates.travel, 0)


@markets.derived(MONEY, label="time, at the rate")
def labor_cost(labor: Expr, rates: SingleRow) -> Expr:
    """Time of the day, at the rate."""
    return where(labor > 0, labor * rates.labor, 0)


@markets.derived(MONEY, label="running cost of what did not come back")
def running_out(market_packs: Children) -> Expr:
    """Running cost of all that did not come back, samples included."""
    return total(market_packs.running_out)


@markets.derived(MONEY, label="full cost of what did not come back")
def cost_out(market_packs: Children) -> Expr:
    """Full cost of all that did not come back, samples included."""
    return total(market_packs.cost_out)


@markets.derived(MONEY, label="after tax, fees, place and driving")
def brought(
    taken_in: Expr, tax_in_it: Expr, fees: Expr, place_cost: Expr, travel_cost: Expr
) -> Expr:
    """What was taken in, less tax and fees on it, the fee of the day and driving."""
    return taken_in - tax_in_it - fees - place_cost - travel_cost


@markets.derived(MONEY, source=A_MARKET_DAY, label="left of the day")
def left(brought: Expr, running_out: Expr) -> Expr:
    """What the day left: the same, less the running cost of all that did not come back."""
    return brought - running_out


@markets.derived(MONEY, source=A_MARKET_DAY, label="left after full cost and time")
def left_full(brought: Expr, cost_out: Expr, labor_cost: Expr) -> Expr:
    """What the day left after the full cost of all that did not come back, and its time."""
    return brought - cost_out - labor_cost


@markets.derived(MONEY / HOUR, source=A_MARKET_DAY, label="left by the hour")
def left_per_hour(left: Expr, labor: Expr) -> Expr:
    """What the day left for each hour of it; unknown where no time is written."""
    return left / labor


# The season's.


@season.derived(COUNT, label="market days")
def market_days(markets: Children) -> Expr:
    """How many market days there are."""
    return count(markets)


@season.derived(MONEY, label="fees of market days")
def market_fees(markets: Children) -> Expr:
    """What the places cost on all market days."""
    return total(markets.place_cost)


@season.derived(MONEY, label="driving to markets")
def market_driving(markets: Children) -> Expr:
    """Driving to all market days, at the rate."""
    return total(markets.travel_cost)


@season.derived(MONEY, label="time at markets")
def market_labor(markets: Children) -> Expr:
    """Time of all market days, at the rate."""
    return total(markets.labor_cost)


@season.derived(MONEY, label="taken in at markets above their prices")
def market_difference(markets: Children) -> Expr:
    """What was taken in above what was to be, over the market days of which it is written; below
    0: it lacks."""
    return total(markets.difference, markets.purse_known)


# What may be a slip.


@markets.derived(FLAG)
def to_come(date: Expr, season: SingleRow) -> Expr:
    """Its day has not come yet."""
    return first_known(date > season.as_of, no())


@markets.derived(FLAG)
def held(to_come: Expr) -> Expr:
    """Its day has come."""
    return ~to_come


@markets.check("caution", "Correct the date, or wait until it has come.")
def dated_ahead(to_come: Expr) -> Expr:
    """Dated after the day this was judged on."""
    return to_come


@markets.derived(COUNT)
def came_back(market_packs: Children) -> Expr:
    """How many came back, or were tasted."""
    return total(market_packs.back) + total(market_packs.samples)


@markets.check("caution", "Write what came back and what was taken in.")
def not_written_up(packs_sold: Expr, came_back: Expr, purses: Expr) -> Expr:
    """Nothing came back and no takings are written: all that was taken there counts as sold."""
    return (packs_sold > 0) & (came_back <= 0) & (purses <= 0)


@uses.derived(COUNT)
def markets_by(markets: Children, channel: Link, day_after: Expr) -> Expr:
    """Market days of its channel, up to and with its day."""
    return count(same(markets.channel, channel).date.before(day_after))


@uses.derived(COUNT)
def markets_before(markets: Children, channel: Link, sold_on: Expr) -> Expr:
    """Market days of its channel, before its day."""
    return count(same(markets.channel, channel).date.before(sold_on))


@uses.derived(DATE)
def sold_on(day_after: Expr) -> Expr:
    """Its day, where it is known."""
    return day_after - ONE_DAY


@uses.check("caution", "Delete it, or take it out of the market's took, if it was one sale.")
def at_a_market(sold: Expr, markets_by: Expr, markets_before: Expr) -> Expr:
    """A sale on the day of a market day of its channel: it may be counted twice."""
    return sold & (markets_by > markets_before)
