"""Packs, what they hold and cost, what they were drawn from, and where they went."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, first_known, known, total, where
from reportgen.algebra.tables import COUNT, FLAG
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import BALANCE
from reportgen.trade.tables import draws, lots, packs, products, uses
from reportgen.units import DRIED, FRESH, MONEY


@packs.derived(FLAG)
@lots.derived(FLAG)
def of_season(carried_running: Expr, carried_full: Expr, carried_from: Expr) -> Expr:
    """Of this season, not left from the last."""
    return ~known(carried_running) & ~known(carried_full) & (carried_from == "")


@packs.derived(DRIED, label="dried content")
def dried_content(count: Expr, net: Expr) -> Expr:
    """What all of them hold."""
    return count * net


@packs.derived(MONEY)
def packaging_cost(count: Expr, container: Link) -> Expr:
    """Packaging of all of them."""
    return count * container.packaging_each


@packs.derived(MONEY)
def labor_cost(labor: Expr, rates: SingleRow) -> Expr:
    """Packing, at the rate."""
    return where(labor > 0, labor * rates.labor, 0)


@packs.derived(MONEY, label="running cost of one, this season")
def running_of_season(net: Expr, product: Link, container: Link) -> Expr:
    """Running cost of one: the bulk in it, and its packaging."""
    return net * product.running_bulk + container.packaging_each


@packs.derived(MONEY, label="full cost of one, this season")
def full_of_season(net: Expr, product: Link, container: Link, labor_each: Expr) -> Expr:
    """Full cost of one: the bulk in it, its packaging, and its share of the packing time."""
    return net * product.full_bulk + container.packaging_each + labor_each


@packs.derived(MONEY, label="packing time of one")
def labor_each(labor_cost: Expr, count: Expr) -> Expr:
    """Packing time of one, at the rate."""
    return labor_cost / count


@packs.derived(MONEY, label="running cost of one, of no mix")
def running_unmixed(of_season: Expr, running_of_season: Expr, carried_running: Expr) -> Expr:
    """Running cost of one that is of no mix; what was carried over keeps its own."""
    return where(of_season, running_of_season, carried_running)


@packs.derived(MONEY, label="full cost of one, of no mix")
def full_unmixed(of_season: Expr, full_of_season: Expr, carried_full: Expr) -> Expr:
    """Full cost of one that is of no mix; what was carried over keeps its own."""
    return where(of_season, full_of_season, carried_full)


@packs.derived(MONEY, label="running cost of one")
def running_each(from_mix: Expr, running_mixed: Expr, running_unmixed: Expr) -> Expr:
    """Running cost of one: of a mix, by what the mix cost."""
    return where(from_mix, running_mixed, running_unmixed)


@packs.derived(MONEY, label="full cost of one")
def full_each(from_mix: Expr, full_mixed: Expr, full_unmixed: Expr) -> Expr:
    """Full cost of one: of a mix, by what the mix cost."""
    return where(from_mix, full_mixed, full_unmixed)


@packs.derived(COUNT, label="gone at markets")
def gone_at_markets(market_packs: Children) -> Expr:
    """How many did not come back from markets."""
    return total(market_packs.gone)


@packs.derived(COUNT)
def taken(uses: Children, gone_at_markets: Expr) -> Expr:
    """How many have been used, or did not come back from a market; those opened for mixes apart."""
    return total(uses.containers) + gone_at_markets


@packs.derived(COUNT)
def on_hand(intact: Expr, taken: Expr, missing: Expr) -> Expr:
    """How many are on the shelf."""
    return intact - taken - missing


@packs.derived(FRESH)
def fresh_equivalent(net: Expr, product: Link) -> Expr:
    """Prepped fresh food that one holds."""
    return net * product.drying_ratio


@packs.derived(COUNT)
def runs_named(draws: Children, mixes_named: Expr) -> Expr:
    """How many runs it names as its origin."""
    return count(draws) - mixes_named


@packs.check("error", "Correct the uses, the count or a count of the shelf.")
def used_above_count(on_hand: Expr) -> Expr:
    """More were used than were there."""
    return on_hand < 0


@packs.check("caution", "Write the net weight.")
def net_missing(net: Expr) -> Expr:
    """A pack without a net weight: its product has no cost by weight."""
    return ~known(net)


@packs.check("caution", "Write the runs after from, so that a lot can be traced to its packs.")
def origin_missing(runs_named: Expr, of_runs: Expr) -> Expr:
    """A pack that names no run: it cannot be traced."""
    return (runs_named <= 0) & of_runs


@packs.check("caution", "Write the day it was packed: until then nobody knows how long it keeps.")
def day_missing(date: Expr, on_hand: Expr) -> Expr:
    """A pack on hand without a day."""
    return ~known(date) & (on_hand > 0)


@packs.check("caution", "Correct the date, or wait until it has come.")
def date_to_come(date: Expr, season: SingleRow) -> Expr:
    """Dated after the day this was judged on."""
    return date > season.as_of


@draws.derived(FLAG)
def only_run(pack: Link) -> Expr:
    """The pack names no other run."""
    return pack.runs_named <= 1


@draws.derived(DRIED)
def run_gave(of_mix: Expr, run: Link) -> Expr:
    """What the run gave."""
    return where(of_mix, 0, run.dried_out)


@packs.derived(DRIED)
def runs_gave(draws: Children) -> Expr:
    """What the runs that it names gave together."""
    return total(draws.run_gave)


@packs.check("error", "Correct the pack's count and net weight, or name all the runs it came from.")
def above_runs(runs_named: Expr, dried_content: Expr, runs_gave: Expr) -> Expr:
    """It holds more than the runs that it names gave together."""
    return (runs_named > 1) & (dried_content > runs_gave + runs_gave * BALANCE)


@draws.derived(DRIED)
def drawn(pack: Link) -> Expr:
    """What the pack took, where it names no other run."""
    return pack.dried_content


@uses.link(products)
def of_product(pack: Link, product: Link) -> Expr:
    """The product used: the pack's, or the bulk's."""
    return where(pack == "", product, pack.product)


@uses.derived(FLAG)
def of_bulk(pack: Link) -> Expr:
    """Taken from bulk, not from a pack."""
    return pack == ""


@uses.derived(COUNT)
def containers(of_bulk: Expr, count: Expr) -> Expr:
    """How many it took: one, where no count is given; none of bulk."""
    return where(of_bulk, 0, count)


@uses.derived(FLAG)
def crumbs(of_bulk: Expr, purpose: Expr) -> Expr:
    """Bulk that was left as crumbs."""
    return of_bulk & (purpose == "crumbs")


@uses.derived(FLAG)
def spoiled(pack: Link, purpose: Expr) -> Expr:
    """A pack of this season, of no mix, that spoiled."""
    return (purpose == "spoiled") & pack.of_runs


@uses.derived(DRIED)
def content(count: Expr, pack: Link, bulk_weight: Expr, of_bulk: Expr) -> Expr:
    """Weight it took: of the packs, or of bulk."""
    return where(of_bulk, bulk_weight, count * pack.net)


@uses.derived(MONEY)
def price_written(price: Expr, total: Expr, count: Expr) -> Expr:
    """Price of each as written, or of all over their number."""
    return first_known(price, total / count)


@uses.derived(MONEY)
def price_each(price_written: Expr, sold: Expr, asked_there: Expr) -> Expr:
    """Price of each: as written, else as asked that day; 0 where nothing was to be paid."""
    return first_known(price_written, where(sold, asked_there, 0))


@uses.derived(MONEY, label="full cost")
def cost_out(of_bulk: Expr, bulk_weight: Expr, of_product: Link, count: Expr, pack: Link) -> Expr:
    """Full cost of what was used."""
    return where(of_bulk, bulk_weight * of_product.full_bulk, count * pack.full_each)


@uses.derived(MONEY, label="left of it")
def profit(got: Expr, cost_out: Expr) -> Expr:
    """What is left of a sale after tax, fees and full cost."""
    return got - cost_out


@uses.check("caution", "Write what was paid for each, or what was asked that day.")
def price_missing(sold: Expr, price_each: Expr) -> Expr:
    """Sold, but without a price, and none was asked that day."""
    return sold & ~known(price_each)


@uses.check("error", "Empty one of the two.")
def two_prices(price: Expr, total: Expr) -> Expr:
    """Both a price of each and a total."""
    return known(price) & known(total)


@uses.check("caution", "Correct the date, or wait until it has come.")
def used_to_come(date: Expr, season: SingleRow) -> Expr:
    """Dated after the day this was judged on."""
    return date > season.as_of


@products.derived(FLAG)
def packed_beyond(unpacked: Expr, dried: Expr, carried: Expr) -> Expr:
    """More was packed and used than was there, beyond what scales tell apart."""
    return unpacked < 0 - (dried + carried) * BALANCE


@products.check("error", "Correct the packs' weights, the dry weights or the bulk used.")
def packed_above_dried(packed_beyond: Expr, loads_not_told: Expr) -> Expr:
    """More was packed and used than was dried and carried over."""
    return packed_beyond & (loads_not_told <= 0)
