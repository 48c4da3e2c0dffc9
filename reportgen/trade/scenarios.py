"""What would change it: each product's cost under each scenario, and what weighs most."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, join, known, total, where
from reportgen.algebra.tables import SHARE, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import containers, loads, lots, packs, products, scenarios
from reportgen.units import DISTANCE, DRIED, FRESH, HOUR, MONEY, VOLUME


@lots.derived(DISTANCE)
def distance_shared(trip: Link, trip_share: Expr) -> Expr:
    """Its share of the distance of a trip."""
    return trip.distance * trip_share


@lots.derived(DISTANCE)
def distance(trip: Link, travel: Expr, distance_shared: Expr) -> Expr:
    """Distance driven for it: its own, and its share of a trip."""
    return where(trip == "", travel, travel + distance_shared)


@lots.derived(HOUR)
def hours_shared(trip: Link, trip_share: Expr) -> Expr:
    """Its share of the time of a trip."""
    return trip.labor * trip_share


@lots.derived(HOUR)
def hours(trip: Link, labor: Expr, hours_shared: Expr) -> Expr:
    """Time spent on it: its own, and its share of a trip."""
    return where(trip == "", labor, labor + hours_shared)


@lots.derived(MONEY / FRESH)
def travel_per_prepped(travel_cost: Expr, usable: Expr) -> Expr:
    """Driving by usable weight."""
    return travel_cost / usable


@lots.derived(DISTANCE / FRESH)
def distance_per_prepped(distance: Expr, usable: Expr) -> Expr:
    """Distance by usable weight."""
    return distance / usable


@lots.derived(HOUR / FRESH)
def hours_per_prepped(hours: Expr, usable: Expr) -> Expr:
    """Time by usable weight."""
    return hours / usable


@loads.derived(MONEY)
def cost_travel(first_pass: Expr, weight_in: Expr, lot: Link) -> Expr:
    """Its driving, a part of the ingredients."""
    return where(first_pass, weight_in * lot.travel_per_prepped, 0)


@loads.derived(DISTANCE)
def distance(first_pass: Expr, weight_in: Expr, lot: Link) -> Expr:
    """Distance driven for it."""
    return where(first_pass, weight_in * lot.distance_per_prepped, 0)


@loads.derived(HOUR)
def hours_from_lot(first_pass: Expr, weight_in: Expr, lot: Link) -> Expr:
    """Its share of the lot's time."""
    return where(first_pass, weight_in * lot.hours_per_prepped, 0)


@loads.derived(HOUR)
def hours(hours_from_lot: Expr, run: Link, run_share: Expr) -> Expr:
    """Its share of the lot's time and of the run's."""
    return hours_from_lot + run.labor * run_share


@products.derived(MONEY)
def cost_travel(loads: Children) -> Expr:
    """Driving, a part of the ingredients."""
    return total(loads.cost_travel, loads.finished)


@products.derived(DISTANCE)
def distance(loads: Children) -> Expr:
    """Distance driven."""
    return total(loads.distance, loads.finished)


@products.derived(HOUR)
def hours(loads: Children) -> Expr:
    """Time of buying, preparing, loading and unloading."""
    return total(loads.hours, loads.finished)


@products.derived(HOUR)
def pack_hours(packs: Children) -> Expr:
    """Time of packing what was dried."""
    return total(packs.labor, packs.of_runs)


@packs.derived(VOLUME)
def volume_all(count: Expr, container: Link) -> Expr:
    """Inside volume of all of them."""
    return count * container.volume


@products.derived(VOLUME)
def packed_volume(packs: Children) -> Expr:
    """Inside volume of its packs."""
    return total(packs.volume_all, packs.of_runs)


@products.derived(DRIED / VOLUME)
def packed_density(packed: Expr, packed_volume: Expr) -> Expr:
    """Weight packed by inside volume."""
    return packed / packed_volume


@scenarios.derived(TEXT)
def key(scenario: Link, product: Link) -> Expr:
    """Scenario and product."""
    return join(scenario, "/", product)


@scenarios.link(containers)
def container(scenario: Link) -> Expr:
    """The scenario's container."""
    return scenario.container


@scenarios.derived(MONEY)
def travel(scenario: Link, product: Link) -> Expr:
    """Driving, at the scenario's rate where it has one."""
    return first_known(product.distance * scenario.travel, product.cost_travel)


@scenarios.derived(MONEY, label="produce")
def ingredients(product: Link, travel: Expr, scenario: Link) -> Expr:
    """Produce and driving under the scenario."""
    return (product.cost_ingredients + (travel - product.cost_travel)) * scenario.ingredients_factor


@scenarios.derived(MONEY)
def energy_paid(scenario: Link, product: Link) -> Expr:
    """Energy, at the scenario's price where it has one."""
    return first_known(product.energy_used * scenario.electricity, product.cost_energy)


@scenarios.derived(MONEY)
def energy(energy_paid: Expr, scenario: Link) -> Expr:
    """Energy under the scenario."""
    return energy_paid * scenario.energy_factor


@scenarios.derived(MONEY)
def upkeep(product: Link, scenario: Link) -> Expr:
    """Upkeep under the scenario."""
    return product.cost_upkeep * scenario.upkeep_factor


