"""Packs that were opened for mixes: what is left of a product's packs, and what it cost."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import total
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import packs, products
from reportgen.units import DRIED, HOUR, MONEY


@packs.derived(MONEY)
def packaging_intact(intact: Expr, container: Link) -> Expr:
    """Packaging of those that were not opened."""
    return intact * container.packaging_each


@packs.derived(MONEY)
def pack_labor_intact(intact: Expr, labor_each: Expr) -> Expr:
    """Packing time of those that were not opened."""
    return intact * labor_each


@packs.derived(HOUR)
def hours_intact(labor: Expr, intact: Expr, count: Expr) -> Expr:
    """Hours of packing those that were not opened."""
    return labor * intact / count


@products.derived(DRIED, label="opened for mixes")
def opened(packs: Children) -> Expr:
    """What this season's packs held that were opened for mixes."""
    return total(packs.opened_content, packs.of_runs)


@products.derived(DRIED, label="packed, not opened")
def packed_intact(packed: Expr, opened: Expr) -> Expr:
    """Weight packed, less what was opened for mixes."""
    return packed - opened


@products.derived(MONEY, label="packaging of what was not opened")
def packaging_intact(packs: Children) -> Expr:
    """Packaging of its packs that were not opened for mixes; with the others it went there."""
    return total(packs.packaging_intact, packs.of_runs)


@products.derived(MONEY, label="packing time of what was not opened")
def pack_labor_intact(packs: Children) -> Expr:
    """Packing time of its packs that were not opened for mixes, at the rate."""
    return total(packs.pack_labor_intact, packs.of_runs)


@products.derived(HOUR)
def hours_intact(packs: Children) -> Expr:
    """Hours of packing its packs that were not opened for mixes."""
    return total(packs.hours_intact, packs.of_runs)
