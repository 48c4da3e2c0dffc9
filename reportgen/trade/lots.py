"""Lots: what was bought or picked, what it weighed, what it cost, what is still waiting."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    estimate,
    first_known,
    greatest,
    join,
    known,
    on_estimates,
    total,
    unknown,
    where,
)
from reportgen.algebra.tables import FLAG, SHARE, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import BALANCE
from reportgen.trade.tables import lots, nominal_weights
from reportgen.units import FRESH, MONEY


@nominal_weights.derived(TEXT)
def key(product: Link, container: Expr) -> Expr:
    """Product and container, which name the nominal weight."""
    return join(product, "/", container)


@lots.link(nominal_weights)
def bought_in(product: Link, container: Expr) -> Expr:
    """Product and container, which name the nominal weight."""
    return join(product, "/", container)


def _basis(weight: Expr) -> Expr:
    """Weighed or estimated, in a word."""
    return where(on_estimates(weight), "estimated", "weighed")


@lots.derived(FRESH)
def weighed_all(weighed: Expr, count: Expr, weighed_count: Expr) -> Expr:
    """Weight by the scale, taken from the containers weighed to all of them."""
    return where(known(weighed_count), weighed * count / weighed_count, weighed)


@lots.derived(FRESH)
def nominal_all(count: Expr, bought_in: Link) -> Expr:
    """Weight by the containers' nominal weight."""
    return estimate(count * bought_in.weight)


@lots.derived(FRESH)
def as_purchased(weighed_all: Expr, nominal_all: Expr) -> Expr:
    """Weight as purchased: weighed, else by the containers' nominal weight."""
    return first_known(weighed_all, nominal_all)


@lots.derived(TEXT, label="weighed or estimated")
def as_purchased_basis(as_purchased: Expr) -> Expr:
    """Whether the weight as purchased rests on an estimate, as a container's nominal weight is."""
    return where(known(as_purchased), _basis(as_purchased), unknown())


@lots.derived(FRESH)
def loaded(loads: Children) -> Expr:
    """Weight that went into dryers; what went back in is not counted again."""
    return total(loads.weight_in, loads.first_pass)


@lots.derived(FRESH)
def used_up(loaded: Expr, set_aside: Expr, lost: Expr) -> Expr:
    """What of the prepped weight is accounted for: loaded, set aside or lost."""
    return loaded + set_aside + lost


@lots.derived(FRESH)
def prepped_by_recipe(as_purchased: Expr, product: Link, used_up: Expr) -> Expr:
    """Prepped weight by the recipe's yield, and not less than what is accounted for."""
    return estimate(greatest(as_purchased * product.prep_yield, used_up))


@lots.derived(FRESH)
def prepped(prepped_weighed: Expr, finished: Expr, used_up: Expr, prepped_by_recipe: Expr) -> Expr:
    """Prepped weight: weighed; else, of a finished lot, what is accounted for; else estimated."""
    return first_known(prepped_weighed, where(finished, used_up, prepped_by_recipe))


@lots.derived(TEXT, label="weighed or estimated")
def prepped_basis(prepped: Expr) -> Expr:
    """Whether the prepped weight rests on an estimate: the prep yield, or a weight as about."""
    return where(known(prepped), _basis(prepped), unknown())


@lots.derived(FRESH)
def usable(prepped: Expr, lost: Expr) -> Expr:
    """Prepped weight less what was lost: it bears the lot's cost, where there is any."""
    return where(prepped > lost, prepped - lost, unknown())


@lots.derived(FRESH, label="waiting to be dried")
def waiting(prepped: Expr, used_up: Expr) -> Expr:
    """Still to be dried."""
    return prepped - used_up


@lots.derived(FLAG)
def some_waiting(waiting: Expr, prepped: Expr) -> Expr:
    """Something of it is still to be dried, beyond what scales tell apart."""
    return waiting > prepped * BALANCE


@lots.derived(SHARE)
def prep_yield(prepped: Expr, as_purchased: Expr) -> Expr:
    """Prepped weight out of one of purchased."""
    return prepped / as_purchased


@lots.derived(MONEY)
def price_asked(price_each: Expr, count: Expr, price_by_weight: Expr, as_purchased: Expr) -> Expr:
    """The price by the container or by weight, for all of it."""
    return first_known(price_each * count, price_by_weight * as_purchased)


@lots.derived(MONEY)
def purchase_cost(price_total: Expr, price_asked: Expr, grown: Expr) -> Expr:
    """What it cost to buy; 0 for what was grown and has no price."""
    return first_known(price_total, price_asked, where(grown, 0, unknown()))


@lots.derived(SHARE)
def trip_share(trip: Link, purchase_cost: Expr) -> Expr:
    """Share of its trip, by purchase cost; in equal parts where nothing is known to be paid."""
    return first_known(purchase_cost / trip.purchases, 1 / trip.lots_fetched)


@lots.derived(MONEY)
def travel_alone(travel: Expr, rates: SingleRow) -> Expr:
    """Driving for this lot alone."""
    return where(travel > 0, travel * rates.travel, 0)


