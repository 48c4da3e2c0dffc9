"""How dry a mix is: the worst of its parts.

What is not known of one part is not known of the mix. A reading of the mix itself takes the place
of what is not known; against a part that may be moist it says nothing, for water spreads slowly.
Bulk is as dry as the worst load of its product that had come out by the day of the mix.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    first_known,
    no,
    same,
    where,
)
from reportgen.algebra.tables import COUNT, DATE, FLAG, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.constants import ONE_DAY, ONE_MINUTE
from reportgen.trade.tables import bought_parts, draws, mix_parts, mixes, packs

DRY, NOT_SHOWN, DOUBTFUL = "dry", "not shown", "doubtful"


def _worst(doubtful: Expr, unshown: Expr) -> Expr:
    """The verdict from how many are doubtful, and how many not shown to be dry."""
    return where(doubtful > 0, DOUBTFUL, where(unshown > 0, NOT_SHOWN, DRY))


def _is_doubtful(dryness: Expr) -> Expr:
    return first_known(dryness == DOUBTFUL, no())


def _is_unshown(dryness: Expr) -> Expr:
    """Neither dry nor doubtful, or not known."""
    return first_known(~(dryness == DRY) & ~(dryness == DOUBTFUL), ~no())


# --- how dry a part is ---------------------------------------------------------------------------


@mix_parts.derived(DATE, label="end of the day of the mix")
def day_over(date: Expr) -> Expr:
    """The end of the day on which the mix was made."""
    return date + ONE_DAY - ONE_MINUTE


@mix_parts.derived(COUNT)
def doubtful_loads(loads: Children, product: Link, day_over: Expr) -> Expr:
    """Loads of the bulk's product, out of the dryer by then, that may not be dry."""
    rows = same(loads.product, product).came_out.before(day_over)
    return count(rows, rows.doubtful)


@mix_parts.derived(COUNT)
def unshown_loads(loads: Children, product: Link, day_over: Expr) -> Expr:
    """Loads of the bulk's product, out of the dryer by then, that are not shown to be dry."""
    rows = same(loads.product, product).came_out.before(day_over)
    return count(rows, rows.not_shown)


@mix_parts.derived(COUNT)
def dry_loads(loads: Children, product: Link, day_over: Expr) -> Expr:
    """Loads of the bulk's product, out of the dryer by then, that are shown to be dry."""
    rows = same(loads.product, product).came_out.before(day_over)
    return count(rows, rows.dry_enough)


@mix_parts.derived(FLAG)
def bulk_dry(unshown_loads: Expr, dry_loads: Expr, of_product: Link) -> Expr:
    """Every load behind the bulk is shown to be dry, and none of it is left from last season."""
    shown = (unshown_loads <= 0) & (dry_loads > 0) & (of_product.carried <= 0)
    return first_known(shown, no())


@mix_parts.derived(TEXT)
def bulk_dryness(doubtful_loads: Expr, bulk_dry: Expr) -> Expr:
    """How dry bulk is shown to be: the worst of the loads that it may be of."""
    doubtful = first_known(doubtful_loads > 0, no())
    return where(doubtful, DOUBTFUL, where(bulk_dry, DRY, NOT_SHOWN))


@mix_parts.derived(TEXT)
def own_dryness(of_pack: Expr, pack: Link, bulk_dryness: Expr) -> Expr:
    """How dry bulk is, or a pack that is of no mix."""
    return where(of_pack, pack.dryness_unmixed, bulk_dryness)


@mix_parts.derived(FLAG)
def own_doubtful(own_dryness: Expr) -> Expr:
    """A part that is of no mix may not be dry."""
    return _is_doubtful(own_dryness)


@mix_parts.derived(FLAG)
def own_unshown(own_dryness: Expr) -> Expr:
    """A part that is of no mix is not shown to be dry."""
    return _is_unshown(own_dryness)


@bought_parts.derived(TEXT, label="dry?")
def dryness(read_moist: Expr, has_reading: Expr) -> Expr:
    """Dry, not shown or doubtful, by its reading alone."""
    return where(read_moist, DOUBTFUL, where(has_reading, DRY, NOT_SHOWN))


@bought_parts.derived(FLAG)
def doubtful(dryness: Expr) -> Expr:
    """It may not be dry."""
    return _is_doubtful(dryness)


@bought_parts.derived(FLAG)
def unshown(dryness: Expr) -> Expr:
    """It is not shown to be dry."""
    return _is_unshown(dryness)


@mixes.derived(COUNT)
def bought_doubtful(bought_parts: Children) -> Expr:
    """Bought parts that may not be dry."""
    return count(bought_parts, bought_parts.doubtful)


