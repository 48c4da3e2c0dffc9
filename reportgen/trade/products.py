"""Products: what came out, what it cost by weight, and against the shops."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import known, total, unknown, where
from reportgen.algebra.tables import FLAG, SHARE
from reportgen.algebra.views import Children, SingleRow
from reportgen.trade.constants import BALANCE
from reportgen.trade.tables import products
from reportgen.units import DRIED, FRESH, MONEY, ONE


@products.derived(FRESH)
def loaded(loads: Children) -> Expr:
    """Wet weight of its finished loads; what went back in is not counted again."""
    return total(loads.weight_in, loads.finished, loads.first_pass)


@products.derived(DRIED)
def dry_out(loads: Children) -> Expr:
    """Weight that came out of its finished loads, each time."""
    return total(loads.weight_out, loads.finished)


@products.derived(FRESH)
def put_back(loads: Children) -> Expr:
    """Weight that went back in, not yet dry, in loads that are finished or lost."""
    return total(loads.weight_in, loads.gone, loads.second_pass)


@products.derived(DRIED)
def dried(dry_out: Expr, put_back: Expr) -> Expr:
    """Dried weight: what came out, less what went back in."""
    return dry_out - put_back


@products.derived(FRESH)
def in_process(loads: Children) -> Expr:
    """Wet weight in runs that are not done."""
    return total(loads.weight_in, loads.unfinished)


@products.derived(FRESH)
def waiting(lots: Children) -> Expr:
    """Prepped and still to be dried."""
    return total(lots.waiting)


@products.derived(FRESH)
def as_purchased_share(loads: Children) -> Expr:
    """The purchased weight behind its finished loads."""
    return total(loads.as_purchased_share, loads.finished)


@products.derived(SHARE)
def overall_yield(dried: Expr, as_purchased_share: Expr) -> Expr:
    """Dried weight out of one of purchased."""
    return dried / as_purchased_share


@products.derived(ONE)
def drying_ratio(loaded: Expr, dried: Expr) -> Expr:
    """Wet weight for one of dried."""
    return loaded / dried


@products.derived(MONEY, label="produce")
def cost_ingredients(loads: Children) -> Expr:
    """Produce and travel."""
    return total(loads.cost_ingredients, loads.finished)


@products.derived(MONEY, label="energy")
def cost_energy(loads: Children) -> Expr:
    """Its loads' shares of the energy of their runs."""
    return total(loads.cost_energy, loads.finished)


@products.derived(MONEY, label="upkeep")
def cost_upkeep(loads: Children) -> Expr:
    """Upkeep of the dryers."""
    return total(loads.cost_upkeep, loads.finished)


@products.derived(MONEY, label="wear")
def cost_wear(loads: Children) -> Expr:
    """Wear of the dryers."""
    return total(loads.cost_wear, loads.finished)


@products.derived(MONEY, label="time")
def cost_labor(loads: Children) -> Expr:
    """Time of buying, preparing, loading and unloading."""
    return total(loads.cost_labor, loads.finished)


@products.derived(MONEY)
def labor_carried(loads: Children) -> Expr:
    """What the time of lots left from last season cost then; no rate of this one changes it."""
    return total(loads.labor_carried, loads.finished)


@products.derived(MONEY, label="overheads")
def cost_overhead(dried: Expr, season: SingleRow) -> Expr:
    """Its part of the overheads, by dried weight."""
    return dried * season.overhead_by_weight


@products.derived(MONEY, label="packaging")
def cost_packaging(packs: Children) -> Expr:
    """Packaging of its packs, those carried over left out."""
    return total(packs.packaging_cost, packs.of_season)


@products.derived(MONEY, label="packing time")
def cost_pack_labor(packs: Children) -> Expr:
    """Hours spent on packing it, at the rate for time."""
    return total(packs.labor_cost, packs.of_season)


@products.derived(MONEY)
def running_cost(running_made: Expr, running_by_mixes: Expr) -> Expr:
    """Produce, driving, energy, upkeep and packaging: no time, no wear. What went into mixes stands
    there."""
    return running_made + running_by_mixes


@products.derived(MONEY)
def full_cost(full_made: Expr, full_by_mixes: Expr) -> Expr:
    """Running cost, and wear, time and overhead."""
    return full_made + full_by_mixes


@products.derived(DRIED)
def packed(packs: Children) -> Expr:
    """Weight packed this season, from what was dried."""
    return total(packs.dried_content, packs.of_runs)


@products.derived(DRIED, label="used without being packed")
def bulk_used(uses: Children) -> Expr:
    """Bulk used without being packed, crumbs included."""
    return total(uses.content, uses.of_bulk)


@products.derived(DRIED)
def crumbs(uses: Children) -> Expr:
    """Bulk that was left as crumbs."""
    return total(uses.content, uses.crumbs)


@products.derived(DRIED)
def spoiled(uses: Children) -> Expr:
    """What spoiled packs of this season held."""
    return total(uses.content, uses.spoiled)


@products.derived(DRIED, label="in bulk, not packed")
def unpacked(
    dried: Expr,
    carried: Expr,
    packed: Expr,
    bulk_used: Expr,
    bulk_missing: Expr,
    bulk_mixed: Expr,
) -> Expr:
    """Bulk still to be packed."""
    return dried + carried - packed - bulk_used - bulk_missing - bulk_mixed


