"""Mixes: what went in, what came out, and what became of it."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    estimate,
    first_known,
    join,
    known,
    no,
    same,
    total,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.constants import BALANCE
from reportgen.trade.tables import bought_parts, draws, mix_parts, mixes, packs, products
from reportgen.units import DRIED

# --- what a part is ------------------------------------------------------------------------------


@bought_parts.link(mixes)
@mix_parts.link(mixes)
def made(into: Expr) -> Expr:
    """The mix it went into."""
    return into


@mix_parts.derived(FLAG)
def of_bulk(product: Link) -> Expr:
    """Bulk, by weight."""
    return ~(product == "")


@mix_parts.derived(FLAG)
def of_pack(pack: Link) -> Expr:
    """Packs that were opened."""
    return ~(pack == "")


@mix_parts.derived(FLAG)
def of_mix(mix: Link) -> Expr:
    """Another mix, by weight."""
    return ~(mix == "")


@mix_parts.link(products)
def of_product(product: Link, pack: Link, mix: Link) -> Expr:
    """The product that went in: the bulk's, the pack's, or the other mix's."""
    return where(pack == "", where(mix == "", product, mix.product), pack.product)


@mix_parts.derived(FLAG)
def mixed_before(of_pack: Expr, pack: Link, of_mix: Expr) -> Expr:
    """Another mix, or a pack of one."""
    return where(of_pack, pack.from_mix, of_mix)


@mix_parts.derived(COUNT)
def opened(of_pack: Expr, count: Expr) -> Expr:
    """Containers that were opened: one, where no count is given; none of bulk."""
    return where(of_pack, count, 0)


@mix_parts.derived(DRIED, label="weight that went in")
def weight_in(of_pack: Expr, count: Expr, pack: Link, weight: Expr) -> Expr:
    """Weight that went in: what the packs held, or as weighed."""
    return where(of_pack, count * pack.net, weight)


@mix_parts.derived(TEXT)
def in_mix(made: Expr, of_product: Expr) -> Expr:
    """The mix, and what of it."""
    return join(made, "/", of_product)


@mix_parts.derived(DRIED, label="of its kind in the mix")
def weight_alike(mix_parts: Children, in_mix: Expr) -> Expr:
    """All of its product that went into the mix: by it ingredients stand in their order."""
    return total(same(mix_parts.in_mix, in_mix).weight_in)


@mix_parts.derived(DRIED)
def bulk_weight(of_bulk: Expr, weight: Expr) -> Expr:
    """Bulk that went in."""
    return where(of_bulk, weight, 0)


# --- packs that were opened, packs of mixes -----------------------------------------------------


@draws.derived(FLAG)
def of_mix(mix: Link) -> Expr:
    """The pack names a mix, not a run."""
    return ~(mix == "")


@packs.derived(COUNT)
def mixes_named(draws: Children) -> Expr:
    """How many mixes it names as its origin."""
    return count(draws, draws.of_mix)


@packs.derived(FLAG)
def from_mix(of_season: Expr, mixes_named: Expr) -> Expr:
    """Of this season, filled from a mix."""
    return of_season & (mixes_named > 0)


@packs.derived(FLAG)
def of_runs(of_season: Expr, mixes_named: Expr) -> Expr:
    """Of this season, filled from what was dried, not from a mix."""
    return of_season & (mixes_named <= 0)


@packs.derived(COUNT, label="opened for mixes")
def opened(mix_parts: Children) -> Expr:
    """How many were opened for mixes."""
    return total(mix_parts.opened)


@packs.derived(COUNT, label="not opened")
def intact(count: Expr, opened: Expr) -> Expr:
    """How many were not opened for mixes."""
    return count - opened


@packs.derived(DRIED)
def opened_content(opened: Expr, net: Expr) -> Expr:
    """What those that were opened held."""
    return opened * net


# --- what a mix weighs ----------------------------------------------------------------------------


@mixes.derived(DRIED, label="of our own")
def weight_own(mix_parts: Children) -> Expr:
    """What of our own went in."""
    return total(mix_parts.weight_in)


@mixes.derived(DRIED, label="bought")
def weight_bought(bought_parts: Children) -> Expr:
    """What was bought and went in."""
    return total(bought_parts.weight)


@mixes.derived(DRIED, label="went in")
def weight_in(weight_own: Expr, weight_bought: Expr) -> Expr:
    """All that went in."""
    return weight_own + weight_bought


@mixes.derived(DRIED, label="came out")
def weight_out(out: Expr, weight_in: Expr) -> Expr:
    """What came out: as weighed, else all that went in."""
    return first_known(out, estimate(weight_in))


