"""The season as a whole: sums over its lots, runs, products and uses."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    missing,
    total,
    total_known,
)
from reportgen.algebra.tables import COUNT, SHARE
from reportgen.algebra.views import Children
from reportgen.trade.tables import season
from reportgen.units import DRIED, ENERGY, FRESH, MONEY


@season.derived(FRESH)
def as_purchased(lots: Children) -> Expr:
    """Weight of all lots as purchased; those left from last season were purchased then."""
    return total(lots.as_purchased, lots.of_season)


@season.derived(FRESH)
def prepped(lots: Children) -> Expr:
    """Prepped weight of all lots."""
    return total(lots.prepped)


@season.derived(FRESH, label="waiting to be dried")
def waiting(lots: Children) -> Expr:
    """Prepped and still to be dried."""
    return total(lots.waiting)


@season.derived(FRESH, label="loaded into dryers")
def loaded(lots: Children) -> Expr:
    """Weight that went into dryers."""
    return total(lots.loaded)


@season.derived(DRIED)
def dried(products: Children) -> Expr:
    """Weight that came out dry."""
    return total(products.dried)


@season.derived(DRIED)
def packed(products: Children) -> Expr:
    """Weight packed."""
    return total(products.packed)


@season.derived(DRIED, label="in bulk, not packed")
def unpacked(products: Children) -> Expr:
    """Bulk still to be packed."""
    return total(products.unpacked)


@season.derived(MONEY)
def purchase_cost(lots: Children) -> Expr:
    """What all lots cost to buy."""
    return total(lots.purchase_cost, lots.of_season)


@season.derived(MONEY)
def travel_cost(lots: Children) -> Expr:
    """What fetching them cost."""
    return total(lots.travel_cost, lots.of_season)


@season.derived(MONEY)
def labor_cost(lots: Children) -> Expr:
    """Time spent on the lots, at the rate."""
    return total(lots.labor_cost, lots.of_season)


@season.derived(MONEY)
def run_labor_cost(runs: Children) -> Expr:
    """Time spent on the runs that are done, at the rate."""
    return total(runs.labor_cost, runs.done)


@season.derived(ENERGY)
def energy_used(runs: Children) -> Expr:
    """Energy of the runs, of those still going as far as it is known."""
    return total(runs.energy_used, runs.counted)


@season.derived(MONEY)
def energy_cost(runs: Children) -> Expr:
    """Energy of all runs at the prices of electricity."""
    return total(runs.energy_cost, runs.counted)


@season.derived(FRESH)
def water_removed(runs: Children) -> Expr:
    """Water taken out by the runs that are done."""
    return total(runs.water_removed, runs.done)


@season.derived(MONEY, label="produce")
def cost_ingredients(products: Children) -> Expr:
    """Produce and travel of all products."""
    return total(products.cost_ingredients)


@season.derived(MONEY, label="energy")
def cost_energy(products: Children) -> Expr:
    """Energy of all products."""
    return total(products.cost_energy)


@season.derived(MONEY, label="upkeep")
def cost_upkeep(products: Children) -> Expr:
    """Upkeep of all products."""
    return total(products.cost_upkeep)


@season.derived(MONEY, label="wear")
def cost_wear(products: Children) -> Expr:
    """Wear of all products."""
    return total(products.cost_wear)


@season.derived(MONEY, label="time")
def cost_labor(products: Children) -> Expr:
    """Time of all products, packing apart."""
    return total(products.cost_labor)


@season.derived(MONEY / DRIED)
def overhead_by_weight(overheads: Children) -> Expr:
    """Overheads by dried weight."""
    return total(overheads.by_weight)


@season.derived(MONEY, label="overheads")
def cost_overhead(products: Children) -> Expr:
    """Overheads of all products."""
    return total(products.cost_overhead)


@season.derived(MONEY, label="packaging")
def cost_packaging(products: Children) -> Expr:
    """Packaging of all products."""
    return total(products.cost_packaging)


@season.derived(MONEY, label="packing time")
def cost_pack_labor(products: Children) -> Expr:
    """Packing time of all products."""
    return total(products.cost_pack_labor)


@season.derived(MONEY)
def running_cost(products: Children) -> Expr:
    """Running cost of all products."""
    return total(products.running_cost)


@season.derived(MONEY)
def full_cost(products: Children) -> Expr:
    """Full cost of all products."""
    return total(products.full_cost)


@season.derived(MONEY, label="cost of what is waiting")
def waiting_cost(lots: Children) -> Expr:
    """What the produce still waiting cost."""
    return total(lots.waiting_cost)


@season.derived(MONEY, label="cost of lots left from last season")
def lots_carried(lots: Children) -> Expr:
    """What lots left from last season bring with them: it was spent then."""
    return total(lots.carried_cost)


@season.derived(MONEY, label="cost of what was set aside")
def set_aside_cost(lots: Children) -> Expr:
    """What the produce set aside cost."""
    return total(lots.set_aside_cost)


@season.derived(MONEY, label="cost of what is in runs")
def in_process_cost(loads: Children) -> Expr:
    """Produce in runs that are not done."""
    return total(loads.cost_ingredients, loads.unfinished)


@season.derived(MONEY, label="spent so far")
def spent(
    running_cost: Expr,
    waiting_cost: Expr,
    set_aside_cost: Expr,
    in_process_cost: Expr,
    failed_running: Expr,
    lots_carried: Expr,
) -> Expr:
    """Running cost, and produce waiting, set aside or in process; nothing of last season's."""
    not_in_products = waiting_cost + set_aside_cost + in_process_cost + failed_running
    return running_cost + not_in_products - lots_carried


