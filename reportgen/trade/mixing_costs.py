"""What a mix costs with the parts that were mixed before; its packs; what products give to it.

Each cost stands once: what a part took with it is taken off its own product, and stands in that of
the mix. So the products' costs add up to what was spent, mixes or not.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, first_known, no, size, total, where
from reportgen.algebra.tables import COUNT
from reportgen.algebra.views import Children, Link
from reportgen.trade.constants import ROUNDING
from reportgen.trade.mixing_first import BY_DRIED
from reportgen.trade.tables import draws, mix_parts, mixes, packs, products, season
from reportgen.units import DRIED, MONEY

_AVERAGE = "weighted average of what went in, a method of cost accounting"


# --- packs of mixes that hold no mixes: they may go into another ---------------------------------


@draws.derived(MONEY)
def mix_first_running(of_mix: Expr, mix: Link) -> Expr:
    """Running cost of the mix, where it may go into another."""
    return where(of_mix, mix.first_running_alone, 0)


@draws.derived(MONEY)
def mix_first_full(of_mix: Expr, mix: Link) -> Expr:
    """Full cost of the mix, where it may go into another."""
    return where(of_mix, mix.first_full_alone, 0)


@packs.derived(BY_DRIED)
def first_running_of_mixes(draws: Children, mixes_out: Expr) -> Expr:
    """Running cost by weight of the mixes it names, where they may go into others."""
    return total(draws.mix_first_running) / mixes_out


@packs.derived(BY_DRIED)
def first_full_of_mixes(draws: Children, mixes_out: Expr) -> Expr:
    """Full cost by weight of the mixes it names, where they may go into others."""
    return total(draws.mix_first_full) / mixes_out


@packs.derived(MONEY)
def first_running_mixed(first_running_of_mixes: Expr, net: Expr, container: Link) -> Expr:
    """Running cost of one of a mix that may go into another: its weight of it, and packaging."""
    return net * first_running_of_mixes + container.packaging_each


@packs.derived(MONEY)
def first_full_mixed(
    first_full_of_mixes: Expr, net: Expr, container: Link, labor_each: Expr
) -> Expr:
    """Full cost of one of a mix that may go into another."""
    return net * first_full_of_mixes + container.packaging_each + labor_each


@mix_parts.derived(MONEY)
def mixed_running(of_mix: Expr, weight: Expr, mix: Link, count: Expr, pack: Link) -> Expr:
    """Running cost of another mix by weight, or of packs of one."""
    return where(of_mix, weight * mix.first_running_by_weight, count * pack.first_running_mixed)


@mix_parts.derived(MONEY)
def mixed_full(of_mix: Expr, weight: Expr, mix: Link, count: Expr, pack: Link) -> Expr:
    """Full cost of another mix by weight, or of packs of one."""
    return where(of_mix, weight * mix.first_full_by_weight, count * pack.first_full_mixed)


@mix_parts.derived(MONEY)
def running_cost(mixed_before: Expr, mixed_running: Expr, first_running: Expr) -> Expr:
    """Running cost of the part, mixed before or not."""
    return where(mixed_before, mixed_running, first_running)


@mix_parts.derived(MONEY)
def full_cost(mixed_before: Expr, mixed_full: Expr, first_full: Expr) -> Expr:
    """Full cost of the part, mixed before or not."""
    return where(mixed_before, mixed_full, first_full)


# --- the mix -------------------------------------------------------------------------------------


@mixes.derived(MONEY)
def running_cost(mix_parts: Children, bought_cost: Expr) -> Expr:
    """Running cost of all its parts, and what was bought."""
    return total(mix_parts.running_cost) + bought_cost


@mixes.derived(MONEY)
def full_cost(mix_parts: Children, bought_cost: Expr, labor_cost: Expr) -> Expr:
    """Full cost of all its parts, what was bought, and the time."""
    return total(mix_parts.full_cost) + bought_cost + labor_cost


@mixes.derived(BY_DRIED, source=_AVERAGE)
def running_by_weight(running_cost: Expr, weight_out: Expr) -> Expr:
    """Running cost by weight of what came out; what was lost is borne by the rest."""
    return running_cost / weight_out


@mixes.derived(BY_DRIED, source=_AVERAGE)
def full_by_weight(full_cost: Expr, weight_out: Expr) -> Expr:
    """Full cost by weight of what came out."""
    return full_cost / weight_out


# --- its packs -----------------------------------------------------------------------------------


@draws.derived(MONEY)
def mix_running(of_mix: Expr, mix: Link) -> Expr:
    """Running cost of the mix."""
    return where(of_mix, mix.running_cost, 0)


@draws.derived(MONEY)
def mix_full(of_mix: Expr, mix: Link) -> Expr:
    """Full cost of the mix."""
    return where(of_mix, mix.full_cost, 0)


@packs.derived(BY_DRIED, label="running cost by weight of its mixes")
def running_of_mixes(draws: Children, mixes_out: Expr) -> Expr:
    """Running cost by weight of the mixes it names: what all cost over what came out of all."""
    return total(draws.mix_running) / mixes_out


@packs.derived(BY_DRIED, label="full cost by weight of its mixes")
def full_of_mixes(draws: Children, mixes_out: Expr) -> Expr:
    """Full cost by weight of the mixes it names."""
    return total(draws.mix_full) / mixes_out


@packs.derived(MONEY, label="running cost of one, of a mix")
def running_mixed(running_of_mixes: Expr, net: Expr, container: Link) -> Expr:
    """Running cost of one of a mix: its weight of the mixes it names, and its packaging."""
    return net * running_of_mixes + container.packaging_each


@packs.derived(MONEY, label="full cost of one, of a mix")
def full_mixed(full_of_mixes: Expr, net: Expr, container: Link, labor_each: Expr) -> Expr:
    """Full cost of one of a mix: its weight of the mixes it names, packaging, packing time."""
    return net * full_of_mixes + container.packaging_each + labor_each


# --- products ------------------------------------------------------------------------------------


@products.derived(MONEY)
def running_made(cost_bulk_running: Expr, cost_packaging: Expr) -> Expr:
    """Running cost of drying and packing it, mixes apart."""
    return cost_bulk_running + cost_packaging


@products.derived(MONEY)
def full_made(
    running_made: Expr,
    cost_wear: Expr,
    cost_labor: Expr,
    cost_pack_labor: Expr,
    cost_overhead: Expr,
) -> Expr:
    """Full cost of drying and packing it, mixes apart."""
    return running_made + cost_wear + cost_labor + cost_pack_labor + cost_overhead


@products.derived(DRIED, label="bulk into mixes")
def bulk_mixed(mix_parts: Children) -> Expr:
    """Bulk that went into mixes."""
    return total(mix_parts.bulk_weight)


@products.derived(COUNT, label="mixes of it")
def mixes_made(mixes: Children) -> Expr:
    """How many mixes of it were made."""
    return count(mixes)


@products.derived(MONEY, label="running cost, into mixes")
def running_to_mixes(mix_parts: Children) -> Expr:
    """Running cost of what of it went into mixes: bulk, opened packs, mixes of it."""
    return total(mix_parts.running_cost)


@products.derived(MONEY, label="full cost, into mixes")
def cost_to_mixes(mix_parts: Children) -> Expr:
    """Full cost of what of it went into mixes."""
    return total(mix_parts.full_cost)


@products.derived(MONEY, label="running cost of its mixes")
def mixes_running(mixes: Children) -> Expr:
    """Running cost of mixes of it."""
    return total(mixes.running_cost)


@products.derived(MONEY, label="full cost of its mixes")
def mixes_full(mixes: Children) -> Expr:
    """Full cost of mixes of it."""
    return total(mixes.full_cost)


@products.derived(DRIED, label="came out of its mixes")
def mixes_out(mixes: Children) -> Expr:
    """What came out of all mixes of it."""
    return total(mixes.weight_out)


@products.derived(BY_DRIED, source=_AVERAGE, label="running cost by weight, mixed")
def running_mixed(mixes_running: Expr, mixes_out: Expr) -> Expr:
    """Running cost by weight of what its mixes gave, packaging apart."""
    return mixes_running / mixes_out


@products.derived(BY_DRIED, source=_AVERAGE, label="full cost by weight, mixed")
def full_mixed(mixes_full: Expr, mixes_out: Expr) -> Expr:
    """Full cost by weight of what its mixes gave, packaging and packing time apart."""
    return mixes_full / mixes_out


@products.derived(BY_DRIED, label="running cost by weight, before packing")
def running_loose(running_bulk: Expr, running_mixed: Expr) -> Expr:
    """Running cost by weight of what is packed: in bulk, else as mixed."""
    return first_known(running_bulk, running_mixed)


@products.derived(BY_DRIED, label="full cost by weight, before packing")
def full_loose(full_bulk: Expr, full_mixed: Expr) -> Expr:
    """Full cost by weight of what is packed: in bulk, else as mixed."""
    return first_known(full_bulk, full_mixed)


@products.derived(MONEY, label="running cost, by mixes")
def running_by_mixes(mixes_running: Expr, running_to_mixes: Expr) -> Expr:
    """What mixes add to its running cost: what its own cost, less what went into mixes."""
    return mixes_running - running_to_mixes


@products.derived(MONEY, label="full cost, by mixes")
def full_by_mixes(mixes_full: Expr, cost_to_mixes: Expr) -> Expr:
    """What mixes add to its full cost."""
    return mixes_full - cost_to_mixes


@season.derived(MONEY, label="bought for mixes")
def cost_bought(mixes: Children) -> Expr:
    """What was bought for mixes."""
    return total(mixes.bought_cost)


@season.derived(MONEY, label="time of mixing")
def mix_labor_cost(mixes: Children) -> Expr:
    """Time spent on mixes, at the rate."""
    return total(mixes.labor_cost)


@season.derived(MONEY)
def added_by_mixes(products: Children) -> Expr:
    """What mixes add to the running cost of all products: only what was bought for them may."""
    return total(products.running_by_mixes)


@season.check("error", "Tell the makers of this workbook: its own sums disagree.")
def mixes_not_conserved(added_by_mixes: Expr, cost_bought: Expr) -> Expr:
    """What mixes cost is not what their parts cost."""
    return first_known(size(added_by_mixes - cost_bought) > ROUNDING, no())
