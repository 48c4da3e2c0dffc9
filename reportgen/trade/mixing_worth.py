"""What mixes bring: sales of their packs, and what a shop would have got for those that were kept.

Their parts stand in them at cost, neither gain nor loss; what a mix gives to another does, too.
What was kept of their packs saved a purchase, and stands in the season's saving.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import find, known, rank, same, total, unknown, where
from reportgen.algebra.tables import COUNT, SHARE, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import draws, mixes, packs, products, worth_mixing
from reportgen.units import HOUR, MONEY

BY_HOUR = MONEY / HOUR


# --- packs ---------------------------------------------------------------------------------------


@packs.derived(MONEY, label="got for it at markets, after tax and fees")
def got_at_markets(market_packs: Children) -> Expr:
    """What market days got for it at their prices, after tax and fees."""
    return total(market_packs.got)


@packs.derived(MONEY, label="got for it after tax and fees")
def got(uses: Children, got_at_markets: Expr) -> Expr:
    """What sales of it brought in after tax and fees, those of market days at their prices."""
    return total(uses.got, uses.sold) + got_at_markets


@packs.derived(COUNT, label="eaten or given")
def eaten_or_given(uses: Children) -> Expr:
    """How many household and gifts took."""
    return total(uses.containers, uses.eaten_or_given)


@packs.derived(MONEY, label="a shop would have got for one")
def shop_each(net: Expr, product: Link) -> Expr:
    """What a shop would have got for one."""
    return net * product.shop_worth


def _of(count: Expr, price: Expr) -> Expr:
    """So many at a price; none are worth 0 whatever it is."""
    return where(count == 0, 0, count * price)


@packs.derived(COUNT)
def kept(eaten_or_given: Expr, on_hand: Expr) -> Expr:
    """How many were kept: eaten, given, or on the shelf."""
    return eaten_or_given + on_hand


@packs.derived(MONEY, label="a shop would have got")
def instead(kept: Expr, shop_each: Expr) -> Expr:
    """What a shop would have got for those that were kept."""
    return _of(kept, shop_each)


@packs.derived(MONEY)
def brought(got: Expr, instead: Expr) -> Expr:
    """What sales of it brought, and a shop would have got for what was kept."""
    return got + instead


@packs.derived(MONEY)
def saved_each(shop_each: Expr, running_each: Expr) -> Expr:
    """What one saves that is eaten: what a shop would get, less what it cost us."""
    return shop_each - running_each


@packs.derived(MONEY)
def mixed_saving_taken(eaten_or_given: Expr, saved_each: Expr) -> Expr:
    """Saved by those of a mix that were eaten or given away."""
    return _of(eaten_or_given, saved_each)


@packs.derived(MONEY)
def mixed_saving_on_hand(on_hand: Expr, saved_each: Expr) -> Expr:
    """Saved when those of a mix are eaten that are on the shelf."""
    return _of(on_hand, saved_each)


# --- products ------------------------------------------------------------------------------------


@products.derived(MONEY, label="saved so far, of mixes")
def mixed_saving_taken(packs: Children) -> Expr:
    """Saved by what was eaten or given away of packs of mixes."""
    return total(packs.mixed_saving_taken, packs.from_mix)


@products.derived(MONEY, label="saved once eaten, of mixes")
def mixed_saving_on_hand(packs: Children) -> Expr:
    """Saved when packs of mixes are eaten that are on the shelf."""
    return total(packs.mixed_saving_on_hand, packs.from_mix)


@products.derived(MONEY, label="a shop would have got, of mixes")
def mixed_instead(packs: Children) -> Expr:
    """What a shop would have got for what was kept of packs of mixes."""
    return total(packs.instead, packs.from_mix)


@products.derived(MONEY, label="saved so far and once eaten, with mixes")
def saving_with_mixes(saving: Expr, mixed_saving_taken: Expr, mixed_saving_on_hand: Expr) -> Expr:
    """What was saved by all that was kept, packs of mixes included."""
    return saving + mixed_saving_taken + mixed_saving_on_hand


# --- mixes ---------------------------------------------------------------------------------------


@draws.derived(SHARE, label="share of the mix in the pack")
def mix_share(of_mix: Expr, mix_out: Expr, pack: Link) -> Expr:
    """The share of the pack that is of the mix: of several by what came out of each."""
    return where(of_mix & pack.from_mix, mix_out / pack.mixes_out, 0)


@draws.derived(MONEY)
def brought(mix_share: Expr, pack: Link) -> Expr:
    """Of what the pack brought, the mix's share."""
    return where(mix_share == 0, 0, mix_share * pack.brought)