@season.derived(MONEY, label="saved so far and once eaten")
def saving(products: Children) -> Expr:
    """What was saved on what would have been bought, of the products with a shop price."""
    return total_known(products.saving)


@season.derived(MONEY, label="a shop would have got")
def instead(products: Children) -> Expr:
    """What shops would have got for the share of it that we would have bought."""
    return total_known(products.instead_compared)


@season.derived(MONEY, label="it cost us")
def kept_cost(instead: Expr, saving: Expr) -> Expr:
    """Running cost of the same."""
    return instead - saving


@season.derived(MONEY, label="saved so far")
def saving_taken(products: Children) -> Expr:
    """What was eaten or given away saved, of the products with a shop price."""
    return total_known(products.saving_taken)


@season.derived(MONEY, label="saved once eaten")
def saving_on_hand(products: Children) -> Expr:
    """What is on the shelf saves when it is eaten, of the products with a shop price."""
    return total_known(products.saving_on_hand)


@season.derived(COUNT, label="products without a saving")
def saving_missing(products: Children) -> Expr:
    """Products whose saving is not known."""
    return missing(products.saving)


@season.derived(MONEY, label="came in")
def revenue(uses: Children, market_packs: Children) -> Expr:
    """What buyers paid for all that was sold, net of tax and before fees."""
    return total(uses.revenue) + total(market_packs.revenue)


@season.derived(MONEY, label="left of sales after full cost")
def profit(uses: Children, market_packs: Children) -> Expr:
    """What is left of the sales after tax, fees and full cost."""
    return total(uses.profit, uses.sold) + total(market_packs.profit)


@season.derived(MONEY, label="running cost on estimates")
def running_estimated(products: Children) -> Expr:
    """The part of the running cost that rests on estimates."""
    return total(products.running_estimated)


@season.derived(SHARE, label="rests on estimates")
def estimated_share(running_estimated: Expr, running_cost: Expr) -> Expr:
    """Share of the running cost that rests on estimates."""
    return running_estimated / running_cost


@season.derived(COUNT, label="lots with some waiting")
def lots_open(lots: Children) -> Expr:
    """Lots with something waiting."""
    return count(lots, lots.some_waiting)


@season.derived(COUNT, label="runs not done")
def runs_open(runs: Children) -> Expr:
    """Runs that are not done, nor given up."""
    return count(runs) - count(runs, runs.done) - count(runs, runs.given_up)
