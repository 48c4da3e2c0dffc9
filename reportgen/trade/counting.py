"""Counting the shelf: what was really there on a day, against what had been written until then.

From a count on, the count holds: what is missing is a loss of the season by itself, in no cost by
weight and in nothing that was kept. More than the books had is found, a loss below 0.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    find,
    first_known,
    join,
    known,
    plain,
    rank,
    same,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, DATE, FLAG, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import ONE_DAY, ONE_MINUTE
from reportgen.trade.tables import counts, loads, packs, products, season
from reportgen.units import DRIED, MONEY


@counts.derived(FLAG)
def of_bulk(pack: Link) -> Expr:
    """Bulk was weighed, not a pack counted."""
    return pack == ""


@counts.link(products)
def of_product(pack: Link, product: Link) -> Expr:
    """The product counted: the pack's, or the bulk's."""
    return where(pack == "", product, pack.product)


@counts.derived(DATE, label="end of the day")
def day_over(date: Expr) -> Expr:
    """The end of its day, a minute before midnight, as times are written to the minute."""
    return date + ONE_DAY - ONE_MINUTE


# The counts of one shelf follow each other by their days.


@counts.derived(TEXT, label="what was counted")
def shelf(pack: Link, product: Link) -> Expr:
    """The pack, or the bulk of a product."""
    return where(pack == "", join(product, "/"), pack)


@counts.derived(DATE)
def counted_on(date: Expr) -> Expr:
    """Its day, where it is known: a blank cell would rank as the first of all."""
    return where(known(date), date, unknown())


@counts.derived(COUNT, label="its turn among the counts")
def turn(counted_on: Expr, shelf: Expr) -> Expr:
    """Its place among the counts of the same, by day."""
    return rank(counted_on, shelf)


@counts.derived(TEXT)
def turn_of(shelf: Expr, turn: Expr) -> Expr:
    """What was counted, and its turn."""
    return join(shelf, "/", plain(turn))


@counts.derived(TEXT)
def turn_before(shelf: Expr, turn: Expr) -> Expr:
    """What was counted, and the turn before."""
    return join(shelf, "/", plain(turn - 1))


@counts.link(counts)
def count_before(counts: Children, turn_before: Expr) -> Expr:
    """The count before it, of the same."""
    return find(counts.turn_of, turn_before)


# Packs.


@counts.derived(COUNT)
def taken_by(uses: Children, pack: Link, day_over: Expr) -> Expr:
    """Containers that uses took up to and with that day; a use without a day came before all."""
    return total(same(uses.pack, pack).date.before(day_over).containers)


@counts.derived(COUNT)
def sold_by(market_packs: Children, pack: Link, day_over: Expr) -> Expr:
    """Containers that did not come back from markets up to and with that day."""
    return total(same(market_packs.pack, pack).day.before(day_over).gone)


@counts.derived(COUNT)
def should_be(pack: Link, taken_by: Expr, sold_by: Expr) -> Expr:
    """Containers there would be, had nothing gone missing before."""
    return pack.filled - taken_by - sold_by


@counts.derived(COUNT)
def gone_missing(should_be: Expr, counted: Expr) -> Expr:
    """Containers that went missing since the pack was filled."""
    return should_be - counted


@counts.derived(COUNT)
def missing(turn: Expr, gone_missing: Expr, count_before: Link) -> Expr:
    """Containers that went missing since the count before; below 0: found."""
    return where(turn > 1, gone_missing - count_before.gone_missing, gone_missing)


# Bulk.


@loads.derived(DATE)
def came_out(run: Link) -> Expr:
    """When its run ended; where that is not known, before all."""
    return first_known(run.end, 0)


@loads.derived(DATE)
def went_in(run: Link) -> Expr:
    """When its run began; where that is not known, before all."""
    return first_known(run.started, 0)


@counts.derived(DRIED)
def dried_by(loads: Children, product: Link, day_over: Expr) -> Expr:
    """Weight that came out of runs ended by then."""
    rows = same(loads.product, product).came_out.before(day_over)
    return total(rows.weight_out, rows.finished)


@counts.derived(DRIED)
def put_back_by(loads: Children, product: Link, day_over: Expr) -> Expr:
    """Weight that had gone back in by then."""
    rows = same(loads.product, product).went_in.before(day_over)
    return total(rows.put_back)


@counts.derived(DRIED)
def packed_by(packs: Children, product: Link, day_over: Expr) -> Expr:
    """Weight packed by then."""
    rows = same(packs.product, product).date.before(day_over)
    return total(rows.from_bulk)


@counts.derived(DRIED)
def bulk_used_by(uses: Children, product: Link, day_over: Expr) -> Expr:
    """Bulk used without being packed by then."""
    rows = same(uses.product, product).date.before(day_over)
    return total(rows.content, rows.of_bulk)


@counts.derived(DRIED)
def bulk_should_be(
    product: Link, dried_by: Expr, put_back_by: Expr, packed_by: Expr, bulk_used_by: Expr
) -> Expr:
    """Bulk there would be, had nothing gone missing before."""
    return product.carried + dried_by - put_back_by - packed_by - bulk_used_by


@counts.derived(DRIED)
def bulk_gone_missing(bulk_should_be: Expr, weight: Expr) -> Expr:
    """Bulk that went missing in all, by then."""
    return bulk_should_be - weight


@counts.derived(DRIED)
def bulk_missing(turn: Expr, bulk_gone_missing: Expr, count_before: Link) -> Expr:
    """Bulk that went missing since the count before; below 0: found."""
    before = count_before.bulk_gone_missing
    return where(turn > 1, bulk_gone_missing - before, bulk_gone_missing)


@counts.derived(DRIED)
def missing_weight(of_bulk: Expr, bulk_missing: Expr, missing: Expr, pack: Link) -> Expr:
    """Weight that went missing since the count before; below 0: found."""
    return where(of_bulk, bulk_missing, missing * pack.net)


@counts.derived(MONEY, label="full cost of what is missing")
def cost(of_bulk: Expr, bulk_missing: Expr, of_product: Link, missing: Expr, pack: Link) -> Expr:
    """What that had cost in full."""
    return where(of_bulk, bulk_missing * of_product.full_bulk, missing * pack.full_each)


@packs.derived(COUNT)
def missing(counts: Children) -> Expr:
    """How many went missing, by the counts."""
    return total(counts.missing)


@products.derived(DRIED, label="missing from bulk")
def bulk_missing(counts: Children) -> Expr:
    """Bulk that went missing, by the counts."""
    return total(counts.missing_weight, counts.of_bulk)


@season.derived(MONEY, label="lost by what is missing")
def shrinkage(counts: Children) -> Expr:
    """Full cost of what the counts found missing: a loss by itself, in no product's cost."""
    return total(counts.cost)


@counts.check("caution", "Correct the count, or the pack's count.")
def counted_above_filled(pack: Link, counted: Expr) -> Expr:
    """More were counted than were ever filled."""
    return counted > pack.filled


@counts.check("caution", "Correct the date of the count or of the pack.")
def counted_before_packed(pack: Link, date: Expr) -> Expr:
    """Counted before the day the pack was filled."""
    return date < pack.date


@counts.check("caution", "Correct the date, or wait until it has come.")
def counted_to_come(date: Expr, season: SingleRow) -> Expr:
    """Dated after the day this was judged on."""
    return date > season.as_of
