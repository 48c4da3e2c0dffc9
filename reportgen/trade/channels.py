"""Channels: what of a price is left where a pack is sold, after tax and fees.

Tax is in the price as paid and is passed on; fees are a share of the price as paid, tax included.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, known, no, total, unknown, where
from reportgen.algebra.tables import FLAG, SHARE
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.tables import channels, season, uses
from reportgen.units import MONEY

IN_A_PRICE = "tax that is in a price: the price without it is the price ÷ (1 + tax)"


@channels.derived(SHARE, label="fees taken")
def fees_taken(fees: Expr, of_stall: Expr, pricing: SingleRow) -> Expr:
    """Share of the price as paid that selling costs; of the stall those of the pricing if left out,
    else none."""
    return first_known(fees, where(of_stall, pricing.fees, 0))


@channels.derived(SHARE, source=IN_A_PRICE, label="price without tax")
def net_share(tax: Expr) -> Expr:
    """Share of the price as paid that is not tax."""
    return 1 / (1 + tax)


@channels.derived(SHARE, label="left of a price")
def left_share(net_share: Expr, fees_taken: Expr) -> Expr:
    """Share of the price as paid that is left after tax and fees."""
    return net_share - fees_taken


@channels.derived(SHARE, label="for the full cost, of a price there")
def for_cost(net_share: Expr, fees_taken: Expr, pricing: SingleRow) -> Expr:
    """Share of the price as paid there that may go to the full cost, after tax, fees and margin."""
    return (1 - pricing.margin) * net_share - fees_taken


@channels.derived(SHARE, label="the same, where there is any")
def for_cost_left(for_cost: Expr) -> Expr:
    """The same; unknown where nothing may."""
    return where(for_cost > 0, for_cost, unknown())


@season.derived(SHARE, label="price without tax, at the stall")
def stall_net(channels: Children) -> Expr:
    """Share of the price as paid at the stall that is not tax."""
    return total(channels.net_share, channels.of_stall)


@season.derived(SHARE, label="fees taken, at the stall")
def stall_fees(channels: Children) -> Expr:
    """Share of the price as paid at the stall that selling costs."""
    return total(channels.fees_taken, channels.of_stall)


@season.derived(SHARE, label="left of a price, at the stall")
def stall_left(channels: Children) -> Expr:
    """Share of the price as paid at the stall that is left after tax and fees."""
    return total(channels.left_share, channels.of_stall)


@season.derived(SHARE, label="for the full cost, of a price at the stall")
def stall_for_cost(channels: Children) -> Expr:
    """Share of the price as paid at the stall that may go to the full cost, after tax, fees and
    margin."""
    return total(channels.for_cost, channels.of_stall)


@uses.derived(FLAG)
def sold(channel: Link) -> Expr:
    """Sold, through a channel."""
    return ~(channel == "")


@uses.derived(FLAG)
def of_stall(sold: Expr, channel: Link) -> Expr:
    """Sold at the stall."""
    return where(sold, channel.of_stall, no())


@uses.derived(MONEY, label="paid for packs")
def paid_for_packs(total: Expr, count: Expr, price_each: Expr) -> Expr:
    """What was paid for packs, tax included: all of it as written, else their number at the price
    of each."""
    return first_known(total, count * price_each)


@uses.derived(MONEY)
def paid(of_bulk: Expr, paid_for_packs: Expr) -> Expr:
    """What was paid for it, tax included; nothing for bulk."""
    return where(of_bulk, 0, paid_for_packs)


@uses.derived(MONEY, source=IN_A_PRICE, label="came in")
def revenue(sold: Expr, paid: Expr, channel: Link) -> Expr:
    """What came in for it, net of tax."""
    return where(sold, paid * channel.net_share, paid)


@uses.derived(MONEY, label="tax in it")
def tax_in_it(paid: Expr, revenue: Expr) -> Expr:
    """The tax that is in what was paid; it is passed on."""
    return paid - revenue


@uses.derived(MONEY)
def fees(sold: Expr, paid: Expr, channel: Link) -> Expr:
    """What selling it cost, as a share of what was paid."""
    return where(sold, paid * channel.fees_taken, 0)


@uses.derived(MONEY)
def got(sold: Expr, revenue: Expr, fees: Expr) -> Expr:
    """What a sale brought in after tax and fees."""
    return where(sold, revenue - fees, unknown())


@uses.check("error", "Empty one of the two.")
def two_purposes(purpose: Expr, sold: Expr) -> Expr:
    """Both sold and used for something else."""
    return sold & ~(purpose == "")


@uses.check("error", "Name a channel of the sheet Channels, or add it there.")
def no_channel(sold: Expr, channel: Link) -> Expr:
    """Sold through a channel that is not there."""
    return sold & ~known(channel.net_share)
