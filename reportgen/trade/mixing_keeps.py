"""How dry a mix is, and how long it keeps: the worst of its parts, the earliest of their days.

What is not known of one part is not known of the mix. A reading of the mix itself takes the place
of what is not known; against a part that may be moist it says nothing, for water spreads slowly.
Bulk is as dry as the worst load of its product that had come out by the day of the mix.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    first_known,
    least,
    lowest,
    missing,
    no,
    same,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, DATE, FLAG, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import ONE_DAY, ONE_MINUTE
from reportgen.trade.tables import bought_parts, draws, mix_parts, mixes, packs
from reportgen.units import Unit

DAY = Unit.of("d")
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


def _by_reading(read_moist: Expr, has_reading: Expr, doubtful: Expr, unshown: Expr) -> Expr:
    """The worst of its parts, with a reading of its own in place of what is not known."""
    left = where(has_reading, 0, unshown)
    return where(read_moist, DOUBTFUL, _worst(doubtful, left))


@mixes.derived(TEXT)
def first_dryness(
    mix_parts: Children,
    bought_doubtful: Expr,
    bought_unshown: Expr,
    read_moist: Expr,
    has_reading: Expr,
) -> Expr:
    """How dry a mix without mixes among its parts is shown to be."""
    doubtful = count(mix_parts, mix_parts.own_doubtful) + bought_doubtful
    unshown = count(mix_parts, mix_parts.own_unshown) + bought_unshown
    return _by_reading(read_moist, has_reading, doubtful, unshown)


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


@mixes.derived(TEXT, label="dry?")
def dryness(
    mix_parts: Children,
    bought_doubtful: Expr,
    bought_unshown: Expr,
    read_moist: Expr,
    has_reading: Expr,
) -> Expr:
    """Dry, not shown or doubtful: the worst of its parts; its own reading stands in for what is not
    shown of them. Plausibility, not safety."""
    doubtful = count(mix_parts, mix_parts.doubtful) + bought_doubtful
    unshown = count(mix_parts, mix_parts.unshown) + bought_unshown
    return _by_reading(read_moist, has_reading, doubtful, unshown)


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


# --- how long it keeps ---------------------------------------------------------------------------


@packs.derived(DATE, label="best-by day, once opened")
def best_by_opened(carried_best_by: Expr, date: Expr, product: Link) -> Expr:
    """The same, but by the product data alone: a container's own figure is for what stays
    sealed."""
    return first_known(carried_best_by, date + product.best_by)


@mix_parts.derived(DATE)
def own_best_by(of_pack: Expr, pack: Link, date: Expr, of_product: Link) -> Expr:
    """The best-by day of bulk, from the day of the mix, or of a pack that is of no mix."""
    return where(of_pack, pack.best_by_opened, date + of_product.best_by)


def _days(best_by: Expr, season: SingleRow) -> Expr:
    """A day as a number: days from the one on which all is judged."""
    return best_by - season.as_of


def _earliest(one: Expr, other: Expr, undated: Expr) -> Expr:
    """The lower of two numbers; unknown where a part has none."""
    return where(undated > 0, unknown(), first_known(least(one, other), one, other))


@mix_parts.derived(DAY)
def own_days(own_best_by: Expr, season: SingleRow) -> Expr:
    """Days from the day of the season to that."""
    return _days(own_best_by, season)


@bought_parts.derived(DAY)
def days_left(best_by: Expr, season: SingleRow) -> Expr:
    """Days from the day of the season to its best-by day."""
    return _days(best_by, season)


@mixes.derived(DAY)
def bought_days(bought_parts: Children) -> Expr:
    """The fewest of its bought parts."""
    return lowest(bought_parts.days_left)


@mixes.derived(COUNT)
def bought_undated(bought_parts: Children) -> Expr:
    """Bought parts without a best-by day."""
    return missing(bought_parts.days_left)


@mixes.derived(DAY)
def first_days(mix_parts: Children, bought_days: Expr, bought_undated: Expr) -> Expr:
    """Days to the best-by day of a mix without mixes among its parts."""
    undated = missing(mix_parts.own_days) + bought_undated
    return _earliest(lowest(mix_parts.own_days), bought_days, undated)


@draws.derived(DAY)
def first_days(mix: Link) -> Expr:
    """Days to the best-by day of the mix, where it holds no mixes."""
    return mix.first_days


@packs.derived(DAY)
def first_days(draws: Children) -> Expr:
    """Days to the best-by day of a pack of mixes that may go into others."""
    days = lowest(draws.first_days)
    return where(missing(draws.first_days, draws.of_mix) > 0, unknown(), days)


@mix_parts.derived(DAY)
def mixed_days(of_mix: Expr, mix: Link, pack: Link) -> Expr:
    """Days to the best-by day of another mix, or of a pack of one."""
    return where(of_mix, mix.first_days, pack.first_days)


@mix_parts.derived(DAY, label="days left")
def days_left(mixed_before: Expr, mixed_days: Expr, own_days: Expr) -> Expr:
    """Days from the day of the season to the part's best-by day."""
    return where(mixed_before, mixed_days, own_days)


@mix_parts.derived(DATE, label="best-by day")
def best_by(season: SingleRow, days_left: Expr) -> Expr:
    """The part's best-by day; of packs that were opened by the product data."""
    return season.as_of + days_left


@mixes.derived(DAY)
def days_left(mix_parts: Children, bought_days: Expr, bought_undated: Expr) -> Expr:
    """Days from the day of the season to the earliest best-by day of its parts."""
    undated = missing(mix_parts.days_left) + bought_undated
    return _earliest(lowest(mix_parts.days_left), bought_days, undated)


@mixes.derived(DATE, label="best-by day")
def best_by(season: SingleRow, days_left: Expr) -> Expr:
    """The earliest best-by day of its parts; not known where one is not."""
    return season.as_of + days_left


@draws.derived(DAY)
def mix_days(mix: Link) -> Expr:
    """Days to the best-by day of the mix."""
    return mix.days_left


@packs.derived(DAY)
def mix_days(draws: Children) -> Expr:
    """The fewest days of the mixes that it names."""
    days = lowest(draws.mix_days)
    return where(missing(draws.mix_days, draws.of_mix) > 0, unknown(), days)


@packs.derived(DATE)
def best_by_mixed(season: SingleRow, mix_days: Expr, best_by_opened: Expr) -> Expr:
    """The earliest best-by day of the mixes it names, and of its own product data."""
    of_mixes = season.as_of + mix_days
    return least(of_mixes, first_known(best_by_opened, of_mixes))
