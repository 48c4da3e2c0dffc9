"""How long a mix keeps: up to the earliest best-by day of its parts, as far as all are known."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, least, lowest, missing, unknown, where
from reportgen.algebra.tables import COUNT, DATE
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.tables import bought_parts, draws, mix_parts, mixes, packs
from reportgen.units import Unit

DAY = Unit.of("d")


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


def _earliest(one: Expr, other: Expr) -> Expr:
    """The lower of two numbers, of which one may be missing."""
    return first_known(least(one, other), one, other)


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
def own_earliest(mix_parts: Children) -> Expr:
    """The fewest days of what of our own went in, where none was mixed before."""
    return lowest(mix_parts.own_days)


@mixes.derived(DAY)
def first_earliest(own_earliest: Expr, bought_days: Expr) -> Expr:
    """The fewest days of its parts, where none was mixed before."""
    return _earliest(own_earliest, bought_days)


@mixes.derived(DAY)
def first_days(mix_parts: Children, bought_undated: Expr, first_earliest: Expr) -> Expr:
    """The same; not known where a part has no best-by day."""
    undated = missing(mix_parts.own_days) + bought_undated
    return where(undated > 0, unknown(), first_earliest)


@draws.derived(DAY)
def first_days(mix: Link) -> Expr:
    """Days to the best-by day of the mix, where it holds no mixes."""
    return mix.first_days


@packs.derived(DAY)
def first_fewest(mixes_named: Expr, draws: Children) -> Expr:
    """The fewest days of the mixes that it names, of those that may go into others."""
    return where(mixes_named > 0, lowest(draws.first_days), unknown())


@packs.derived(DAY)
def first_days(draws: Children, first_fewest: Expr) -> Expr:
    """Days to the best-by day of a pack of mixes that may go into others."""
    return where(missing(draws.first_days, draws.of_mix) > 0, unknown(), first_fewest)


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
def parts_earliest(mix_parts: Children) -> Expr:
    """The fewest days of what of our own went in."""
    return lowest(mix_parts.days_left)


@mixes.derived(DAY)
def earliest_known(parts_earliest: Expr, bought_days: Expr) -> Expr:
    """The fewest days of its parts, of those that have a best-by day."""
    return _earliest(parts_earliest, bought_days)


@mixes.derived(DAY)
def days_left(mix_parts: Children, bought_undated: Expr, earliest_known: Expr) -> Expr:
    """Days from the day of the season to the earliest best-by day of its parts; not known where one
    has none."""
    undated = missing(mix_parts.days_left) + bought_undated
    return where(undated > 0, unknown(), earliest_known)


@mixes.derived(DATE, label="best-by day")
def best_by(season: SingleRow, days_left: Expr) -> Expr:
    """The earliest best-by day of its parts; not known where one is not."""
    return season.as_of + days_left


@draws.derived(DAY)
def mix_days(mix: Link) -> Expr:
    """Days to the best-by day of the mix."""
    return mix.days_left


@packs.derived(DAY)
def mix_fewest(mixes_named: Expr, draws: Children) -> Expr:
    """The fewest days of the mixes that it names, of those that are known."""
    return where(mixes_named > 0, lowest(draws.mix_days), unknown())


@packs.derived(DAY)
def mix_days(draws: Children, mix_fewest: Expr) -> Expr:
    """The same; not known where those of one are not."""
    return where(missing(draws.mix_days, draws.of_mix) > 0, unknown(), mix_fewest)


@packs.derived(DATE)
def mixes_best_by(season: SingleRow, mix_days: Expr) -> Expr:
    """The earliest best-by day of the mixes that it names."""
    return season.as_of + mix_days


@packs.derived(DATE)
def best_by_mixed(mixes_best_by: Expr, best_by_opened: Expr) -> Expr:
    """The same, or an earlier one by its own product data."""
    return first_known(least(mixes_best_by, best_by_opened), mixes_best_by)
