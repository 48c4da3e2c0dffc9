"""The records of season.yaml that look ahead or back: scenarios, plan, bulk carried over."""

from __future__ import annotations

from reportgen.model.fields import Count, Day, Id, Quantity, Record, Ref, Text, Word
from reportgen.model.kinds import CostChange
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
    ),
    key="position",
)

carried_over = Record(
    "carried_over",
    "Bulk left from last season, at its cost by weight.",
    (
        Ref("product", "The product.", table="products", required=True),
        Quantity("dried", "Weight.", DRIED, positive=True, required=True),
        Quantity("running", "Its running cost.", BY_DRIED),
        Quantity("full", "What it cost in full.", BY_DRIED),
    ),
    key="position",
)