@draws.derived(MONEY)
def handed_on(mix_share: Expr, pack: Link) -> Expr:
    """Of the running cost of packs that were opened for other mixes, the mix's share."""
    return where(mix_share * pack.opened == 0, 0, mix_share * pack.opened * pack.running_each)


@draws.derived(HOUR)
def packing(mix_share: Expr, pack: Link) -> Expr:
    """Of the hours of packing, the mix's share."""
    return mix_share * pack.labor


@mixes.derived(MONEY)
def brought(draws: Children) -> Expr:
    """What sales of its packs brought in, and a shop would have got for those that were kept."""
    return total(draws.brought)


@mixes.derived(MONEY, label="given to other mixes in packs")
def packs_handed_on(draws: Children) -> Expr:
    """Running cost of its packs that were opened for other mixes."""
    return total(draws.handed_on)


@mixes.derived(MONEY, label="given to other mixes")
def handed_on(mix_parts: Children, key: Expr, packs_handed_on: Expr) -> Expr:
    """Running cost of what of it went into other mixes, packs included."""
    return total(same(mix_parts.mix, key).running_cost) + packs_handed_on


@mixes.derived(MONEY, label="brought above its parts")
def earned(brought: Expr, handed_on: Expr, running_cost: Expr) -> Expr:
    """What it brought, and gave to other mixes at cost, above its running cost; the packaging of
    its packs is not taken off."""
    return brought + handed_on - running_cost


@mixes.derived(HOUR, label="hours of work")
def hours(labor: Expr, draws: Children) -> Expr:
    """Hours of mixing and of packing it."""
    return labor + total(draws.packing)


@mixes.derived(BY_HOUR, label="by hour of work")
def earned_per_hour(earned: Expr, hours: Expr) -> Expr:
    """What it brought above its parts for each hour of work; not known where none were written."""
    return earned / hours


@mixes.derived(TEXT)
def ranked(earned: Expr) -> Expr:
    """The list in which it is ranked, where what it brought is known."""
    return where(known(earned), "what mixes bring", unknown())


@mixes.derived(COUNT, label="its place in what mixes bring")
def worth_turn(earned: Expr, ranked: Expr) -> Expr:
    """Its place by what it brought above its parts, 1 for the most."""
    return rank(earned, ranked, highest=True)


@mixes.derived(TEXT, label="what")
def called(product: Link) -> Expr:
    """The name of what was made."""
    return product.called


# --- from the most to the least ------------------------------------------------------------------


@worth_mixing.link(mixes)
def mix(mixes: Children, place: Expr) -> Expr:
    """The mix in this place."""
    return find(mixes.worth_turn, place)


@worth_mixing.derived(TEXT, label="what")
def called(mix: Link) -> Expr:
    """What was made."""
    return mix.called


@worth_mixing.derived(MONEY)
def brought(mix: Link) -> Expr:
    """What it brought."""
    return mix.brought


@worth_mixing.derived(MONEY, label="running cost of its parts")
def parts_cost(mix: Link) -> Expr:
    """What its parts cost, less what it gave to other mixes."""
    return mix.running_cost - mix.handed_on


@worth_mixing.derived(MONEY, label="brought above its parts")
def earned(mix: Link) -> Expr:
    """What it brought above its parts; the packaging of its packs is not taken off."""
    return mix.earned


@worth_mixing.derived(HOUR, label="hours of work")
def hours(mix: Link) -> Expr:
    """Hours of mixing and of packing it."""
    return mix.hours


@worth_mixing.derived(BY_HOUR, label="by hour of work")
def earned_per_hour(mix: Link) -> Expr:
    """What it brought above its parts for each hour of work."""
    return mix.earned_per_hour
