"""Every record of a season, field by field: the contract of what a user may write."""

from __future__ import annotations

from reportgen.model.fields import (
    Choice,
    CostChange,
    Count,
    Day,
    Dryness,
    Energy,
    Field,
    Flag,
    Id,
    Items,
    LotPrice,
    Named,
    Nested,
    Quantity,
    Record,
    Ref,
    Refs,
    Share,
    Sourced,
    Text,
)
from reportgen.units import (
    AREA,
    DENSITY,
    DISTANCE,
    DRIED,
    ENERGY,
    FRESH,
    HOUR,
    KG,
    MONEY,
    ONE,
    POWER,
    VOLUME,
    Unit,
)

BY_DRIED = MONEY / DRIED
WEEK = Unit.of("week")
YEAR = Unit.of("year")
MONTH = Unit.of("month")

lots = Record(
    "lots",
    "What was bought or picked at one time.",
    (
        Id("id", "The lot's id."),
        Ref(
            "product",
            "What it is to become; a recipe.",
            table="products",
            required=True,
        ),
        Day("date", "The day it was bought or picked."),
        Text("source", "Where it came from."),
        Flag("grown", "Grown or picked by ourselves."),
        Count("count", "How many containers.", default=1, positive=True),
        Text("container", "What it was bought in; its nominal weight is in the recipe."),
        LotPrice("price", "What it cost: by container, by weight, or in all."),
        Quantity("weighed", "Weight as purchased.", FRESH, positive=True),
        Count("weighed_count", "How many of the containers were weighed.", positive=True),
        Quantity(
            "prepped",
            "Weight after washing, trimming and slicing.",
            FRESH,
            positive=True,
        ),
        Quantity(
            "set_aside",
            "Prepped, then eaten fresh, frozen or given away.",
            FRESH,
            zero=True,
        ),
        Quantity("lost", "Prepped, then spoiled or dropped.", FRESH, zero=True),
        Share("water", "Measured water, wet basis.", below_all=True),
        Quantity("travel", "Distance driven for it.", DISTANCE, zero=True),
        Ref("trip", "The trip that fetched it, shared with other lots.", table="trips"),
        Quantity("labor", "Time spent buying and preparing.", HOUR, zero=True),
        Flag("finished", "All that was prepped went on the trays."),
    ),
)

runs = Record(
    "runs",
    "One load of a dryer, from start to end.",
    (
        Id("id", "The run's id."),
        Ref("dryer", "The dryer it ran in.", table="dryers"),
        Day("started", "When it was started.", clock=True),
        Day("ended", "When it ended.", clock=True),
        Quantity("duration", "How long it ran.", HOUR, positive=True),
        Energy("energy", "Energy by the meter: an amount, or two readings."),
        Text("meter", "The file of a power log, beside the batch."),
        Quantity("labor", "Time spent loading and unloading.", HOUR, zero=True),
        Items("loads", "What was in it.", record="loads"),
    ),
)

loads = Record(
    "loads",
    "What one lot put into one run.",
    (
        Text("id", "An id of its own; needed for a second load of a lot in one run."),
        Ref("lot", "The lot it came from.", table="lots"),
        Ref("again", "The load that was not dry yet and went back in.", table="loads"),
        Quantity("wet", "Weight that went in.", FRESH, positive=True, summed=True),
        Quantity("dry", "Weight that came out.", DRIED, positive=True),
        Dryness("dryness", "What shows that it is dry."),
    ),
    key="derived",
    owner="runs",
)

packs = Record(
    "packs",
    "Containers of one product filled alike on one day.",
    (
        Id("id", "The pack's id, as on its label."),
        Ref("product", "What is in it.", table="products", required=True),
        Day("date", "The day it was packed."),
        Ref("container", "The container it is in.", table="containers"),
        Count("count", "How many were filled.", default=1, positive=True),
        Quantity("net", "Net weight of one.", DRIED, positive=True),
        Refs("from", "The runs it came from.", table="runs", rows="draws"),
        Quantity("labor", "Time spent packing.", HOUR, zero=True),
        Nested(
            "carried",
            "Left from last season, at its cost each.",
            fields=(
                Quantity("cash", "What one cost in cash, last season.", MONEY),
                Quantity("full", "What one cost in full, last season.", MONEY),
            ),
            prefix="carried_",
        ),
    ),
)

