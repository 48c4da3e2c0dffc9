"""The sheets of a comparison: the products, the seasons, the checks, the rules."""

from __future__ import annotations

from reportgen.layout.blocks import (
    ChartBlock,
    ChartSpec,
    Group,
    LegendBlock,
    ListBlock,
    Sheet,
    TableBlock,
    TextBlock,
)
from reportgen.past.quantities import checks, season, seasons, typed, years
from reportgen.sheets import audit, constants

COMPARED = Sheet(
    name="Seasons compared",
    purpose="Each product, season by season: what came out, what it cost, what shops asked.",
    tab="read",
    blocks=(
        TableBlock(
            years,
            (
                Group("Product and season", ("name", "title")),
                Group("Came out", ("dried", "overall_yield", "drying_ratio")),
                Group("Cost by weight, packed", ("running_per_packed", "full_per_packed")),
                Group("Shops", ("retail_median", "running_to_retail")),
                Group("Energy", ("specific_energy",)),
                Group("How sure", ("estimated_share",)),
                Group("Change against the season before", (
                    "running_change", "full_change", "retail_change", "yield_change",
                    "energy_change",
                )),
            ),
        ),
        ListBlock(
            "All of it",
            (
                (
                    season,
                    ("verdict_of_all", "errors", "failing", "verdict_of_records", "rows_moved"),
                ),
            ),
        ),
        TextBlock(
            "Where these figures come from",
            (
                "The framed figures are copied from the seasons named on the sheet Seasons, as "
                "they were on the day given there.",
                "They do not follow when a season changes: build the comparison again. What is "
                "worked out from them here does follow.",
                "Weights and costs by weight are in the units of the first season that was named; "
                "money is not corrected for inflation.",
                "An unusual change is worth a look at both seasons: a weight, a price or a meter "
                "may have been read wrongly.",
            ),
        ),
        ChartBlock((
            ChartSpec(
                "bar", "Cost by weight, season by season", years,
                ("running_per_packed", "full_per_packed", "retail_median"), "label",
                "by packed weight",
            ),
            ChartSpec(
                "bar", "Energy by water removed, season by season", years,
                ("specific_energy",), "label", "energy by water",
            ),
        )),
        LegendBlock("How to read this workbook"),
    ),
)  # fmt: skip

SEASONS = Sheet(
    name="Seasons",
    purpose="The seasons compared: from which file each was copied, and as of which day.",
    tab="record",
    blocks=(
        TableBlock(
            seasons, (Group("Copied from", ("title", "file", "as_of", "wrong", "doubted")),)
        ),
    ),
)

SHEETS = (COMPARED, SEASONS, audit.checks_of(checks, typed), audit.METHOD, constants.constants())
