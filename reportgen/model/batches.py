"""The records of batch files: what was bought, dried, packed, used, and seen in shops."""

from __future__ import annotations

from reportgen.model.fields import (
    Choice,
    Count,
    Day,
    Flag,
    Id,
    LogFile,
    OwnId,
    Quantity,
    Record,
    Ref,
    Refs,
    Share,
    Text,
    Word,
)
from reportgen.model.kinds import Dryness, Energy, Items, LotPrice, Nested, Purpose, Weight
from reportgen.units import DISTANCE, DRIED, FRESH, HOUR, MONEY

FROM = Text("from", "The season it was made in, its runs and lots.")
"""Where something left from an earlier season came from."""

PURPOSES = ("household", "gift", "spoiled", "crumbs", "sample")
"""What packs and bulk are used for, where they are not sold."""

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
        Word("container", "What it was bought in; its nominal weight is in the recipe."),
        LotPrice("price", "What it cost: by container, by weight, or in all."),
        Weight("weighed", "Weight as purchased.", FRESH, positive=True, counted=True),
        Count("weighed_count", "How many of the containers were weighed.", positive=True),
        Weight(
            "prepped",
            "Weight after washing, trimming and slicing.",
            FRESH,
            positive=True,
            counted=True,
            column="prepped_weighed",
            head="prepped, weighed",
        ),
        Weight(
            "set_aside",
            "Prepped, then eaten fresh, frozen or given away.",
            FRESH,
            zero=True,
        ),
        Weight("lost", "Prepped, then spoiled or dropped.", FRESH, zero=True),
        Share("water", "Measured water, wet basis.", below_all=True),
        Quantity("travel", "Distance driven for it.", DISTANCE, zero=True, head="distance"),
        Ref("trip", "The trip that fetched it, shared with other lots.", table="trips"),
        Quantity("labor", "Time spent buying and preparing.", HOUR, zero=True, head="time"),
        Flag("finished", "All that was prepped went on the trays."),
        Nested(
            "carried",
            "Left from last season: prepped then, at its cost in all.",
            fields=(
                Quantity("running", "What its produce and driving cost, last season.", MONEY),
                Quantity("full", "The same and its time, last season.", MONEY),
                FROM,
            ),
            prefix="carried_",
        ),
    ),
)

trips = Record(
    "trips",
    "A drive that fetched several lots.",
    (
        Id("id", "The trip's id."),
        Quantity("distance", "Distance driven.", DISTANCE, zero=True),
        Quantity("labor", "Time spent.", HOUR, zero=True, head="time"),
    ),
)

runs = Record(
    "runs",
    "One load of a dryer, from start to end.",
    (
        Id("id", "The run's id."),
        Ref("dryer", "The dryer it ran in.", table="dryers"),
        Day("started", "When it was started.", clock=True, midnight="at_midnight"),
        Day("ended", "When it ended.", clock=True),
        Quantity("duration", "How long it ran.", HOUR, positive=True),
        Energy("energy", "Energy by the meter: an amount, or two readings."),
        LogFile("meter", "The file of a power log, beside the batch."),
        Quantity("labor", "Time spent loading and unloading.", HOUR, zero=True, head="time"),
        Weight(
            "dry",
            "Weight of all that came out, where loads were not weighed apart.",
            DRIED,
            positive=True,
            summed=True,
            trays=True,
            head="dry, of all",
        ),
        Flag("failed", "It failed: its loads went in again, or were lost."),
        Items("loads", "What was in it.", record="loads"),
    ),
)

loads = Record(
    "loads",
    "What one lot put into one run.",
    (
        OwnId("id", "An id of its own; needed for a second load of a lot in one run."),
        Ref("lot", "The lot it came from.", table="lots"),
        Ref(
            "again",
            "The load that was not dry yet and went back in.",
            table="loads",
            head="first dried as",
        ),
        Weight(
            "wet",
            "Weight that went in.",
            FRESH,
            positive=True,
            summed=True,
            counted=True,
            trays=True,
        ),
        Weight(
            "dry",
            "Weight that came out.",
            DRIED,
            positive=True,
            summed=True,
            counted=True,
            trays=True,
        ),
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
        Weight(
            "net",
            "Net weight of one.",
            DRIED,
            positive=True,
            counted=True,
            head="net weight",
        ),
        Refs("from", "The runs, or the mixes, it came from.", table="runs", rows="draws"),
        Quantity("labor", "Time spent packing.", HOUR, zero=True, head="time"),
        Nested(
            "carried",
            "Left from last season, at its cost each.",
            fields=(
                Quantity("running", "The running cost of one, last season.", MONEY),
                Quantity("full", "What one cost in full, last season.", MONEY),
                Day("best_by", "Its best-by day, as it was last season."),
                Choice(
                    "dryness",
                    "What was shown of its dryness, last season.",
                    words=("dry", "not shown", "doubtful", "origin not named"),
                ),
                FROM,
            ),
            prefix="carried_",
        ),
    ),
)

draws = Record(
    "draws",
    "Which runs, or which mixes, a pack came from.",
    (
        Ref("pack", "The pack.", table="packs", required=True),
        Ref("run", "A run it came from.", table="runs"),
        Ref("mix", "A mix it came from, in place of a run.", table="mixes"),
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
        Count("count", "How many containers.", default=1, positive=True),
        Ref("product", "The product, where bulk was used.", table="products"),
        Weight("weight", "Weight of bulk.", DRIED, positive=True, rest="rest"),
        Purpose("for", "What for.", words=PURPOSES, required=True),
        Quantity("price", "Price of each; left out, what was asked that day.", MONEY),
        Quantity("total", "What was paid for all, in place of a price of each.", MONEY),
    ),
    key="position",
)

asked = Record(
    "asked",
    "What we ask for one, from a day on.",
    (
        Ref("product", "The product.", table="products", required=True),
        Ref("container", "The container.", table="containers", required=True),
        Quantity("net", "Net weight.", DRIED, positive=True, required=True, head="net weight"),
        Quantity("price", "Price of one, tax included.", MONEY, required=True),
        Day("from", "The first day it is asked; left out, always.", column="since", head="from"),
    ),
    key="position",
)

counts = Record(
    "counts",
    "What was really there, packs or bulk, counted on a day.",
    (
        Day("date", "The day, all of its uses included.", required=True),
        Ref("pack", "The pack that was counted.", table="packs"),
        Count("counted", "How many containers were there."),
        Ref("product", "The product, where bulk was weighed.", table="products"),
        Weight("weight", "Weight of bulk that was there.", DRIED),
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
        Quantity("net", "Net weight.", DRIED, positive=True, head="net weight"),
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