@mixes.derived(COUNT)
def bought_unshown(bought_parts: Children) -> Expr:
    """Bought parts that are not shown to be dry."""
    return count(bought_parts, bought_parts.unshown)


# --- how dry a mix is ----------------------------------------------------------------------------


@mixes.derived(FLAG)
def first_against(mix_parts: Children, bought_doubtful: Expr, read_moist: Expr) -> Expr:
    """Its reading, or a part that is of no mix, speaks against its being dry."""
    return read_moist | (count(mix_parts, mix_parts.own_doubtful) + bought_doubtful > 0)


@mixes.derived(FLAG)
def first_shown(mix_parts: Children, bought_unshown: Expr, has_reading: Expr) -> Expr:
    """Its reading, or else each part that is of no mix, shows that it is dry."""
    return has_reading | (count(mix_parts, mix_parts.own_unshown) + bought_unshown <= 0)


@mixes.derived(TEXT)
def first_dryness(first_against: Expr, first_shown: Expr) -> Expr:
    """How dry a mix without mixes among its parts is shown to be."""
    return where(first_against, DOUBTFUL, where(first_shown, DRY, NOT_SHOWN))


@draws.derived(FLAG)
def first_doubtful(of_mix: Expr, mix: Link) -> Expr:
    """The mix, without mixes among its parts, may not be dry."""
    return where(of_mix, _is_doubtful(mix.first_dryness), no())


@draws.derived(FLAG)
def first_unshown(of_mix: Expr, mix: Link) -> Expr:
    """The mix, without mixes among its parts, is not shown to be dry."""
    return where(of_mix, _is_unshown(mix.first_dryness), no())


@packs.derived(TEXT)
def first_dryness(draws: Children) -> Expr:
    """How dry a pack of mixes that may go into others is shown to be."""
    return _worst(count(draws, draws.first_doubtful), count(draws, draws.first_unshown))


@mix_parts.derived(TEXT)
def mixed_dryness(of_mix: Expr, mix: Link, pack: Link) -> Expr:
    """How dry another mix is, or a pack of one."""
    return where(of_mix, mix.first_dryness, pack.first_dryness)


@mix_parts.derived(TEXT, label="dry?")
def dryness(mixed_before: Expr, mixed_dryness: Expr, own_dryness: Expr) -> Expr:
    """Dry, not shown, doubtful, or origin not named."""
    return where(mixed_before, mixed_dryness, own_dryness)


@mix_parts.derived(FLAG)
def doubtful(dryness: Expr) -> Expr:
    """The part may not be dry."""
    return _is_doubtful(dryness)


@mix_parts.derived(FLAG)
def unshown(dryness: Expr) -> Expr:
    """The part is not shown to be dry."""
    return _is_unshown(dryness)


@mixes.derived(FLAG)
def speaks_against(mix_parts: Children, bought_doubtful: Expr, read_moist: Expr) -> Expr:
    """Its reading, or a part, speaks against its being dry."""
    return read_moist | (count(mix_parts, mix_parts.doubtful) + bought_doubtful > 0)


@mixes.derived(FLAG)
def shown_dry(mix_parts: Children, bought_unshown: Expr, has_reading: Expr) -> Expr:
    """Its reading, or else each part, shows that it is dry."""
    return has_reading | (count(mix_parts, mix_parts.unshown) + bought_unshown <= 0)


@mixes.derived(TEXT, label="dry?")
def dryness(speaks_against: Expr, shown_dry: Expr) -> Expr:
    """Dry, not shown or doubtful: the worst of its parts; its own reading stands in for what is not
    shown of them. Plausibility, not safety."""
    return where(speaks_against, DOUBTFUL, where(shown_dry, DRY, NOT_SHOWN))


@draws.derived(FLAG)
def mix_doubtful(of_mix: Expr, mix: Link) -> Expr:
    """The mix may not be dry."""
    return where(of_mix, _is_doubtful(mix.dryness), no())


@draws.derived(FLAG)
def mix_unshown(of_mix: Expr, mix: Link) -> Expr:
    """The mix is not shown to be dry."""
    return where(of_mix, _is_unshown(mix.dryness), no())


@packs.derived(TEXT)
def dryness_of_mixes(draws: Children) -> Expr:
    """The worst of the mixes behind it."""
    return _worst(count(draws, draws.mix_doubtful), count(draws, draws.mix_unshown))


@mixes.check("caution", "Do not pack it; dry it again, or leave out the part that is in doubt.")
def doubtful_mix(dryness: Expr) -> Expr:
    """A mix that may not be dry enough to keep."""
    return dryness == DOUBTFUL
