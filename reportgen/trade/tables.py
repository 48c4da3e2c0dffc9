"""The tables of the trade: their inputs come from the model, their quantities from the subjects."""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.algebra.inputs import Input
from reportgen.algebra.tables import Table
from reportgen.model import notebook as days_work
from reportgen.model.records import RECORDS
from reportgen.units import DRIED, HOUR

_OWNERS = {
    "loads": ("run", "runs"),
    "upkeep": ("dryer", "dryers"),
    "parts": ("container", "containers"),
    "nominal_weights": ("product", "products"),
    "draws": ("pack", "packs"),
    "mix_parts": ("into", "mixes"),
    "bought_parts": ("into", "mixes"),
    "market_packs": ("market", "markets"),
    "market_takings": ("market", "markets"),
}
"""Records that are written inside another: the column that names their owner, and its table."""


def _table(record_name: str, one: str, title: str = "", *, name: str = "") -> Table:
    record, name = RECORDS[record_name], name or record_name
    inputs: list[Input] = list(record.inputs)
    if name in _OWNERS and _OWNERS[name][0] not in {each.name for each in inputs}:
        column, owner = _OWNERS[name]
        holder = "mix" if column == "into" else column
        doc = f"The {holder} it belongs to."
        inputs.insert(0, Input(column, "text", doc, ref=owner, head=holder))
    return Table.of(name, one, inputs, title=title, single=record.key == "single")


def like(table: Table) -> Table:
    """A table of the same inputs, for another book."""
    return Table.of(table.name, table.one, list(table.inputs.values()), title=table.title)


rates = _table("rates", "rates")
pricing = _table("pricing", "pricing")
channels = Table.of(
    "channels",
    "channel",
    [
        *RECORDS["channels"].inputs,
        Input("of_stall", "flag", "Whether it is the stall.", zero=True, fixed=True),
    ],
)
scale = _table("scale", "scale")
place = _table("place", "place")
maker = _table("maker", "maker")
periods = _table("periods", "period", "periods of the day")
windows = Table.of(
    "windows",
    "window of the week",
    [
        Input("period", "text", "The period that holds in it.", ref="periods", fixed=True),
        Input(
            "begin",
            "number",
            "Where it begins, from Saturday 0:00.",
            HOUR,
            fixed=True,
            head="from, in the week",
        ),
        Input("end", "number", "Where it ends.", HOUR, fixed=True, head="to, in the week"),
        Input("from_built", "text", "From, as it was built.", fixed=True),
        Input("to_built", "text", "To, as it was built.", fixed=True),
        Input("days_built", "text", "Days, as it was built.", fixed=True),
    ],
    title="windows of the week",
)
dryers = _table("dryers", "dryer")
upkeep = _table("upkeep", "upkeep item", "upkeep items")
containers = _table("containers", "container")
parts = _table("parts", "part")
absorbers = _table("absorbers", "absorber size", "absorber sizes")
overheads = _table("overheads", "overhead")
carried_over = _table("carried_over", "carried-over bulk", "bulk carried over")
products = _table("products", "product")
nominal_weights = _table("nominal_weights", "nominal weight")
trips = _table("trips", "trip")
lots = _table("lots", "lot")
runs = _table("runs", "run")
loads = _table("loads", "load")
run_energy = _table("run_energy", "run's period", "energy by period")
power = _table("power", "point", "power over time")
mixes = _table("mixes", "mix")
mix_parts = _table("mix_parts", "part", "parts of mixes")
bought_parts = _table("bought_parts", "bought part", "bought parts of mixes")
packs = _table("packs", "pack")
draws = _table("draws", "draw", "draws of packs on runs and mixes")
uses = _table("uses", "use")
markets = _table("markets", "market day", "market days")
market_packs = _table("market_packs", "pack at a market", "packs at markets")
market_takings = _table("market_takings", "takings of a market", "takings of markets")
counts = _table("counts", "count", "counts of the shelf")
asking = _table("asked", "asked price", "asked prices", name="asking")
offers = _table("offers", "offer")
notebook = Table.of(days_work.NAME, "day's work", days_work.INPUTS)
changes = _table("scenarios", "scenario", "scenarios as written", name="changes")
plan = _table("plan", "plan row", "plan rows")
closed = _table("closed", "closed time", "closed days")
another = _table("another", "dryer to buy", "one more dryer")
season = Table.of(
    "season",
    "the season",
    [
        *RECORDS["season"].inputs,
        Input("money_by_weight", "text", "How a cost by weight is written.", fixed=True),
        Input(
            "short_files",
            "number",
            "How many days' work are files of the short form already.",
            whole=True,
            fixed=True,
            head="days' work in files of the short form",
        ),
        Input("dollar_sized", "flag", "Whether its currency is worth about a dollar.", fixed=True),
    ],
    single=True,
)

checks = Table.of(
    "checks",
    "check",
    [
        Input("of", "text", "The table it looks at.", head="table", fixed=True, ours=True),
        Input("severity", "text", "Error or caution.", fixed=True, ours=True),
        Input(
            "what",
            "text",
            "What is wrong where it fails.",
            head="what is wrong",
            fixed=True,
            ours=True,
        ),
        Input("do", "text", "What to do.", head="what to do", fixed=True, ours=True),
        Input("is_error", "flag", "Whether it is an error.", head="an error?", fixed=True),
    ],
)

