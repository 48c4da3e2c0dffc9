"""What of the plan is there already, and what has to be made.

What is on the shelf, in bulk and waiting counts first, and once: rows of the same product take
from it in the order of the queue, each what the rows ahead have left; behind a row of which it is
not known how much it takes, what is left is unknown.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    ahead,
    greatest,
    join,
    known,
    same,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import plan
from reportgen.units import DRIED, FRESH


@plan.derived(COUNT)
def on_shelf(packs: Children, priced_as: Expr) -> Expr:
    """How many of them are on the shelf."""
    return total(same(packs.priced_as, priced_as).on_hand)


def _left(stock: Expr, wanted: Expr) -> Expr:
    """What is left of a stock by those who want so much of it, and never less than nothing."""
    return greatest(stock - wanted, 0)


@plan.derived(TEXT)
def packed_in(product: Link, container: Link) -> Expr:
    """Product and container, of whatever net weight."""
    return join(product, "/", container)


@plan.derived(DRIED)
def nets_ahead(net: Expr, packed_in: Expr, turn: Expr) -> Expr:
    """Net weights of the rows ahead, of the same product and container, where all are known."""
    return ahead(net, packed_in, turn)


@plan.derived(COUNT)
def taken_ahead(count: Expr, priced_as: Expr, turn: Expr) -> Expr:
    """How many the rows ahead, for the same packs, want."""
    return ahead(count, priced_as, turn)


@plan.derived(COUNT)
def shelf_left(on_shelf: Expr, taken_ahead: Expr, nets_ahead: Expr) -> Expr:
    """How many of them the rows ahead, for the same packs, have left; one without a net weight may
    have taken them all."""
    return where(known(nets_ahead), _left(on_shelf, taken_ahead), unknown())


@plan.derived(COUNT, label="still to make")
def count_left(count: Expr, shelf_left: Expr) -> Expr:
    """How many are still to be made."""
    return greatest(count - shelf_left, 0)


@plan.derived(DRIED)
def content_left(count_left: Expr, net: Expr) -> Expr:
    """What they are to hold."""
    return count_left * net


@plan.derived(DRIED)
def content_ahead(content_left: Expr, product: Link, turn: Expr) -> Expr:
    """What the packs of the rows ahead, of the same product, are to hold."""
    return ahead(content_left, product, turn)


@plan.derived(DRIED)
def bulk_left(product: Link, content_ahead: Expr) -> Expr:
    """Bulk that the rows ahead, of the same product, have left; below zero is nothing."""
    return _left(product.unpacked, content_ahead)


@plan.derived(DRIED, label="dried weight needed")
def dried_needed(content_left: Expr, bulk_left: Expr) -> Expr:
    """Dried weight still to be made; bulk at hand counts first."""
    return greatest(content_left - bulk_left, 0)


@plan.derived(FRESH)
def to_dry(dried_needed: Expr, product: Link) -> Expr:
    """Prepped weight that has to be dried."""
    return dried_needed * product.ratio_used


@plan.derived(FRESH)
def to_dry_ahead(to_dry: Expr, product: Link, turn: Expr) -> Expr:
    """Prepped weight that the rows ahead, of the same product, have to dry."""
    return ahead(to_dry, product, turn)


@plan.derived(FRESH)
def waiting_left(product: Link, to_dry_ahead: Expr) -> Expr:
    """What is waiting, and the rows ahead, of the same product, have left."""
    return _left(product.waiting, to_dry_ahead)


@plan.derived(FRESH, label="prepped weight needed")
def prepped_needed(to_dry: Expr, waiting_left: Expr) -> Expr:
    """Prepped weight still to be bought and prepared; what is waiting counts first."""
    return greatest(to_dry - waiting_left, 0)


@plan.derived(COUNT)
def wanted_ahead(count: Expr, product: Link, turn: Expr) -> Expr:
    """How many packs the rows ahead, of the same product, want."""
    return ahead(count, product, turn)


@plan.derived(FRESH)
def waiting_here(product: Link, wanted_ahead: Expr) -> Expr:
    """What is waiting: all of it is dried in the runs of the product's first row."""
    return where(wanted_ahead > 0, 0, greatest(product.waiting, 0))
