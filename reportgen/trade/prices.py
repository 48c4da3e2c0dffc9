"""What to ask for a pack, and what it stands against."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    join,
    known,
    median,
    plain,
    round_up,
    same,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, SHARE, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.tables import offers, packs, prices, products, season, uses
from reportgen.units import FRESH, MONEY


@prices.derived(TEXT, label="price row")
def key(product: Link, container: Link, net: Expr) -> Expr:
    """Product, container and net weight."""
    return join(product, "/", container, "/", plain(net))


@packs.derived(MONEY, label="running cost of all")
def running_all(running_each: Expr, count: Expr) -> Expr:
    """Running cost of all of them."""
    return running_each * count


@packs.derived(MONEY, label="full cost of all")
def full_all(full_each: Expr, count: Expr) -> Expr:
    """Full cost of all of them."""
    return full_each * count


@packs.derived(COUNT)
def filled(count: Expr) -> Expr:
    """How many containers were filled: one, where no count is given."""
    return count


@prices.derived(COUNT)
def packed(packs: Children, key: Expr) -> Expr:
    """How many were filled."""
    return total(same(packs.priced_as, key).filled)


@prices.derived(COUNT)
def on_hand(packs: Children, key: Expr) -> Expr:
    """How many are on the shelf."""
    return total(same(packs.priced_as, key).on_hand)


@prices.derived(MONEY, label="running cost of one, over its packs")
def running_packed(packs: Children, key: Expr, packed: Expr) -> Expr:
    """Running cost of one: the mean over its packs."""
    return total(same(packs.priced_as, key).running_all) / packed


@prices.derived(MONEY, label="full cost of one, over its packs")
def full_packed(packs: Children, key: Expr, packed: Expr) -> Expr:
    """Full cost of one: the mean over its packs."""
    return total(same(packs.priced_as, key).full_all) / packed


@prices.derived(MONEY, label="running cost of one")
def running_each(
    packed: Expr, running_packed: Expr, net: Expr, product: Link, container: Link
) -> Expr:
    """Running cost of one: the mean over its packs; of a size not packed yet, what is in it costs
    in bulk, or mixed, and its packaging."""
    before_packing = net * product.running_loose + container.packaging_each
    return where(packed > 0, running_packed, before_packing)


@prices.derived(MONEY, label="full cost of one")
def full_each(packed: Expr, full_packed: Expr, net: Expr, product: Link, container: Link) -> Expr:
    """Full cost of one: the mean over its packs; of a size not packed yet, what is in it costs in
    bulk, or mixed, and its packaging, without the time of packing."""
    before_packing = net * product.full_loose + container.packaging_each
    return where(packed > 0, full_packed, before_packing)


def floor_of(full_each: Expr, left_share: Expr) -> Expr:
    """The price that brings in the full cost and no more, where so much of it is left."""
    return full_each / left_share


def to_ask(full_each: Expr, for_cost: Expr, pricing: SingleRow) -> Expr:
    """The price of which so much may go to the full cost, rounded up to the step."""
    return round_up(full_each / for_cost, pricing.price_step)


@prices.derived(MONEY, label="floor price")
def price_floor(full_each: Expr, season: SingleRow) -> Expr:
    """The price at which a sale at the stall brings in its full cost after tax and fees, and no
    more."""
    return floor_of(full_each, season.stall_left)


@prices.derived(
    MONEY,
    source="price from margin on the price, a method of cost accounting",
    label="price to ask",
)
def price_asked(full_each: Expr, season: SingleRow, pricing: SingleRow) -> Expr:
    """The price that leaves the margin after tax and fees at the stall, rounded up to the step."""
    return to_ask(full_each, season.stall_for_cost, pricing)


@prices.derived(MONEY, label="price to ask without tax")
def net_asked(price_asked: Expr, season: SingleRow) -> Expr:
    """The price to ask, without the tax that is in it."""
    return price_asked * season.stall_net


@prices.derived(MONEY, label="shops ask for as much")
def retail_equivalent(net: Expr, product: Link) -> Expr:
    """What the shops' median asks for as much."""
    return net * product.retail_median


@prices.derived(SHARE, label="price to ask, of shops'")
def price_to_retail(price_asked: Expr, retail_equivalent: Expr) -> Expr:
    """The price asked over what shops ask."""
    return price_asked / retail_equivalent


@prices.derived(
    SHARE, source="margin is the share of the price, markup that of the cost", label="margin"
)
def margin_kept(price_asked: Expr, season: SingleRow, full_each: Expr, net_asked: Expr) -> Expr:
    """Margin: what is left of the price after tax, fees and full cost, as a share of the price
    without tax."""
    return (price_asked * season.stall_left - full_each) / net_asked


@prices.derived(
    SHARE, source="margin is the share of the price, markup that of the cost", label="markup"
)
def markup(net_asked: Expr, full_each: Expr) -> Expr:
    """Markup: what the price without tax adds to the full cost, as a share of the cost."""
    return (net_asked - full_each) / full_each


