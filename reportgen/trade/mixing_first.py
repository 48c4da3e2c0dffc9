"""What the parts of a mix cost that were not mixed before: the ``first`` costs.

A mix may hold other mixes, or packs of them, that hold none themselves: two deep. No column reads
itself, so what a mix costs without such parts is a set of columns of its own; ``mixing_costs.py``
adds the parts that were mixed before.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, total, unknown, where
from reportgen.algebra.tables import COUNT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.tables import mix_parts, mixes
from reportgen.units import DRIED, MONEY

BY_DRIED = MONEY / DRIED


@mixes.derived(MONEY, label="bought parts")
def bought_cost(bought_parts: Children) -> Expr:
    """What was bought for it."""
    return total(bought_parts.price)


@mixes.derived(MONEY, label="time")
def labor_cost(labor: Expr, rates: SingleRow) -> Expr:
    """Mixing, at the rate."""
    return where(labor > 0, labor * rates.labor, 0)


@mix_parts.derived(MONEY)
def own_running(of_pack: Expr, count: Expr, pack: Link, weight: Expr, of_product: Link) -> Expr:
    """Running cost of bulk, or of packs that are of no mix."""
    return where(of_pack, count * pack.running_unmixed, weight * of_product.running_bulk)


@mix_parts.derived(MONEY)
def own_full(of_pack: Expr, count: Expr, pack: Link, weight: Expr, of_product: Link) -> Expr:
    """Full cost of bulk, or of packs that are of no mix."""
    return where(of_pack, count * pack.full_unmixed, weight * of_product.full_bulk)


@mix_parts.derived(MONEY, label="running cost, where not mixed before")
def first_running(mixed_before: Expr, own_running: Expr) -> Expr:
    """Running cost of a part that was not mixed before: bulk at its cost by weight, packs at theirs
    each; packs left from last season at what they cost then."""
    return where(mixed_before, 0, own_running)


@mix_parts.derived(MONEY, label="full cost, where not mixed before")
def first_full(mixed_before: Expr, own_full: Expr) -> Expr:
    """Full cost of a part that was not mixed before."""
    return where(mixed_before, 0, own_full)


@mixes.derived(COUNT)
def parts_mixed(mix_parts: Children) -> Expr:
    """Parts that were mixed before: other mixes, and packs of them."""
    return count(mix_parts, mix_parts.mixed_before)


@mixes.derived(MONEY, label="running cost of first parts")
def first_running_cost(mix_parts: Children, bought_cost: Expr) -> Expr:
    """Running cost of what had not been mixed before, and of what was bought."""
    return total(mix_parts.first_running) + bought_cost


@mixes.derived(MONEY, label="full cost of first parts")
def first_full_cost(mix_parts: Children, bought_cost: Expr, labor_cost: Expr) -> Expr:
    """Full cost of what had not been mixed before and of what was bought, and the time."""
    return total(mix_parts.first_full) + bought_cost + labor_cost


@mixes.derived(MONEY)
def first_running_alone(parts_mixed: Expr, first_running_cost: Expr) -> Expr:
    """The running cost of a mix that may go into another: one without mixes among its parts."""
    return where(parts_mixed > 0, unknown(), first_running_cost)


@mixes.derived(MONEY)
def first_full_alone(parts_mixed: Expr, first_full_cost: Expr) -> Expr:
    """The full cost of a mix that may go into another."""
    return where(parts_mixed > 0, unknown(), first_full_cost)


@mixes.derived(BY_DRIED)
def first_running_by_weight(first_running_alone: Expr, weight_out: Expr) -> Expr:
    """Running cost by weight of a mix that may go into another."""
    return first_running_alone / weight_out


@mixes.derived(BY_DRIED)
def first_full_by_weight(first_full_alone: Expr, weight_out: Expr) -> Expr:
    """Full cost by weight of a mix that may go into another."""
    return first_full_alone / weight_out
