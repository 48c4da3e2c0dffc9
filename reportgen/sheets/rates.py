"""Prices and shares that all sheets use, and what else holds all season."""

from reportgen.layout.blocks import Group, ListBlock, Sheet, TableBlock
from reportgen.trade.tables import (
    carried_over,
    maker,
    overheads,
    periods,
    place,
    pricing,
    rates,
    scale,
    season,
    windows,
)

RATES = Sheet(
    name="Rates",
    purpose="Prices and shares that all sheets use. Change one and everything follows.",
    tab="record",
    blocks=(
        ListBlock(
            "Rates",
            (
                (
                    rates,
                    (
                        *rates.inputs,
                        "electricity_paid",
                        "electricity_dear",
                        "week_hours",
                        "week_priced",
                    ),
                ),
            ),
        ),
        ListBlock("Pricing", ((pricing, tuple(pricing.inputs)),)),
        ListBlock(
            "Scale, place and day",
            (
                (scale, ("resolution", "weighing")),
                (place, ("altitude", "air_at_height", "air")),
                (season, ("as_of",)),
            ),
        ),
        ListBlock("Maker, for labels", ((maker, tuple(maker.inputs)),)),
        TableBlock(
            periods,
            (
                Group("Write down", ("from_clock", "to_clock", "days", "price")),
                Group("Notes", ("note",)),
            ),
            heading="Electricity by time of use",
            spare=4,
            note="Prices may be changed here; times and days are changed in season.yaml.",
        ),
        TableBlock(
            windows,
            (
                Group("From the periods", ("period", "begin", "end")),
                Group("Worked out", ("hours", "price", "priced")),
                Group("As it was built", ("from_built", "to_built", "days_built")),
            ),
            heading="The week, by period",
        ),
        TableBlock(
            overheads,
            (
                Group("Write down", ("item", "cost", "paid", "over")),
                Group("Worked out", ("spread_over", "by_weight", "charged")),
                Group("Notes", ("note",)),
            ),
            heading="Overheads",
            spare=5,
        ),
        TableBlock(
            carried_over,
            (
                Group("Write down", ("product", "dried", "running", "full")),
                Group("Worked out", ("running_cost", "full_cost")),
                Group("Estimates", ("dried_about",)),
                Group("Notes", ("note",)),
            ),
            heading="Bulk carried over from last season",
            spare=5,
        ),
    ),
)