typed = Table.of(
    "typed",
    "input",
    [
        Input("of", "text", "The table it is in.", head="table", fixed=True, ours=True),
        Input("what", "text", "What is typed there.", head="input", fixed=True, ours=True),
    ],
    title="cells for numbers",
)

# Tables whose rows follow from the records of others; ``reportgen.trade.rows`` makes them.

prices = Table.of(
    "prices",
    "price",
    [
        Input("product", "text", "The product.", ref="products"),
        Input("container", "text", "The container.", ref="containers"),
        Input("net", "number", "Net weight.", DRIED, least=0, above=True, head="net weight"),
    ],
)
price_list = Table.of(
    "price_list",
    "price of a channel",
    [
        Input("channel", "text", "The channel.", ref="channels"),
        # By place: the text of a number is not the same in all suites and languages.
        Input("place", "number", "Which row of prices, from 1.", whole=True, head="row of prices"),
    ],
    title="price list",
)
scenarios = Table.of(
    "scenarios",
    "outcome",
    [
        Input("scenario", "text", "The scenario.", ref="changes", fixed=True),
        Input("product", "text", "The product.", ref="products", fixed=True),
    ],
)
absorber_needs = Table.of(
    "absorber_needs",
    "need",
    [
        Input("pack", "text", "The pack.", ref="packs", fixed=True),
        Input("absorber", "text", "The absorber size.", ref="absorbers", fixed=True),
    ],
    title="absorbers needed",
)
trace = Table.of(
    "trace",
    "step",
    [
        Input("pack", "text", "The pack.", ref="packs", fixed=True),
        Input("draw", "text", "The run or mix that the pack names.", ref="draws", fixed=True),
        Input("part", "text", "What of our own went into the mix.", ref="mix_parts", fixed=True),
        Input("item", "text", "What was bought for it.", ref="bought_parts", fixed=True),
        Input("load", "text", "A load of the run, or behind the part.", ref="loads", fixed=True),
        Input("recalled", "text", "Its row among the packs of each lot.", ref="recall", fixed=True),
    ],
    title="trace",
)
recall = Table.of(
    "recall",
    "lot's pack",
    [
        Input("lot", "text", "The lot.", ref="lots", fixed=True),
        Input("pack", "text", "A pack with something of it.", ref="packs", fixed=True),
    ],
    title="packs of each lot",
)
rest_steps = Table.of(
    "rest_steps",
    "step to what was left",
    [
        Input("taken", "text", "The use that took all that was left.", fixed=True),
        Input("load", "text", "A load of the product.", ref="loads", fixed=True),
        Input("pack", "text", "A pack of it.", ref="packs", fixed=True),
        Input("part", "text", "What of it went into a mix.", ref="mix_parts", fixed=True),
        Input("other", "text", "Another use of it.", ref="uses", fixed=True),
    ],
    title="what was left in bulk",
)
queue = Table.of(
    "queue",
    "place in the queue",
    [
        Input("position", "text", "The plan row.", fixed=True),
        Input("before", "text", "Another row, or itself.", ref="plan", fixed=True),
        Input("written_before", "flag", "Whether that is written above it.", fixed=True),
    ],
    title="queue of plan rows",
)
weeks = Table.of(
    "weeks",
    "week of a dryer",
    [
        Input("dryer", "text", "The dryer.", ref="dryers", fixed=True),
        Input("number", "number", "Which week of the plan, from 1.", whole=True, fixed=True),
        Input("next", "text", "Its week after that; none after the last.", ref="weeks", fixed=True),
    ],
    title="weeks of the dryers",
)
drivers = Table.of(
    "drivers",
    "driver",
    [
        Input("group", "text", "What it drives.", fixed=True, ours=True),
        Input("what", "text", "What may change.", fixed=True, ours=True),
        Input("change", "number", "By how much it may change.", least=0, most=1, share=True),
    ],
    title="drivers of the cost",
)
ranking = Table.of(
    "ranking",
    "place in the list",
    [Input("place", "number", "The place: 1 for what weighs most.", whole=True, fixed=True)],
    title="drivers by what they weigh",
)

worth_drying = Table.of(
    "worth_drying",
    "place in the list",
    [Input("place", "number", "The place: 1 for what earns most.", whole=True, fixed=True)],
    title="what is worth drying",
)

worth_mixing = Table.of(
    "worth_mixing",
    "place in the list",
    [Input("place", "number", "The place: 1 for what brings most.", whole=True, fixed=True)],
    title="what mixes bring",
)

eat_first = Table.of(
    "eat_first",
    "place in the list",
    [Input("place", "number", "The place: 1 for what to eat first.", whole=True, fixed=True)],
    title="eat first",
)

TABLES: Sequence[Table] = (
    rates, pricing, channels, scale, place, maker, periods, windows,
    dryers, upkeep, containers, parts, absorbers, overheads, carried_over,
    products, nominal_weights, trips, lots, runs, run_energy, power, loads, mixes, mix_parts,
    bought_parts, packs, draws, uses, markets, market_packs, market_takings, counts, asking, offers,
    notebook,
    changes, plan, closed, another, season, checks, typed,
    prices, price_list, scenarios, absorber_needs, trace, recall, rest_steps, queue, weeks,
    drivers, ranking, worth_drying, worth_mixing,
    eat_first,
)  # fmt: skip
