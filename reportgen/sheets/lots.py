"""What was bought, and the trips that fetched it."""

from reportgen.layout.blocks import Group, Sheet, TableBlock
from reportgen.trade.tables import lots, trips

LOTS = Sheet(
    name="Lots",
    purpose="What was bought or picked at one time, what it weighed and what it cost.",
    tab="record",
    blocks=(
        TableBlock(
            lots,
            (
                Group(
                    "Write down",
                    (
                        "product", "date", "source", "grown", "count", "container",
                        "price_each", "price_by_weight", "price_total",
                    ),
                ),
                Group(
                    "Weights",
                    (
                        "weighed", "prepped_weighed", "set_aside", "lost", "water", "finished",
                    ),
                ),
                Group("Distance and time", ("travel", "labor")),
                Group(
                    "Worked out: weight",
                    (
                        "as_purchased", "as_purchased_basis", "prepped", "prepped_basis",
                        "waiting",
                    ),
                ),
                Group("Worked out: cost", ("purchase_cost", "cost_per_prepped")),
                Group("Seldom needed", ("weighed_count", "trip")),
                Group("Left from last season", ("carried_running", "carried_full", "carried_from")),
                Group("Notes", ("note",), printed=False),
                Group(
                    "Further figures",
                    (
                        "weighed_all", "nominal_all", "prepped_by_recipe", "prep_yield", "loaded",
                        "travel_cost", "labor_cost",
                    ),
                    printed=False,
                ),
            ),
            spare=10,
            note=(
                "A whole day's work can be typed in one row of the sheet Notebook. If it is "
                "hidden: right-click any tab, then Unhide (or Show)."
            ),
        ),
    ),
)  # fmt: skip


TRIPS = Sheet(
    name="Trips",
    purpose="Trips that fetched several lots: their distance and time are shared among these.",
    tab="record",
    blocks=(
        TableBlock(
            trips,
            (
                Group("Write down", ("distance", "labor")),
                Group("Worked out", ("purchases", "lots_fetched")),
            ),
            spare=5,
            note="Filled by a trip that several lots name. A lot fetched alone has its own.",
        ),
    ),
)