@prices.derived(MONEY, label="earned on one")
def earned_each(price_asked: Expr, season: SingleRow, running_each: Expr) -> Expr:
    """What a sale leaves after tax, fees and running cost."""
    return price_asked * season.stall_left - running_each


@prices.derived(MONEY)
def contribution(earned_each: Expr) -> Expr:
    """What a sale leaves towards the stall; unknown where it leaves nothing."""
    return where(earned_each > 0, earned_each, unknown())


@season.derived(MONEY, label="stall, all days")
def stall_cost(market_days: Expr, market_fees: Expr, pricing: SingleRow) -> Expr:
    """What the stall costs on all its days; where market days are written, their fees."""
    return where(market_days > 0, market_fees, pricing.stall * pricing.days)


@prices.derived(
    COUNT,
    source="break-even: fixed cost over contribution, rounded up",
    label="to sell to break even",
)
def break_even_count(season: SingleRow, contribution: Expr) -> Expr:
    """How many must be sold to pay for the stall, if it stood alone."""
    return round_up(season.stall_cost / contribution, 1)


@prices.check("caution", "Raise the margin, or sell it elsewhere.")
def earns_nothing(earned_each: Expr) -> Expr:
    """At the price asked a sale leaves nothing: no count of sales pays for the stall."""
    return earned_each <= 0


@packs.check(
    "caution",
    "Fill in a spare row of the prices with its product, container and net.",
    lacking=(prices,),
)
def not_priced(prices: Children, priced_as: Expr) -> Expr:
    """A pack that no row of the prices stands for."""
    return known(priced_as) & (total(same(prices.key, priced_as).exists) <= 0)


@prices.derived(COUNT)
def exists(key: Expr) -> Expr:
    """One, for each row in use."""
    return where(key == "", unknown(), 1)


@uses.derived(MONEY, label="running cost")
def running_out(count: Expr, pack: Link) -> Expr:
    """Running cost of what was used."""
    return count * pack.running_each


@uses.derived(MONEY)
def left_over(got: Expr, running_out: Expr) -> Expr:
    """What a sale left after tax, fees and running cost."""
    return got - running_out


@season.derived(MONEY, label="sales so far")
def sales(uses: Children, market_packs: Children) -> Expr:
    """What sales brought in, net of tax."""
    return total(uses.revenue, uses.sold) + total(market_packs.revenue)


@season.derived(MONEY, label="left of sales after running cost")
def sales_left(uses: Children, market_packs: Children) -> Expr:
    """What they left after tax, fees and running cost."""
    return total(uses.left_over, uses.sold) + total(market_packs.left_over)


@season.derived(MONEY, label="left after the stall")
def left_after_stall(sales_left: Expr, stall_cost: Expr) -> Expr:
    """What is left when the stall is paid for all its days as well."""
    return sales_left - stall_cost


@season.derived(SHARE, label="that, as a share of sales")
def sales_left_share(sales_left: Expr, sales: Expr) -> Expr:
    """What sales leave out of one of revenue; unknown where they leave nothing."""
    return where(sales_left > 0, sales_left / sales, unknown())


@season.derived(
    MONEY, source="break-even: fixed cost over contribution share", label="sales to break even"
)
def break_even_sales(stall_cost: Expr, sales_left_share: Expr) -> Expr:
    """Sales, net of tax and before fees, that pay for the whole stall, at what sales have left so
    far."""
    return stall_cost / sales_left_share


@offers.derived(FRESH)
def fresh_equivalent(alike: Expr, net: Expr, product: Link) -> Expr:
    """Fresh food it stands for: as it weighs, or, freeze-dried, by our drying ratio."""
    return where(alike, net * product.drying_ratio, net)


@offers.derived(MONEY / FRESH, label="price by fresh weight")
def price_fresh(price: Expr, shipping: Expr, fresh_equivalent: Expr) -> Expr:
    """Price by fresh equivalent."""
    return (price + shipping) / fresh_equivalent


@offers.derived(FLAG)
def another_form(alike: Expr) -> Expr:
    """It is the same food frozen, canned or fresh."""
    return ~alike


@offers.derived(MONEY / FRESH)
def price_other(another_form: Expr, price_fresh: Expr) -> Expr:
    """Price by fresh equivalent of the food in another form."""
    return where(another_form, price_fresh, unknown())


@products.derived(MONEY / FRESH, label="their median price")
def alternatives_median(offers: Children) -> Expr:
    """The middle price by fresh equivalent of the same food frozen, canned or fresh."""
    return median(offers.price_other)


@products.derived(MONEY / FRESH, label="our running cost")
def running_per_fresh(running_per_packed: Expr, drying_ratio: Expr) -> Expr:
    """Our running cost by fresh equivalent."""
    return running_per_packed / drying_ratio


@products.derived(SHARE, label="ours, of their median")
def running_to_alternatives(running_per_fresh: Expr, alternatives_median: Expr) -> Expr:
    """Our running cost by fresh equivalent over the alternatives' median."""
    return running_per_fresh / alternatives_median
