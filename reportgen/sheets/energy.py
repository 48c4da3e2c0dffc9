"""Energy by period of the tariff, and the power over time of the runs that have a log."""

from reportgen.layout.blocks import Group, Sheet, TableBlock
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
                Group("From the logs", ("remark",)),
            ),
            spare=5,
            note="Filled where electricity has a price by time of use, or a run a meter log.",
        ),
        TableBlock(
            power,
            (Group("From the logs", ("run", "since", "watt"), printed=False),),
            heading="Power over time",
        ),
    ),
)  # fmt: skip