draws = Record(
    "draws",
    "Which runs a pack came from.",
    (
        Ref("pack", "The pack.", table="packs", required=True),
        Ref("run", "A run it came from.", table="runs", required=True),
    ),
    key="position",
    owner="packs",
)

uses = Record(
    "uses",
    "Where packs and bulk went.",
    (
        Day("date", "The day."),
        Ref("pack", "The pack it was taken from.", table="packs"),
        Count("count", "How many containers.", positive=True),
        Ref("product", "The product, where bulk was used.", table="products"),
        Quantity("weight", "Weight of bulk.", DRIED, positive=True),
        Choice(
            "for",
            "What for.",
            column="purpose",
            words=(
                "household",
                "stall",
                "co-op",
                "gift",
                "spoiled",
                "crumbs",
                "sample",
            ),
            required=True,
        ),
        Quantity("price", "Price of each.", MONEY),
    ),
    key="position",
)

offers = Record(
    "offers",
    "What shops ask, as seen on a date.",
    (
        Id("id", "The offer's id."),
        Ref("product", "The product it compares with.", table="products", required=True),
        Text("seller", "Who asks it."),
        Day("date", "The day it was seen."),
        Quantity("net", "Net weight.", DRIED, positive=True),
        Quantity("price", "Price.", MONEY),
        Quantity("shipping", "Shipping.", MONEY, zero=True),
        Flag("on_sale", "A passing price."),
        Choice(
            "form",
            "Freeze-dried, or the same food frozen, canned or fresh.",
            words=("freeze-dried", "frozen", "canned", "fresh"),
            default="freeze-dried",
        ),
    ),
)

trips = Record(
    "trips",
    "A drive that fetched several lots.",
    (
        Id("id", "The trip's id."),
        Quantity("distance", "Distance driven.", DISTANCE, zero=True),
        Quantity("labor", "Time spent.", HOUR, zero=True),
    ),
)

rates = Record(
    "rates",
    "What an hour, a mile and a kilowatt-hour cost.",
    (
        Quantity("electricity", "Price of electricity.", MONEY / ENERGY),
        Quantity(
            "labor",
            "What an hour of work is worth; 0 where your time is free.",
            MONEY / HOUR,
        ),
        Quantity("travel", "What driving costs.", MONEY / DISTANCE),
    ),
    key="single",
)

periods = Record(
    "periods",
    "Electricity by time of use: the first period that holds the hour counts.",
    (
        Text("from", "Clock time it begins.", column="from_clock"),
        Text("to", "Clock time it ends.", column="to_clock"),
        Text("days", "Days it holds on: sat sun, or mon-fri; left out, every day."),
        Quantity("price", "Price in the period.", MONEY / ENERGY, required=True),
    ),
    key="position",
    owner="rates",
)

overheads = Record(
    "overheads",
    "Costs of the season that no run causes.",
    (
        Text("item", "What it is.", required=True),
        Quantity("cost", "What it costs.", MONEY, required=True),
        Quantity(
            "over",
            "The dried weight it is spread over; else the season's.",
            DRIED,
            positive=True,
        ),
    ),
    key="position",
)

