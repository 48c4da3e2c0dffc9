"""What a plan row buys in: the container named, else that of the last purchase, by its weight."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    find,
    first_known,
    join,
    known,
    plain,
    rank,
    round_up,
    same,
    size,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, DATE, FLAG, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.constants import CONTAINER_OFF
from reportgen.trade.tables import lots, nominal_weights, plan
from reportgen.units import FRESH


@lots.derived(DATE)
def bought_on(container: Expr, date: Expr) -> Expr:
    """Its day, where it was bought by the container; one without a day comes before all."""
    return where(container == "", unknown(), first_known(date, 0))


@lots.derived(COUNT)
def recent(bought_on: Expr, product: Link) -> Expr:
    """Its place among the lots of its product bought by the container, 1 for the latest."""
    return rank(bought_on, product, highest=True)


@lots.derived(TEXT)
def recent_of(product: Link, recent: Expr) -> Expr:
    """Product and place."""
    return join(product, "/", plain(recent))


@lots.derived(FLAG)
def container_weighed(container: Expr, weighed: Expr) -> Expr:
    """Bought by the container and weighed: it tells what one holds."""
    return (container != "") & known(weighed)


@lots.derived(COUNT)
def containers_weighed(weighed_count: Expr, count: Expr) -> Expr:
    """How many of its containers were weighed: all, where nothing else is said."""
    return first_known(weighed_count, count)


@plan.derived(TEXT)
def latest_of(product: Link) -> Expr:
    """Its product and the first place: the latest lot's."""
    return join(product, "/1")


@plan.link(lots)
def latest_lot(lots: Children, latest_of: Expr) -> Expr:
    """The latest lot of its product that was bought by the container."""
    return find(lots.recent_of, latest_of)


@plan.link(nominal_weights)
def by_recipe(nominal_weights: Children, product: Expr) -> Expr:
    """The first container of the product data."""
    return find(nominal_weights.product, product)


@plan.derived(TEXT, label="bought by the")
def buy_used(buy: Expr, latest_lot: Link, by_recipe: Link) -> Expr:
    """The container: the one named, else that of the latest lot, else the product data's first."""
    return first_known(buy, latest_lot.container, by_recipe.container)


@plan.derived(TEXT)
def buy_name(product: Link, buy_used: Expr) -> Expr:
    """Product and container, which name a weight."""
    return join(product, "/", buy_used)


@plan.link(nominal_weights)
def bought_in(buy_name: Expr) -> Expr:
    """The nominal weight of the container."""
    return buy_name


@plan.derived(FRESH, label="weight of those weighed")
def buy_weighed(lots: Children, buy_name: Expr) -> Expr:
    """What the containers of lots bought in it weighed."""
    alike = same(lots.bought_in, buy_name)
    return total(alike.weighed, alike.container_weighed)


@plan.derived(COUNT, label="how many were weighed")
def buy_weighed_count(lots: Children, buy_name: Expr) -> Expr:
    """How many containers of lots bought in it were weighed."""
    alike = same(lots.bought_in, buy_name)
    return total(alike.containers_weighed, alike.container_weighed)


@plan.derived(FRESH, label="one holds, as weighed")
def container_measured(buy_weighed: Expr, buy_weighed_count: Expr) -> Expr:
    """What one held over the lots bought in it that were weighed."""
    return buy_weighed / buy_weighed_count


@plan.derived(FRESH, label="one holds")
def container_weight(buy: Expr, bought_in: Link, container_measured: Expr) -> Expr:
    """What one holds: nominal where the row names it, else as weighed, else nominal."""
    measured = first_known(container_measured, bought_in.weight)
    return where(buy == "", measured, bought_in.weight)


@plan.derived(COUNT, label="containers to buy")
def buy_count(buy_weight: Expr, container_weight: Expr) -> Expr:
    """As many as hold the weight to buy, rounded up."""
    return round_up(buy_weight / container_weight, 1)


@plan.check("caution", "Leave out buy to plan by what lots weighed, or correct the product data.")
def container_off(container_weight: Expr, container_measured: Expr) -> Expr:
    """Planned by a container's nominal weight, and lots bought in it weighed otherwise."""
    return size(container_weight / container_measured - 1) > CONTAINER_OFF
