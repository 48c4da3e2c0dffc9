"""Energy: by period of the tariff, and the power over time of the runs that have a log."""

from reportgen.sheets.blocks import ChartBlock, ChartSpec, Group, Sheet, TableBlock
from reportgen.trade.tables import power, run_energy

SHEET = Sheet(
    name="Energy",
    purpose="What runs took in each period of the tariff, and their power over time.",
    tab="record",
    blocks=(
        TableBlock(
            run_energy,
            (
                Group("Write down", ("run", "period", "hours", "kwh", "unlogged")),
                Group("Worked out", ("share", "cost")),
            ),
            spare=5,
        ),
        ChartBlock(
            (
                ChartSpec(
                    "curve", "Power over time, run by run", power, ("watt",), "since",
                    "mean power", curves="run", width=13.0,
                ),
            )
        ),
        TableBlock(
            power,
            (Group("From the logs", ("run", "since", "watt")),),
            heading="Power over time",
        ),
    ),
)  # fmt: skip