@lots.derived(MONEY)
def travel_shared(trip: Link, trip_share: Expr, rates: SingleRow) -> Expr:
    """Its share of a trip that fetched several lots."""
    return trip.distance * rates.travel * trip_share


@lots.derived(MONEY)
def travel_cost(trip: Link, travel_alone: Expr, travel_shared: Expr) -> Expr:
    """Driving: its own, and its share of a trip."""
    return where(trip == "", travel_alone, travel_alone + travel_shared)


@lots.derived(MONEY)
def labor_alone(labor: Expr, rates: SingleRow) -> Expr:
    """Buying and preparing, at the rate."""
    return where(labor > 0, labor * rates.labor, 0)


@lots.derived(MONEY)
def labor_shared(trip: Link, trip_share: Expr, rates: SingleRow) -> Expr:
    """Its share of the time a trip took."""
    return trip.labor * rates.labor * trip_share


@lots.derived(MONEY)
def labor_cost(trip: Link, labor_alone: Expr, labor_shared: Expr) -> Expr:
    """Time spent buying and preparing, at the rate."""
    return where(trip == "", labor_alone, labor_alone + labor_shared)


@lots.derived(MONEY)
def produce_cost(
    of_season: Expr, purchase_cost: Expr, travel_cost: Expr, carried_running: Expr
) -> Expr:
    """Produce and travel; of what is left from last season, its running cost then."""
    return where(of_season, purchase_cost + travel_cost, carried_running)


@lots.derived(MONEY / FRESH, label="cost by prepped weight")
def cost_per_prepped(produce_cost: Expr, usable: Expr) -> Expr:
    """Produce and travel by usable weight: what is set aside or waiting carries its own cost, a
    loss is borne by the rest."""
    return produce_cost / usable


@lots.derived(MONEY)
def time_cost(of_season: Expr, labor_cost: Expr, labor_carried: Expr) -> Expr:
    """Its time; of what is left from last season, what its time cost then."""
    return where(of_season, labor_cost, labor_carried)


@lots.derived(MONEY / FRESH)
def labor_per_prepped(time_cost: Expr, usable: Expr) -> Expr:
    """Time by usable weight."""
    return time_cost / usable


@lots.derived(MONEY)
def labor_carried(of_season: Expr, carried_full: Expr, carried_running: Expr) -> Expr:
    """What its time cost last season, where it is left from it."""
    return where(of_season, 0, carried_full - carried_running)


@lots.derived(MONEY)
def waiting_cost(waiting: Expr, cost_per_prepped: Expr) -> Expr:
    """What the produce still waiting cost."""
    return waiting * cost_per_prepped


@lots.derived(MONEY)
def waiting_full(waiting: Expr, waiting_cost: Expr, labor_per_prepped: Expr) -> Expr:
    """What the produce still waiting cost, its time included."""
    return waiting_cost + waiting * labor_per_prepped


@lots.derived(MONEY, label="cost left from last season")
def carried_cost(of_season: Expr, carried_running: Expr) -> Expr:
    """What it brings from last season: in no money of this one."""
    return where(of_season, 0, carried_running)


@lots.derived(MONEY)
def set_aside_cost(set_aside: Expr, cost_per_prepped: Expr) -> Expr:
    """What the produce set aside cost."""
    return set_aside * cost_per_prepped


@lots.check(
    "caution", "Weigh again, or correct the weight of the loads, what was set aside or lost."
)
def used_above_prepped(waiting: Expr, prepped: Expr) -> Expr:
    """More was loaded, set aside and lost than was prepped."""
    return waiting < 0 - prepped * BALANCE


@lots.check(
    "caution",
    "Write finished: false where some is still to be dried, or what was set aside or lost of it.",
)
def finished_with_rest(finished: Expr, some_waiting: Expr) -> Expr:
    """Finished, but less was loaded, set aside and lost than was prepped."""
    return finished & some_waiting


@lots.check("caution", "Check both weights: trimming takes weight away.")
def prepped_above_purchased(prepped: Expr, as_purchased: Expr) -> Expr:
    """Prepped weight above the weight as purchased."""
    return prepped > as_purchased


@lots.check("caution", "Write its price, or grown: true; until then its products have no cost.")
def price_missing(of_season: Expr, purchase_cost: Expr) -> Expr:
    """A lot without a price."""
    return of_season & ~known(purchase_cost)


@lots.check("caution", "Weigh it, or name the container it was bought in.")
def weight_missing(as_purchased: Expr, prepped: Expr) -> Expr:
    """A lot without a weight."""
    return ~known(as_purchased) & ~known(prepped)


@lots.check(
    "caution", "Keep one of them; the total price counts first, then the price by container."
)
def priced_twice(price_total: Expr, price_each: Expr, price_by_weight: Expr) -> Expr:
    """A lot with more than one price."""
    return (
        (known(price_total) & known(price_each))
        | (known(price_total) & known(price_by_weight))
        | (known(price_each) & known(price_by_weight))
    )


@lots.check("caution", "Correct the date, or wait until it has come.")
def date_to_come(date: Expr, season: SingleRow) -> Expr:
    """Dated after the day this was judged on."""
    return date > season.as_of
