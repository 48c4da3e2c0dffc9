"""The price list: each size in each channel, with the floor there and the price that is asked."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    find,
    first_known,
    join,
    place_of,
)
from reportgen.algebra.tables import COUNT, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.prices import floor_of, to_ask
from reportgen.trade.tables import channels, price_list, prices
from reportgen.units import DRIED, MONEY


@prices.derived(COUNT)
def row_place(prices: Children, key: Expr) -> Expr:
    """Where it stands among the prices."""
    return place_of(prices.key, key)


@price_list.link(prices)
def priced(prices: Children, place: Expr) -> Expr:
    """The price whose place it is."""
    return find(prices.row_place, place)


@price_list.derived(TEXT, label="price of a channel")
def key(channel: Link, place: Expr) -> Expr:
    """Channel and row of prices."""
    return join(channel, "/", place)


@price_list.derived(TEXT)
def size(priced: Link) -> Expr:
    """Product, container and net weight."""
    return join(priced)


@price_list.derived(MONEY, label="floor price there")
def floor(priced: Link, channel: Link) -> Expr:
    """The price at which a sale there brings in its full cost after tax and fees, and no more."""
    return floor_of(priced.full_each, channel.left_share)


@price_list.derived(MONEY, label="price to ask there")
def price_to_ask(priced: Link, channel: Link, pricing: SingleRow) -> Expr:
    """The price that leaves the margin after tax and fees there, rounded up to the step."""
    return to_ask(priced.full_each, channel.for_cost_left, pricing)


@price_list.derived(MONEY, label="we ask there")
def asked(priced: Link, channel: Link) -> Expr:
    """What we ask for one, less the channel's discount."""
    return priced.asked * (1 - channel.discount)


@price_list.derived(MONEY, label="price on the list")
def price(asked: Expr, price_to_ask: Expr) -> Expr:
    """What we ask there, else the price to ask: what stands on the list and the tickets."""
    return first_known(asked, price_to_ask)


@price_list.derived(MONEY / DRIED, source="unit price: price over net quantity", label="by weight")
def unit_price(price: Expr, priced: Link) -> Expr:
    """The price on the list by net weight."""
    return price / priced.net


@price_list.check("caution", "Ask at least the floor price there, or know why not.")
def below_floor(asked: Expr, floor: Expr) -> Expr:
    """What we ask there is below the floor: each sale is a loss."""
    return asked < floor


@channels.check(
    "caution", "Fill in spare rows of the price list with it and each size.", lacking=(price_list,)
)
def not_on_list(price_list: Children, prices: Children) -> Expr:
    """A channel whose prices are not on the price list, or not for each size."""
    return count(price_list) < count(prices)
