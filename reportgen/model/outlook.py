"""The records of season.yaml that look ahead or back: scenarios, plan, closed days, one more
dryer, bulk carried over."""

from __future__ import annotations

from reportgen.model.fields import Count, Day, Id, Quantity, Record, Ref, Text, Word
from reportgen.model.kinds import AtMost, CostChange, Weight
from reportgen.units import DISTANCE, DRIED, ENERGY, HOUR, MONEY, ONE, Unit

BY_DRIED = MONEY / DRIED
WEEK = Unit.of("week")

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
        Quantity("net", "Net weight in that container.", DRIED, positive=True, head="net weight"),
    ),
)

plan = Record(
    "plan",
    "What is to be on the shelf.",
    (
        Ref("product", "The product.", table="products", required=True),
        Ref("container", "The container.", table="containers"),
        Count("count", "How many.", positive=True, head="wanted"),
        Quantity("net", "Net weight of one.", DRIED, positive=True, head="net weight"),
        Day("start", "When it can begin."),
        Ref("dryer", "The dryer; else the first.", table="dryers"),
        Word(
            "buy",
            "What it is bought in; else as last bought, else the recipe's first.",
            head="buy by the",
        ),
        Quantity(
            "pace",
            "Runs a week.",
            ONE / WEEK,
            positive=True,
            per=("run", "runs"),
            head="runs a week",
        ),
        Day("until", "The last day on which the produce is to be had.", head="to be had until"),
        AtMost("at_most", "The most of it that is to be had: containers, or a weight."),
    ),
    key="position",
)

closed = Record(
    "closed",
    "Days on which a dryer does not run.",
    (
        Ref("dryer", "The dryer; left out, the only one.", table="dryers"),
        Day(
            "from",
            "The first day on which it is closed.",
            required=True,
            column="from_day",
            head="from",
        ),
        Day("to", "The last day on which it is closed.", required=True, column="to_day", head="to"),
    ),
    key="position",
)

another = Record(
    "another",
    "One more dryer that you think of.",
    (
        Ref(
            "like",
            "The dryer that it would stand beside, and be like.",
            table="dryers",
            required=True,
        ),
        Quantity("price", "What it would cost.", MONEY),
    ),
    key="single",
)

carried_over = Record(
    "carried_over",
    "Bulk left from last season, at its cost by weight.",
    (
        Ref("product", "The product.", table="products", required=True),
        Weight("dried", "Weight.", DRIED, positive=True, required=True),
        Quantity("running", "Its running cost.", BY_DRIED),
        Quantity("full", "What it cost in full.", BY_DRIED),
    ),
    key="position",
)