@products.derived(FLAG)
def left_in_bulk(unpacked: Expr, dried: Expr, carried: Expr) -> Expr:
    """Some bulk is left, beyond what scales tell apart: the next season begins with it."""
    return unpacked > (dried + carried) * BALANCE


@products.derived(DRIED, label="packed, not spoiled")
def packed_good(packed_intact: Expr, spoiled: Expr) -> Expr:
    """Weight packed, less what spoiled and what was opened for mixes."""
    return packed_intact - spoiled


@products.derived(DRIED, label="packed weight that bears the cost")
def packed_bearing(packed_good: Expr) -> Expr:
    """Weight packed that did not spoil, where there is any: it bears the cost."""
    return where(packed_good > 0, packed_good, unknown())


@products.derived(DRIED, label="all that was in bulk")
def bulk(dried: Expr, carried: Expr, crumbs: Expr) -> Expr:
    """Bulk that bears the cost, where there is any: dried and carried over, less crumbs."""
    return where(dried + carried > crumbs, dried + carried - crumbs, unknown())


@products.derived(
    MONEY / DRIED,
    source="weighted-average costing, a method of cost accounting",
    label="running cost in bulk",
)
def running_bulk(bulk_paid: Expr, bulk: Expr) -> Expr:
    """Running cost of bulk by weight: all that it cost over all there is."""
    return bulk_paid / bulk


@products.derived(MONEY, label="running cost of all bulk")
def bulk_paid(cost_bulk_running: Expr, carried_running: Expr) -> Expr:
    """Running cost of all bulk, what was carried over included."""
    return cost_bulk_running + carried_running


@products.derived(MONEY, label="cost beyond the running cost")
def cost_beyond_running(cost_wear: Expr, cost_labor: Expr, cost_overhead: Expr) -> Expr:
    """Wear, time and overhead of the bulk."""
    return cost_wear + cost_labor + cost_overhead


@products.derived(MONEY, label="running cost of the bulk")
def cost_bulk_running(cost_ingredients: Expr, cost_energy: Expr, cost_upkeep: Expr) -> Expr:
    """Produce, energy and upkeep: the running cost of the bulk."""
    return cost_ingredients + cost_energy + cost_upkeep


@products.derived(
    MONEY / DRIED,
    source="weighted-average costing, a method of cost accounting",
    label="full cost in bulk",
)
def full_bulk(
    cost_bulk_running: Expr, cost_beyond_running: Expr, carried_full: Expr, bulk: Expr
) -> Expr:
    """Full cost of bulk by weight."""
    return (cost_bulk_running + cost_beyond_running + carried_full) / bulk


@products.derived(MONEY / DRIED, label="running cost by weight")
def running_per_packed(
    running_bulk: Expr, packed_intact: Expr, packaging_intact: Expr, packed_bearing: Expr
) -> Expr:
    """Running cost by weight as packed; what spoiled is borne by the rest."""
    return (running_bulk * packed_intact + packaging_intact) / packed_bearing


@products.derived(MONEY / DRIED, label="full cost by weight")
def full_per_packed(
    full_bulk: Expr,
    packed_intact: Expr,
    packaging_intact: Expr,
    pack_labor_intact: Expr,
    packed_bearing: Expr,
) -> Expr:
    """Full cost by weight as packed."""
    return (full_bulk * packed_intact + packaging_intact + pack_labor_intact) / packed_bearing


@products.derived(SHARE, label="running cost, of shops' median")
def running_to_retail(running_per_packed: Expr, retail_median: Expr) -> Expr:
    """Our running cost by weight over the shops' median."""
    return running_per_packed / retail_median


@products.derived(SHARE, label="full cost, of shops' median")
def full_to_retail(full_per_packed: Expr, retail_median: Expr) -> Expr:
    """Our full cost by weight over the shops' median."""
    return full_per_packed / retail_median


@products.derived(MONEY, label="running cost on estimates")
def running_estimated(loads: Children) -> Expr:
    """The part of the running cost that rests on estimates."""
    return total(loads.running_estimated, loads.finished)


@products.derived(SHARE, label="rests on estimates")
def estimated_share(mixes_made: Expr, running_estimated: Expr, running_made: Expr) -> Expr:
    """Share of the running cost that rests on estimates; not told of what mixes make."""
    return where(mixes_made > 0, unknown(), running_estimated / running_made)


@products.check("error", "Correct the weights that went back in and came out.")
def dried_below_zero(dried: Expr) -> Expr:
    """More went back in than ever came out."""
    return dried < 0


@products.check("caution", "Pack it, or write the weights and prices that are missing.")
def cost_missing(dried: Expr, running_bulk: Expr) -> Expr:
    """Dried, but its cost is not known yet."""
    return (dried > 0) & ~known(running_bulk)


@products.check("caution", "Write at least one offer with date, net weight and price.")
def shop_price_missing(dried: Expr, retail_median: Expr) -> Expr:
    """Dried, but no shop price to compare with."""
    return (dried > 0) & ~known(retail_median)
