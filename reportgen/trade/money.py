"""Money of the season: what came in, what was paid by kind, what is left.

It is the one place that may be held against a cash book; each line says where it will differ.
Machines bought are outside.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, no, total, where
from reportgen.algebra.tables import FLAG
from reportgen.algebra.views import Children, SingleRow
from reportgen.trade.tables import overheads, season
from reportgen.units import DRIED, MONEY


@overheads.derived(FLAG)
def money_leaves(paid: Expr) -> Expr:
    """Money leaves for it: so unless it says otherwise."""
    return first_known(paid, ~no())


@season.derived(MONEY, label="money in: sales")
def money_in(uses: Children, markets: Children) -> Expr:
    """Sales, tax included, at the prices written; on market days what was taken in, if written."""
    return total(uses.paid, uses.sold) + total(markets.taken_in)


@season.derived(MONEY, label="purchases")
def money_purchases(purchase_cost: Expr) -> Expr:
    """Produce bought, at the prices written, what is waiting or was lost included; by receipts."""
    return purchase_cost


@season.derived(MONEY, label="bought for mixes")
def money_bought(cost_bought: Expr) -> Expr:
    """What was bought and went into mixes as it was, at the prices written; by receipts."""
    return cost_bought


@season.derived(MONEY, label="energy")
def money_energy(energy_cost: Expr) -> Expr:
    """Energy of the runs, metered or estimated, at the rate: reckoned; the bill holds the house,
    too."""
    return energy_cost


@season.derived(MONEY, label="packaging used up")
def money_packaging(cost_packaging: Expr) -> Expr:
    """Packaging of this season's packs: reckoned by its parts; what lies in the drawer was paid,
    too."""
    return cost_packaging


@season.derived(MONEY, label="overheads paid")
def money_overheads(overheads: Children) -> Expr:
    """Overheads in full, but those marked as not paid; by receipts."""
    return total(overheads.cost, overheads.money_leaves)


@season.derived(MONEY, label="stall")
def money_stall(stall_cost: Expr, stall_ahead: Expr) -> Expr:
    """The stall on the days that were held, or the fees of market days: reckoned; days to come are
    named beside it."""
    return stall_cost - stall_ahead


@season.derived(MONEY, label="fees of sales")
def money_fees(uses: Children, markets: Children) -> Expr:
    """Fees of sales, at their channels' share: reckoned."""
    return total(uses.fees, uses.sold) + total(markets.fees)


@season.derived(MONEY, label="tax passed on")
def money_tax(uses: Children, markets: Children) -> Expr:
    """The tax that is in the prices of sales, at their channels' share: reckoned."""
    return total(uses.tax_in_it, uses.sold) + total(markets.tax_in_it)


@season.derived(MONEY, label="driving")
def money_driving(travel_cost: Expr) -> Expr:
    """Driving for produce, at the rate, which holds the wear of the car: reckoned."""
    return travel_cost


@season.derived(MONEY, label="driving to markets")
def money_to_market(markets: Children) -> Expr:
    """Driving to the market days that were held, at the rate: reckoned."""
    return total(markets.travel_cost, markets.held)


@season.derived(MONEY, label="upkeep of dryers")
def money_upkeep(runs: Children) -> Expr:
    """Upkeep of all runs, each its share: reckoned; oil is paid when it is bought."""
    return total(runs.upkeep_cost)


@season.derived(MONEY, label="time of all runs")
def run_labor_all(runs: Children) -> Expr:
    """Time spent on all runs, at the rate."""
    return total(runs.labor_cost)


@season.derived(MONEY, label="time paid")
def money_labor(
    rates: SingleRow,
    labor_cost: Expr,
    run_labor_all: Expr,
    cost_pack_labor: Expr,
    mix_labor_cost: Expr,
    market_labor: Expr,
) -> Expr:
    """Time of lots, runs, mixes, packing and market days at the rate, where time is paid in money:
    reckoned."""
    making = labor_cost + run_labor_all + cost_pack_labor + mix_labor_cost
    return where(rates.labor_paid, making + market_labor, 0)


@season.derived(MONEY, label="money out")
def money_out(money_out_produce: Expr, money_out_machine: Expr, money_out_beside: Expr) -> Expr:
    """All that was paid, machines apart: the lines above."""
    return money_out_produce + money_out_machine + money_out_beside


@season.derived(MONEY, label="paid for produce and packs")
def money_out_produce(
    money_purchases: Expr, money_bought: Expr, money_driving: Expr, money_packaging: Expr
) -> Expr:
    """Paid for what is in the packs, and for the packs: purchases, driving, packaging."""
    return money_purchases + money_bought + money_driving + money_packaging


@season.derived(MONEY, label="paid to run the dryers")
def money_out_machine(money_energy: Expr, money_upkeep: Expr) -> Expr:
    """Paid to run the dryers: energy and upkeep."""
    return money_energy + money_upkeep


@season.derived(MONEY, label="paid beside")
def money_out_beside(
    sales_out: Expr,
    money_overheads: Expr,
    money_stall: Expr,
    money_to_market: Expr,
    money_labor: Expr,
) -> Expr:
    """Paid beside it: fees and tax of sales, overheads, the stall, driving to markets, time."""
    return sales_out + money_overheads + money_stall + money_to_market + money_labor


@season.derived(MONEY, label="fees and tax of sales")
def sales_out(money_fees: Expr, money_tax: Expr) -> Expr:
    """What of the prices of sales was paid on: fees and tax."""
    return money_fees + money_tax


@season.derived(MONEY, label="overheads, stall and time paid")
def paid_beside(
    money_overheads: Expr, stall_cost: Expr, market_driving: Expr, money_labor: Expr
) -> Expr:
    """Overheads, the stall on all its days, driving to markets and paid time: no product's running
    cost holds them."""
    return money_overheads + stall_cost + market_driving + money_labor


@season.derived(MONEY / DRIED, label="those by dried weight")
def paid_beside_by_weight(paid_beside: Expr, dried: Expr) -> Expr:
    """The same by dried weight."""
    return paid_beside / dried


@season.derived(MONEY, label="money left")
def money_left(money_in: Expr, money_out: Expr) -> Expr:
    """What came in less what was paid."""
    return money_in - money_out