@scenarios.derived(MONEY)
def wear(product: Link, scenario: Link) -> Expr:
    """Wear under the scenario."""
    return product.cost_wear * scenario.wear_factor


@scenarios.derived(MONEY, label="overheads")
def overhead(product: Link, scenario: Link) -> Expr:
    """Overhead under the scenario."""
    return product.cost_overhead * scenario.overhead_factor


@scenarios.derived(MONEY)
def labor_paid(scenario: Link, product: Link) -> Expr:
    """Time on the bulk, at the scenario's rate where it has one."""
    return first_known(
        product.hours * scenario.labor_rate + product.labor_carried, product.cost_labor
    )


@scenarios.derived(MONEY, label="time")
def labor(labor_paid: Expr, scenario: Link) -> Expr:
    """Time on the bulk under the scenario."""
    return labor_paid * scenario.labor_factor


@scenarios.derived(MONEY)
def pack_labor_paid(scenario: Link, product: Link) -> Expr:
    """Time of packing, at the scenario's rate where it has one."""
    return first_known(product.hours_intact * scenario.labor_rate, product.pack_labor_intact)


@scenarios.derived(MONEY, label="packing time")
def pack_labor(pack_labor_paid: Expr, scenario: Link) -> Expr:
    """Time of packing under the scenario."""
    return pack_labor_paid * scenario.labor_factor


@scenarios.derived(VOLUME)
def container_volume(container: Link) -> Expr:
    """Inside volume of the scenario's container."""
    return container.volume


@scenarios.derived(DRIED)
def container_net(scenario: Link, product: Link, container_volume: Expr) -> Expr:
    """Net weight in the scenario's container: as given, else as tightly packed as now."""
    return first_known(scenario.net, product.packed_density * container_volume)


@scenarios.derived(MONEY)
def container_packaging(container: Link, product: Link, container_net: Expr) -> Expr:
    """Packaging of all that was packed, in the scenario's container."""
    return container.packaging_each * product.packed_intact / container_net


@scenarios.derived(MONEY)
def packaging_paid(container: Link, product: Link, container_packaging: Expr) -> Expr:
    """Packaging: in the scenario's container where it has one, else as it is."""
    return where(container == "", product.packaging_intact, container_packaging)


@scenarios.derived(MONEY)
def packaging(packaging_paid: Expr, scenario: Link) -> Expr:
    """Packaging under the scenario."""
    return packaging_paid * scenario.packaging_factor


@scenarios.derived(MONEY, label="running cost of the bulk")
def bulk_running(ingredients: Expr, energy: Expr, upkeep: Expr, product: Link) -> Expr:
    """Running cost of the bulk under the scenario, what was carried over included."""
    return ingredients + energy + upkeep + product.carried_running


@scenarios.derived(MONEY, label="cost beyond the running cost")
def beyond_running(wear: Expr, labor: Expr, overhead: Expr) -> Expr:
    """Wear, time and overhead of the bulk under the scenario."""
    return wear + labor + overhead


@scenarios.derived(MONEY)
def bulk_full(
    ingredients: Expr, energy: Expr, upkeep: Expr, beyond_running: Expr, product: Link
) -> Expr:
    """Full cost of the bulk under the scenario, what was carried over included."""
    return ingredients + energy + upkeep + beyond_running + product.carried_full


@scenarios.derived(SHARE)
def packed_share(product: Link) -> Expr:
    """Share of the bulk that was packed."""
    return product.packed_intact / product.bulk


@scenarios.derived(MONEY / DRIED, label="running cost by weight")
def running_per_packed(
    bulk_running: Expr, packed_share: Expr, packaging: Expr, product: Link
) -> Expr:
    """Running cost by packed weight under the scenario."""
    return (bulk_running * packed_share + packaging) / product.packed_bearing


@scenarios.derived(MONEY / DRIED, label="full cost by weight")
def full_per_packed(
    bulk_full: Expr, packed_share: Expr, packaging: Expr, pack_labor: Expr, product: Link
) -> Expr:
    """Full cost by packed weight under the scenario."""
    return (bulk_full * packed_share + packaging + pack_labor) / product.packed_bearing


@scenarios.derived(SHARE, label="running cost, of shops' median")
def running_to_retail(running_per_packed: Expr, product: Link) -> Expr:
    """Running cost by packed weight under the scenario, over today's median."""
    return running_per_packed / product.retail_median


@scenarios.derived(SHARE, label="full cost, of shops' median")
def full_to_retail(full_per_packed: Expr, product: Link) -> Expr:
    """Full cost by packed weight under the scenario, over today's median."""
    return full_per_packed / product.retail_median


@scenarios.derived(SHARE, label="full cost, against now")
def change_of_full(full_per_packed: Expr, product: Link) -> Expr:
    """How much dearer (or, below zero, cheaper) than now, time and wear included."""
    return full_per_packed / product.full_per_packed - 1


@scenarios.derived(SHARE, label="running cost, against now")
def change_of_running(running_per_packed: Expr, product: Link) -> Expr:
    """How much dearer (or, below zero, cheaper) than now."""
    return running_per_packed / product.running_per_packed - 1


@scenarios.check("caution", "Write the scenario's net, or the volumes of both containers.")
def net_missing(container: Link, container_net: Expr) -> Expr:
    """A scenario with another container whose net weight is not known."""
    return (container != "") & ~known(container_net)
