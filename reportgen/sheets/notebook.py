"""A day's work in one row, typed on a phone."""

from reportgen.layout.blocks import Group, ListBlock, Sheet, TableBlock, Use
from reportgen.trade.tables import notebook, season

SHEET = Sheet(
    name="Notebook",
    purpose=(
        "One row is one day's work. Rows count in the season after 'reportgen take', which writes "
        "a file for each."
    ),
    tab="record",
    # Who writes so may type so; one file of the kind may be an example.
    used_by=(Use(season, "short_files", above=1),),
    blocks=(
        TableBlock(
            notebook,
            (
                Group("Bought", ("product", "date", "count", "container", "price", "weighed")),
                Group("Into the dryer", ("prepped", "wet", "dryer", "started")),
                Group("Out of the dryer", (
                    "hours", "meter_from", "meter_to", "dry", "weighing_before", "weighing_last",
                )),
                Group("Packed", ("packed", "packed_in", "net")),
                Group("Known at once", ("dried_yield", "drying_ratio")),
                Group("Notes", ("note",)),
            ),
            spare=20,
        ),
        ListBlock("Waiting", ((season, ("notebook_waiting", "short_files")),)),
    ),
)  # fmt: skip
