"""Weeks and dryers: when a dryer is free; days on which it is closed; one more dryer."""

from reportgen.layout.blocks import ChartBlock, ChartSpec, Group, ListBlock, Sheet, TableBlock, Use
from reportgen.trade.tables import another, closed, season, weeks

WEEKS = Sheet(
    name="Weeks",
    purpose="Week by week and dryer by dryer: the hours that the plan takes, those free, those "
    "closed.",
    tab="read",
    blocks=(
        TableBlock(
            weeks,
            (
                Group("Week", ("called", "week", "dryer", "number")),
                Group("Hours", ("taken", "free", "closed_hours")),
            ),
            note="The last row of each dryer is all that comes after.",
        ),
        ChartBlock(
            (
                ChartSpec(
                    "stacked column", "Weeks and dryers", weeks, ("taken", "closed_hours", "free"),
                    "called", "hours of each week",
                ),
            )
        ),
    ),
    used_by=(Use(season, "by_the_week"),),
)  # fmt: skip

CLOSED = Sheet(
    name="Closed",
    purpose="A dryer does not run from the first to the last day; a run that they would cut goes "
    "on after them.",
    tab="record",
    blocks=(
        TableBlock(
            closed,
            (
                Group("Write down", ("dryer", "from_day", "to_day")),
                Group("Worked out", ("hours",)),
            ),
            spare=5,
        ),
    ),
)

ANOTHER = Sheet(
    name="One more dryer",
    purpose="Beside one that is there, closed on the same days: what would fit then, and how soon "
    "it pays for itself.",
    tab="read",
    landscape=False,
    blocks=(
        ListBlock(
            "One more dryer",
            (
                (
                    another,
                    (
                        "like", "price", "runs_more", "earned_year", "earned_per_run",
                        "payback_runs", "payback_years",
                    ),
                ),
            ),
        ),
    ),
)  # fmt: skip