@mixes.derived(DRIED)
def loss(weight_in: Expr, weight_out: Expr) -> Expr:
    """What went in and did not come out; the rest bears its cost."""
    return weight_in - weight_out


# --- what became of it ---------------------------------------------------------------------------


@draws.derived(DRIED)
def mix_out(of_mix: Expr, mix: Link) -> Expr:
    """What came out of the mix."""
    return where(of_mix, mix.weight_out, 0)


@packs.derived(DRIED)
def mixes_out(draws: Children) -> Expr:
    """What came out of the mixes that it names together."""
    return total(draws.mix_out)


@draws.derived(DRIED, label="of the mix, in the pack")
def mix_drawn(of_mix: Expr, pack: Link, mix_out: Expr) -> Expr:
    """What the pack holds of the mix: of several by what came out of each."""
    return where(of_mix, pack.dried_content * mix_out / pack.mixes_out, 0)


@mixes.derived(DRIED)
def packed(draws: Children) -> Expr:
    """What packs hold of it."""
    return total(draws.mix_drawn)


@mixes.derived(DRIED, label="into other mixes")
def passed_on(mix_parts: Children, key: Expr) -> Expr:
    """What of it went into other mixes, packs apart."""
    return total(same(mix_parts.mix, key).weight)


@mixes.derived(DRIED, label="left in bulk")
def left(weight_out: Expr, packed: Expr, passed_on: Expr) -> Expr:
    """What came out of it and is neither packed nor in another mix."""
    return weight_out - packed - passed_on


@mixes.derived(FLAG)
def some_left(left: Expr, weight_out: Expr) -> Expr:
    """Some is left in bulk, beyond what scales tell apart: the next season begins with it."""
    return left > weight_out * BALANCE


# --- checks --------------------------------------------------------------------------------------


@mix_parts.check("error", "Name one of the three: a product, a pack or another mix.", names="made")
def not_one_part(of_bulk: Expr, of_pack: Expr, of_mix: Expr) -> Expr:
    """A part of a mix that names nothing, or more than one thing."""
    two = (of_bulk & of_pack) | (of_bulk & of_mix) | (of_pack & of_mix)
    return two | ~(of_bulk | of_pack | of_mix)


@mix_parts.derived(COUNT)
def mixes_within(of_mix: Expr, mix: Link, of_pack: Expr, pack: Link) -> Expr:
    """Mixes in the mix that went in, or in that of the pack."""
    return where(of_pack, pack.mixes_deep, where(of_mix, mix.parts_mixed, 0))


@mix_parts.check("error", "Name what went into that mix, in its place.", names="made")
def mixed_too_deep(mixes_within: Expr) -> Expr:
    """A mix made of mixes went into another, or a pack of one: that is one too many."""
    return mixes_within > 0


@draws.derived(FLAG)
def of_deep_mix(of_mix: Expr, mix: Link) -> Expr:
    """The mix that the pack names holds mixes itself."""
    return where(of_mix, mix.parts_mixed > 0, no())


@packs.derived(COUNT)
def mixes_deep(draws: Children) -> Expr:
    """Mixes that it names and that hold mixes themselves."""
    return count(draws, draws.of_deep_mix)


@mixes.check("error", "Weigh again, or write all that went in.")
def out_above_in(loss: Expr, weight_in: Expr) -> Expr:
    """More came out of a mix than went in."""
    return loss < 0 - weight_in * BALANCE


@mixes.check("error", "Correct the packs of it, the other mixes, or the weight that came out.")
def taken_above_out(left: Expr, weight_out: Expr) -> Expr:
    """Packs and other mixes hold more of a mix than came out of it."""
    return left < 0 - weight_out * BALANCE


@mixes.check("caution", "Write the weights and prices that are missing.")
def cost_missing(running_cost: Expr) -> Expr:
    """A mix whose cost is not known."""
    return ~known(running_cost)


@draws.check("error", "Correct the mix after from, or the pack's product.")
def mix_of_another(of_mix: Expr, mix: Link, product: Expr) -> Expr:
    """A pack names a mix that is of another product."""
    return where(of_mix, mix.product != product, no())


@packs.check("error", "Name the runs alone, or the mixes alone.")
def runs_and_mixes(runs_named: Expr, mixes_named: Expr) -> Expr:
    """A pack that names both runs and mixes."""
    return (runs_named > 0) & (mixes_named > 0)


@draws.check("error", "Empty one of the two.")
def run_and_mix(run: Link, of_mix: Expr) -> Expr:
    """A row that names both a run and a mix."""
    return ~(run == "") & of_mix
