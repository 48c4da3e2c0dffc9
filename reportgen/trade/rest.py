"""Uses that took all that was left in bulk: what that was, by the books.

A use of bulk may say *rest* in place of a weight: the day's balance of what was dried and carried
over, less what was packed and used up to and with that day, and less what earlier rests took. With
A(k) the balance of a rest without any rests, those up to and with it have taken the greatest of
A(1) to A(k), or nothing where that is below zero; it took what they had not taken before. The rows
that a rest looks at follow from the records, as those of the trace do.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    estimate,
    first_known,
    greatest,
    known,
    lowest,
    size,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import DATE, FLAG, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.constants import ONE_DAY
from reportgen.trade.tables import loads, packs, rest_steps, uses
from reportgen.units import DRIED


@loads.derived(DATE)
def run_end(run: Link) -> Expr:
    """When its run ended."""
    return run.end


@loads.derived(DRIED)
def put_back(gone: Expr, second_pass: Expr, weight_in: Expr) -> Expr:
    """What went back in with it, not yet dry, and is out again or lost."""
    return where(gone & second_pass, weight_in, 0)


@loads.derived(DRIED)
def gave(finished: Expr, weight_out: Expr, put_back: Expr) -> Expr:
    """What it added to the bulk: its dry weight, less what had gone back in."""
    return where(finished, weight_out - put_back, 0 - put_back)


@packs.derived(DRIED)
def from_bulk(of_runs: Expr, dried_content: Expr) -> Expr:
    """What it took from the bulk of the season."""
    return where(of_runs, dried_content, 0)


@uses.derived(DRIED)
def bulk_weighed(of_bulk: Expr, rest: Expr, weight: Expr) -> Expr:
    """Bulk that it took by weight."""
    return where(of_bulk & ~rest, weight, 0)


@rest_steps.link(uses)
def use(taken: Expr) -> Expr:
    """The use that took all that was left."""
    return taken


@rest_steps.derived(TEXT, label="product")
def of_product(load: Link, pack: Link, of_rest: Expr) -> Expr:
    """The product that it moved."""
    return where(load != "", load.product, where(pack != "", pack.product, of_rest))


@rest_steps.derived(TEXT)
def of_rest(part: Link, other: Link) -> Expr:
    """The product that a mix or another use took."""
    return where(part != "", part.of_product, other.of_product)


@rest_steps.derived(DATE)
def day(load: Link, pack: Link, day_taken: Expr) -> Expr:
    """When the load came out, the pack was filled, the mix was made, or the other use was."""
    return where(load != "", load.run_end, where(pack != "", pack.date, day_taken))


@rest_steps.derived(DATE)
def day_taken(part: Link, other: Link) -> Expr:
    """When the mix was made, or the other use was."""
    return where(part != "", part.date, other.date)


@rest_steps.derived(DRIED, label="into bulk, or out of it")
def weight(load: Link, pack: Link, taken_from: Expr) -> Expr:
    """What it added to the bulk; below 0: what it took."""
    taken = where(pack != "", 0 - pack.from_bulk, 0 - taken_from)
    return where(load != "", load.gave, taken)


@rest_steps.derived(DRIED)
def taken_from(part: Link, other: Link) -> Expr:
    """What a mix or another use took from the bulk."""
    return where(part != "", part.bulk_weight, other.bulk_weighed)


@rest_steps.derived(FLAG)
def of_the_same(of_product: Expr, use: Link) -> Expr:
    """It moved the product of the use."""
    return of_product == use.of_product


@rest_steps.derived(FLAG)
def moves(of_the_same: Expr, weight: Expr) -> Expr:
    """It moved some of it; what moved nothing needs no day."""
    return of_the_same & (size(weight) > 0)


@rest_steps.derived(FLAG)
def by_then(day: Expr, use: Link) -> Expr:
    """Up to and with the day of the use."""
    return day - use.date < ONE_DAY


@rest_steps.derived(DRIED, label="of it, up to that day")
def moved(moves: Expr, by_then: Expr, weight: Expr) -> Expr:
    """The same, up to and with the day of the use."""
    return where(moves, weight * by_then, 0)


@uses.derived(DRIED)
def balance(rest: Expr, rest_steps: Children, of_product: Link) -> Expr:
    """What was in bulk that day, had nobody taken all of it before."""
    return where(rest, total(rest_steps.moved) + of_product.carried, unknown())


@rest_steps.derived(FLAG)
def earlier_rest(other: Link, use: Link) -> Expr:
    """It is an earlier use that took all that was left."""
    return other.rest & (other.date < use.date)


@rest_steps.derived(DRIED)
def lacking(earlier_rest: Expr, of_the_same: Expr, other: Link) -> Expr:
    """The balance of an earlier use that took all of it, with the other sign."""
    return where(earlier_rest & of_the_same, 0 - other.balance, unknown())


@uses.derived(DRIED)
def taken_before(rest_steps: Children) -> Expr:
    """What earlier uses that took all that was left had taken."""
    return first_known(greatest(0 - lowest(rest_steps.lacking), 0), 0)


@uses.derived(DRIED, label="all that was left")
def weight_left(rest: Expr, balance: Expr, taken_before: Expr) -> Expr:
    """All that was left, by the books: nobody weighed it."""
    return where(rest, estimate(greatest(balance - taken_before, 0)), unknown())


@uses.derived(DRIED, label="weight of bulk used")
def bulk_weight(weight: Expr, weight_left: Expr) -> Expr:
    """Weight of bulk that it took: as written, else all that was left."""
    return first_known(weight, weight_left)


@uses.check(
    "caution",
    "Write the days of its runs, packs and uses, or the weight; in a workbook, build it again.",
)
def rest_unknown(rest: Expr, bulk_weight: Expr) -> Expr:
    """All that was left was taken, and what that was is not known."""
    return rest & ~known(bulk_weight)


@uses.check("caution", "Correct its day or the weights before it, or delete it.")
def rest_of_nothing(weight_left: Expr) -> Expr:
    """All that was left was taken, and nothing was left."""
    return weight_left <= 0
