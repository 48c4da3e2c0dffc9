"""What became of each weight: sold, kept, and what was kept on shop prices.

What was sold is in revenue and profit; what household and gifts took, or is still on the shelf, was
kept and saved a purchase. Nothing is in both. Samples, what spoiled and crumbs are in neither.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import known, no, total, unknown, where
from reportgen.algebra.tables import FLAG, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.tables import packs, products, uses
from reportgen.units import DRIED, MONEY

BY_DRIED = MONEY / DRIED


@uses.derived(FLAG, label="sold, of this season")
def sold_of_season(sold: Expr, of_bulk: Expr, pack: Link) -> Expr:
    """Sold from packs of this season."""
    return where(of_bulk, no(), sold & pack.of_season)


@uses.derived(FLAG, label="went to others")
def went_out(sold: Expr, purpose: Expr) -> Expr:
    """Sold or given away: others have it, who must hear of it if a lot comes back."""
    return sold | (purpose == "gift")


@uses.derived(FLAG)
def eaten_or_given(purpose: Expr) -> Expr:
    """Eaten at home or given away."""
    return (purpose == "household") | (purpose == "gift")


@uses.derived(FLAG, label="kept")
def kept(eaten_or_given: Expr, of_bulk: Expr, pack: Link) -> Expr:
    """Eaten at home or given away, of this season's packs or from bulk."""
    return where(of_bulk, eaten_or_given, eaten_or_given & pack.of_season)


@packs.derived(DRIED, label="weight on the shelf")
def weight_on_hand(on_hand: Expr, net: Expr) -> Expr:
    """What those on the shelf hold."""
    return on_hand * net


@products.derived(DRIED, label="sold at markets")
def sold_at_markets(market_packs: Children) -> Expr:
    """Weight of this season's packs that was sold on market days."""
    return total(market_packs.weight_sold, market_packs.of_season)


@products.derived(MONEY, label="got for it at markets, after tax and fees")
def got_at_markets(market_packs: Children) -> Expr:
    """What market days got for this season's packs at their prices, after tax and fees."""
    return total(market_packs.got, market_packs.of_season)


@products.derived(DRIED, label="sold")
def sold_weight(uses: Children, sold_at_markets: Expr) -> Expr:
    """Weight of this season's packs that went out for money."""
    return total(uses.content, uses.sold_of_season) + sold_at_markets


@products.derived(MONEY, label="got for it after tax and fees")
def sales_got(uses: Children, got_at_markets: Expr) -> Expr:
    """What sales of this season's packs brought in after tax and fees."""
    return total(uses.got, uses.sold_of_season) + got_at_markets


@products.derived(DRIED, label="eaten or given")
def kept_taken(uses: Children) -> Expr:
    """Weight that household and gifts took, of this season's packs or from bulk."""
    return total(uses.content, uses.kept)


@products.derived(DRIED, label="on the shelf")
def kept_on_hand(packs: Children) -> Expr:
    """Weight of this season's packs on the shelf; bulk stays out."""
    return total(packs.weight_on_hand, packs.of_season)


@products.derived(DRIED, label="kept")
def kept_weight(kept_taken: Expr, kept_on_hand: Expr) -> Expr:
    """What household and gifts took, and what is on the shelf."""
    return kept_taken + kept_on_hand


@products.derived(BY_DRIED, label="shop price that would have been paid")
def shop_worth(retail_median: Expr, pricing: SingleRow) -> Expr:
    """The shops' median, of the share that would have been bought."""
    return retail_median * pricing.would_buy


def _of(weight: Expr, price: Expr) -> Expr:
    """A weight at a price; a weight of 0 is worth 0 whatever its price."""
    return where(weight == 0, 0, weight * price)


@products.derived(MONEY, label="a shop would have got, eaten or given")
def instead_taken(kept_taken: Expr, shop_worth: Expr) -> Expr:
    """What a shop would have got for what was eaten or given away."""
    return _of(kept_taken, shop_worth)


