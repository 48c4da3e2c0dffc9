"""The pack on the shelf: oxygen in it, absorbers for it, water to add, how long."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    first_known,
    known,
    power,
    round_up,
    same,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, DATE, FLAG, SHARE, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import LAPSE, OXYGEN_IN_AIR, PRESSURE_EXPONENT
from reportgen.trade.tables import absorber_needs, packs, place, prices
from reportgen.units import FRESH, MONEY, VOLUME, Unit

YEAR = Unit.of("year")


@packs.derived(VOLUME)
def void(container: Link, net: Expr, product: Link) -> Expr:
    """Room for air: the container less the solid itself; the pores of the food are full of air."""
    return container.volume - net / product.skeletal_density


@packs.derived(VOLUME, label="oxygen inside")
def oxygen(void: Expr) -> Expr:
    """Oxygen in the sealed container, at sea level."""
    return void * OXYGEN_IN_AIR


@place.derived(SHARE, source="US Standard Atmosphere 1976")
def air_at_height(altitude: Expr) -> Expr:
    """Air pressure at the height, over that at sea level."""
    return power(1 - altitude * LAPSE, PRESSURE_EXPONENT)


@place.derived(SHARE)
def air(air_at_height: Expr) -> Expr:
    """Air pressure over that at sea level; where no height is given, that of the sea."""
    return first_known(air_at_height, 1)


@packs.derived(VOLUME)
def oxygen_here(oxygen: Expr, place: SingleRow) -> Expr:
    """Oxygen in it at the height of the place."""
    return oxygen * place.air


@packs.derived(SHARE, label="absorber, of that oxygen")
def absorber_share(container: Link, oxygen: Expr) -> Expr:
    """What the container's absorbers take up, over the oxygen in it."""
    return container.absorber / oxygen


@packs.check("caution", "Put in more absorbers, or larger ones; see the absorbers needed.")
def absorber_short(container: Link, oxygen_here: Expr) -> Expr:
    """The absorbers take up less oxygen than the container holds."""
    return (container.absorber > 0) & (container.absorber < oxygen_here)


@packs.derived(FRESH)
def water_to_add(fresh_equivalent: Expr, net: Expr) -> Expr:
    """Water that brings one back to its fresh weight."""
    return fresh_equivalent - net


@packs.derived(FLAG)
def sealed_well(from_mix: Expr, dryness: Expr, container: Link, oxygen_here: Expr) -> Expr:
    """Shown to be dry, of no mix, and sealed with enough absorber."""
    return ~from_mix & (dryness == "dry") & (container.absorber >= oxygen_here)


@packs.derived(YEAR, label="keeps, by the container's maker")
def keeps_by_maker(sealed_well: Expr, container: Link) -> Expr:
    """The container's own keeping time: it counts for what is sealed dry with enough absorber."""
    return where(sealed_well, container.keeps, unknown())


@packs.derived(YEAR)
def keeps(keeps_by_maker: Expr, product: Link) -> Expr:
    """How long it keeps: by the container's maker, else by the product data."""
    return first_known(keeps_by_maker, product.best_by)


@packs.derived(DATE, label="best-by day")
def best_by(
    from_mix: Expr, best_by_mixed: Expr, carried_best_by: Expr, date: Expr, keeps: Expr
) -> Expr:
    """Packing day and how long it keeps, or as it was last season; of a mix the earliest of its
    parts. It presumes that the food is dry and stays sealed."""
    return where(from_mix, best_by_mixed, first_known(carried_best_by, date + keeps))


@packs.derived(TEXT, label="best-by day, whose figure")
def best_by_basis(best_by: Expr, best_by_whose: Expr) -> Expr:
    """Whose figure the best-by day is."""
    return where(known(best_by), best_by_whose, unknown())


@packs.derived(TEXT)
def best_by_whose(carried_best_by: Expr, keeps_by_maker: Expr, from_mix: Expr) -> Expr:
    """Whose figure it would be."""
    by_data = where(from_mix, "the earliest of its parts", "product data")
    of_season = where(known(keeps_by_maker), "the maker's own figure", by_data)
    return where(known(carried_best_by), "as last season", of_season)


@packs.check(
    "caution",
    "Eat, give or sell none whose dryness is not shown; where it is, open one first and sell none.",
)
def past_best_by(on_hand: Expr, best_by: Expr, season: SingleRow) -> Expr:
    """Still on the shelf past its best-by day."""
    return (on_hand > 0) & (best_by < season.as_of)


@prices.derived(COUNT, label="of these past their day")
def past_best_by(packs: Children, key: Expr) -> Expr:
    """How many of those on the shelf are past their best-by day."""
    rows = same(packs.priced_as, key)
    return total(rows.on_hand, rows.past_best_by)


@absorber_needs.derived(COUNT, label="absorbers needed")
def count_needed(pack: Link, absorber: Link) -> Expr:
    """How many of this size one container needs."""
    return round_up(pack.oxygen_here / absorber.oxygen, 1)


@absorber_needs.derived(MONEY)
def cost_each(count_needed: Expr, absorber: Link) -> Expr:
    """What they cost for one container."""
    return count_needed * absorber.cost


@packs.check("caution", "Write the container's volume and the recipe's density.")
def oxygen_missing(container: Link, oxygen: Expr) -> Expr:
    """Sealed with absorbers, but the oxygen in it is not known."""
    return (container.absorber > 0) & ~known(oxygen)
