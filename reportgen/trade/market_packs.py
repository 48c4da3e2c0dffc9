"""What a market day took along: of each pack, what came back, was tasted and sold, and at what
price."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, join, known, same, total, where
from reportgen.algebra.tables import COUNT, DATE, FLAG, SHARE, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.channels import IN_A_PRICE
from reportgen.trade.tables import channels, market_packs, prices, products
from reportgen.units import DRIED, MONEY


@market_packs.derived(TEXT, label="pack at a market")
def key(market: Link, pack: Link) -> Expr:
    """Market day and pack."""
    return join(market, "/", pack)


@market_packs.link(channels)
def channel(market: Link) -> Expr:
    """The channel of the market day."""
    return market.channel


@market_packs.link(products)
def of_product(pack: Link) -> Expr:
    """The product in the pack."""
    return pack.product


@market_packs.derived(DATE)
def day(market: Link) -> Expr:
    """The market's day; where that is not known, before all."""
    return first_known(market.date, 0)


@market_packs.derived(COUNT, label="did not come back")
def gone(took: Expr, back: Expr) -> Expr:
    """How many did not come back: sold or opened to taste."""
    return took - back


@market_packs.derived(COUNT)
def sold(gone: Expr, samples: Expr) -> Expr:
    """How many were sold: what was taken there, less what came back and what was tasted."""
    return gone - samples


@market_packs.derived(DRIED)
def weight_sold(sold: Expr, pack: Link) -> Expr:
    """Weight that was sold."""
    return sold * pack.net


@market_packs.derived(FLAG, label="of what was dried")
def of_runs(pack: Link) -> Expr:
    """From packs of this season that are of no mix."""
    return pack.of_runs


@market_packs.derived(MONEY, label="price of one")
def price(price_written: Expr, asked_there: Expr) -> Expr:
    """Price of one: as written, else as asked that day."""
    return first_known(price_written, asked_there)


@market_packs.derived(MONEY, label="to be taken in")
def paid(sold: Expr, price: Expr) -> Expr:
    """What buyers paid for it at its price, tax included."""
    return where(sold == 0, 0, sold * price)


@market_packs.derived(MONEY, source=IN_A_PRICE, label="came in")
def revenue(paid: Expr, channel: Link) -> Expr:
    """What came in for it, net of tax."""
    return paid * channel.net_share


@market_packs.derived(MONEY)
def fees(paid: Expr, channel: Link) -> Expr:
    """What selling it cost, as a share of what was paid."""
    return paid * channel.fees_taken


@market_packs.derived(MONEY)
def got(revenue: Expr, fees: Expr) -> Expr:
    """What its sales brought in after tax and fees."""
    return revenue - fees


@market_packs.derived(MONEY, label="running cost")
def running_out(gone: Expr, pack: Link) -> Expr:
    """Running cost of all that did not come back."""
    return gone * pack.running_each


@market_packs.derived(MONEY, label="full cost")
def cost_out(gone: Expr, pack: Link) -> Expr:
    """Full cost of all that did not come back."""
    return gone * pack.full_each


@market_packs.derived(MONEY)
def left_over(got: Expr, sold: Expr, pack: Link) -> Expr:
    """What its sales left after tax, fees and running cost; what was tasted is the day's."""
    return got - sold * pack.running_each


@market_packs.derived(MONEY, label="left of it")
def profit(got: Expr, sold: Expr, pack: Link) -> Expr:
    """What is left of its sales after tax, fees and full cost; what was tasted is the day's."""
    return got - sold * pack.full_each


# What to take next time.


@prices.derived(COUNT, label="taken to markets")
def taken(market_packs: Children, priced_as: Expr) -> Expr:
    """How many were taken to markets, one that came back and was taken again each time."""
    return total(same(market_packs.priced_as, priced_as).took)


@prices.derived(COUNT, label="sold there")
def sold_there(market_packs: Children, priced_as: Expr) -> Expr:
    """How many of them were sold."""
    return total(same(market_packs.priced_as, priced_as).sold)


@prices.derived(SHARE, label="sold, of those taken")
def sold_of_taken(sold_there: Expr, taken: Expr) -> Expr:
    """How many were sold out of one that was taken: what to take next time."""
    return sold_there / taken


# What was on the shelf that morning.


@market_packs.derived(COUNT)
def used_before(uses: Children, pack: Link, day: Expr) -> Expr:
    """Containers that uses had taken before that day; a use without a day came before all."""
    return total(same(uses.pack, pack).date.before(day).containers)


@market_packs.derived(COUNT)
def sold_before(market_packs: Children, pack: Link, day: Expr) -> Expr:
    """Containers that had not come back from markets before that day."""
    return total(same(market_packs.pack, pack).day.before(day).gone)


@market_packs.derived(COUNT)
def opened_before(mix_parts: Children, pack: Link, day: Expr) -> Expr:
    """Containers that mixes had opened before that day; a mix without a day came before all."""
    return total(same(mix_parts.pack, pack).went_in.before(day).opened)


@market_packs.derived(COUNT)
def missing_before(counts: Children, pack: Link, day: Expr) -> Expr:
    """Containers that counts before that day had found missing."""
    return total(same(counts.pack, pack).date.before(day).missing)


@market_packs.derived(COUNT, label="on the shelf that morning")
def there(
    pack: Link,
    used_before: Expr,
    opened_before: Expr,
    sold_before: Expr,
    missing_before: Expr,
) -> Expr:
    """How many were on the shelf that morning."""
    return pack.filled - used_before - opened_before - sold_before - missing_before


@market_packs.check("error", "Correct took, or what was used and sold before that day.")
def took_above_shelf(took: Expr, there: Expr) -> Expr:
    """More were taken to a market than were on the shelf that morning."""
    return took > there


@market_packs.check("error", "Correct took, back and samples.")
def back_above_took(sold: Expr) -> Expr:
    """More came back or were opened to taste than were taken there."""
    return sold < 0


@market_packs.check("caution", "Write its price, or what was asked that day.")
def price_missing(sold: Expr, price: Expr) -> Expr:
    """Sold at a market, but without a price, and none was asked that day."""
    return (sold > 0) & ~known(price)


@market_packs.check("caution", "Correct the day of the market or of the pack.")
def taken_before_packed(pack: Link, market: Link) -> Expr:
    """Taken to a market before the day the pack was filled."""
    return market.date < pack.date