dryers = Record(
    "dryers",
    "The machines.",
    (
        Id("id", "The dryer's id."),
        Count("trays", "How many trays.", positive=True),
        Quantity("tray_area", "Area of one tray.", AREA, positive=True),
        Quantity("load_limit", "Wet weight a run can take.", FRESH, positive=True),
        Quantity(
            "mean_power",
            "Mean power over a run, where it was not metered.",
            POWER,
            positive=True,
        ),
        Share("mean_power_spread", "How far the mean power may be off.", default=0.25),
        Quantity("price", "What it cost.", MONEY),
        Quantity("resale", "What it will fetch in the end.", MONEY, zero=True),
        Count("life", "Runs it will last.", positive=True, words=("run", "runs")),
        Count("runs_before", "Runs in earlier seasons.", zero=True, words=("run", "runs")),
        Count(
            "runs_per_year",
            "Runs a year, for the payback date.",
            positive=True,
            words=("run", "runs"),
        ),
        Quantity("turnaround", "Defrosting, cleaning and loading again.", HOUR, zero=True),
        Items("upkeep", "What keeps it going.", record="upkeep"),
    ),
)

upkeep = Record(
    "upkeep",
    "What keeps a dryer going.",
    (
        Text("item", "What it is.", required=True),
        Quantity("cost", "What it costs each time.", MONEY, required=True),
        Count(
            "every",
            "Runs between two times.",
            positive=True,
            required=True,
            words=("run", "runs"),
        ),
    ),
    key="position",
    owner="dryers",
)

containers = Record(
    "containers",
    "Cans, pouches and jars.",
    (
        Id("id", "The container's id."),
        Text("name", "Its name."),
        Quantity("volume", "Inside volume.", VOLUME, positive=True),
        Named("parts", "What one filled container uses up.", record="parts", value="cost"),
        Quantity("absorber", "Oxygen that the absorbers of one container take up.", VOLUME),
        Share("spoiled", "Containers lost in sealing.", zero=True, below_all=True),
    ),
)

parts = Record(
    "parts",
    "What one filled container uses up.",
    (
        Text("item", "The part.", required=True),
        Quantity("cost", "Its price.", MONEY, required=True),
        Count("uses", "How often it is used.", default=1, positive=True),
    ),
    key="position",
    owner="containers",
)

pricing = Record(
    "pricing",
    "How packs are priced.",
    (
        Share("margin", "Share of the price that is to be left over.", below_all=True),
        Share("fees", "Share of the price that selling costs.", below_all=True),
        Quantity(
            "price_step",
            "Prices are rounded up to a multiple of this.",
            MONEY,
            positive=True,
        ),
        Quantity("stall", "What a day at the stall costs.", MONEY / Unit.of("d")),
        Quantity("days", "Days at the stall.", Unit.of("d")),
        Share("would_buy", "Share of it that you would have bought in a shop."),
    ),
    key="single",
)

scale = Record(
    "scale",
    "The kitchen scale.",
    (Quantity("resolution", "The smallest step it shows.", DRIED, positive=True),),
    key="single",
)

place = Record(
    "place",
    "Where the packing is done.",
    (Quantity("altitude", "Height above the sea.", Unit.of("m")),),
    key="single",
)

absorbers = Record(
    "absorbers",
    "Absorber sizes at hand.",
    (
        Id("id", "The size's id."),
        Quantity("oxygen", "Oxygen that one takes up.", VOLUME, positive=True, required=True),
        Quantity("cost", "Price of one.", MONEY),
    ),
)

scenarios = Record(
    "scenarios",
    "What if: factors on cost parts, or replacements.",
    (
        Id("id", "The scenario's id."),
        Text("name", "Its name."),
        CostChange("ingredients", "Produce and its travel."),
        CostChange("energy", "Energy."),
        CostChange("upkeep", "Upkeep."),
        CostChange("wear", "Wear."),
        CostChange("labor", "Labor.", rate=MONEY / HOUR),
        CostChange("packaging", "Packaging."),
        CostChange("overhead", "Overhead."),
        Quantity("electricity", "Price of electricity instead.", MONEY / ENERGY),
        Quantity("travel", "Cost of driving instead.", MONEY / DISTANCE),
        Ref("container", "The container instead.", table="containers"),
        Quantity("net", "Net weight in that container.", DRIED, positive=True),
    ),
)