@products.derived(MONEY, label="a shop would have got, on the shelf")
def instead_on_hand(kept_on_hand: Expr, shop_worth: Expr) -> Expr:
    """What a shop would get for what is on the shelf."""
    return _of(kept_on_hand, shop_worth)


@products.derived(MONEY, label="a shop would have got")
def instead(instead_taken: Expr, instead_on_hand: Expr) -> Expr:
    """What a shop would have got for all that was kept."""
    return instead_taken + instead_on_hand


@products.derived(MONEY, label="it cost us, eaten or given")
def kept_cost_taken(kept_taken: Expr, running_per_packed: Expr) -> Expr:
    """Running cost of what was eaten or given away."""
    return _of(kept_taken, running_per_packed)


@products.derived(MONEY, label="it cost us, on the shelf")
def kept_cost_on_hand(kept_on_hand: Expr, running_per_packed: Expr) -> Expr:
    """Running cost of what is on the shelf."""
    return _of(kept_on_hand, running_per_packed)


@products.derived(MONEY, label="it cost us")
def kept_cost(kept_cost_taken: Expr, kept_cost_on_hand: Expr) -> Expr:
    """Running cost of all that was kept."""
    return kept_cost_taken + kept_cost_on_hand


@products.derived(MONEY, label="saved so far")
def saving_taken(instead_taken: Expr, kept_cost_taken: Expr) -> Expr:
    """Saved by what was eaten or given away: what a shop would have got, less what it cost us."""
    return instead_taken - kept_cost_taken


@products.derived(MONEY, label="saved once eaten")
def saving_on_hand(instead_on_hand: Expr, kept_cost_on_hand: Expr) -> Expr:
    """Saved when what is on the shelf is eaten: what a shop would get, less what it cost us."""
    return instead_on_hand - kept_cost_on_hand


@products.derived(MONEY, label="saved so far and once eaten")
def saving(saving_taken: Expr, saving_on_hand: Expr) -> Expr:
    """What a shop would have got for all that was kept, less what it cost us. What was sold is in
    the sales, not here."""
    return saving_taken + saving_on_hand


@products.derived(MONEY, label="a shop would have got, where the saving is known")
def instead_compared(saving: Expr, instead: Expr) -> Expr:
    """What a shop would have got, of a product whose saving is known."""
    return where(known(saving), instead, unknown())


@products.derived(DRIED, label="sold or kept")
def valued_weight(sold_weight: Expr, kept_weight: Expr) -> Expr:
    """What was sold or kept: what its worth is reckoned on."""
    return sold_weight + kept_weight


@products.derived(BY_DRIED, label="worth by weight")
def worth(sales_got: Expr, instead: Expr, valued_weight: Expr) -> Expr:
    """What sales brought after tax and fees and what a shop would have got, over what was sold or
    kept."""
    return (sales_got + instead) / valued_weight


@products.derived(BY_DRIED, label="worth above running cost, where packed")
def gain_packed(worth: Expr, running_per_packed: Expr) -> Expr:
    """What each weight of it is worth above its running cost."""
    return worth - running_per_packed


@products.derived(FLAG, label="nothing packed yet")
def none_packed(packed: Expr) -> Expr:
    """Nothing of it is packed yet."""
    return packed == 0


@products.derived(BY_DRIED, label="worth above running cost")
def gain(none_packed: Expr, gain_packed: Expr) -> Expr:
    """The same; nothing while none of it is packed."""
    return where(none_packed, 0, gain_packed)


@products.derived(TEXT, label="what a shop price waits for")
def price_lacks(retail_median: Expr) -> Expr:
    """What is missing to say what a shop would have got."""
    return where(known(retail_median), "the share you would have bought", "a shop price")


@products.derived(TEXT, label="what its worth waits for")
def worth_lacks(
    running_per_packed: Expr, instead: Expr, sales_got: Expr, price_lacks: Expr
) -> Expr:
    """What is missing to say what it is worth above its running cost."""
    of_sales = where(known(sales_got), "a weight sold or kept", "the price of what was sold")
    of_price = where(known(instead), of_sales, price_lacks)
    return where(known(running_per_packed), of_price, "a running cost by weight")