plan = Record(
    "plan",
    "What is to be on the shelf.",
    (
        Ref("product", "The product.", table="products", required=True),
        Ref("container", "The container.", table="containers"),
        Count("count", "How many.", positive=True),
        Quantity("net", "Net weight of one.", DRIED, positive=True),
        Day("start", "When it can begin."),
        Ref("dryer", "The dryer; else the first.", table="dryers"),
        Text("buy", "What it is bought in; else the recipe's first."),
        Quantity("pace", "Runs a week.", ONE / WEEK, positive=True, per=("run", "runs")),
    ),
    key="position",
)

carried_over = Record(
    "carried_over",
    "Bulk left from last season, at its cost by weight.",
    (
        Ref("product", "The product.", table="products", required=True),
        Quantity("dried", "Weight.", DRIED, positive=True, required=True),
        Quantity("cash", "What it cost in cash.", BY_DRIED),
        Quantity("full", "What it cost in full.", BY_DRIED),
    ),
    key="position",
)

maker = Record(
    "maker",
    "Who made it, for labels.",
    (
        Text("name", "Name."),
        Text("address", "Address."),
        Text("permit", "Permit or registration."),
        Text("statement", "The statement that local law asks for, in its own words."),
    ),
    key="single",
)

recipes = Record(
    "products",
    "Product data: what a recipe says.",
    (
        Text("name", "The product's name."),
        Text("kind", "Fruit, vegetable, herb, dish."),
        Sourced(
            "water",
            "Water as prepared.",
            of=Share("water", "Water as prepared, wet basis.", below_all=True),
            spread=True,
        ),
        Sourced(
            "prep_yield",
            "Prepared from purchased.",
            of=Share("prep_yield", "Prepared weight from one of purchased."),
        ),
        Sourced(
            "target_moisture",
            "Water to aim for.",
            of=Share("target_moisture", "Water left to aim for, wet basis.", below_all=True),
        ),
        Sourced(
            "skeletal_density",
            "Density of the solid.",
            of=Quantity(
                "skeletal_density",
                "Density of the solid without its pores.",
                DENSITY,
                positive=True,
            ),
        ),
        Sourced(
            "run_time",
            "Hours a run takes.",
            of=Quantity("run_time", "Hours a run takes.", HOUR, positive=True),
        ),
        Sourced(
            "tray_loading",
            "Wet weight on a tray.",
            of=Quantity("tray_loading", "Wet weight by tray area.", KG / AREA, positive=True),
        ),
        Sourced(
            "best_by",
            "How long it keeps.",
            of=Quantity("best_by", "How long it keeps at best.", MONTH, positive=True),
        ),
        Text("ingredients", "As a label names them."),
        Flag("cook_before_eating", "To be cooked before it is eaten."),
        Text("rehydrate", "How to bring it back."),
        Text("storage", "How to keep it."),
    ),
)

nominal_weights = Record(
    "nominal_weights",
    "What a container of a product weighs, by name, where it was not weighed.",
    (
        Text("container", "The container's name.", required=True),
        Sourced(
            "weight",
            "Nominal weight.",
            of=Quantity("weight", "Nominal net weight.", FRESH, positive=True),
        ),
    ),
    key="derived",
    owner="products",
)

SEASON: tuple[Field, ...] = (
    Text("season", "The season's name.", required=True),
    Text("currency", "ISO 4217 code.", required=True),
    Text("locale", "Language and place for hand-outs, as en-US."),
)
"""The keys of ``season.yaml`` that are not records; ``units`` is read before all others."""

RECORDS: dict[str, Record] = {
    record.name: record
    for record in (
        rates, periods, pricing, scale, place, maker,
        dryers, upkeep, containers, parts, absorbers, overheads, carried_over,
        recipes, nominal_weights,
        trips, lots, runs, loads, packs, draws, uses, offers,
        scenarios, plan,
    )
}  # fmt: skip
