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
                Group("Write down", ("run", "period", "kwh", "unlogged")),
                Group("Change of the clocks", ("clock_change", "changed", "clock_changed")),
                Group("Worked out", ("share", "cost")),
                Group("From the logs", ("hours", "remark")),
            ),
            spare=5,
            note=(
                "Filled where a run has a meter log, or the clocks were changed while it ran. A "
                "change counts while it lies between the run's start and end; a run that is moved "
                "into such a night here does not know of it: write it into its file."
            ),
        ),
        TableBlock(
            power,
            (Group("From the logs", ("run", "since", "watt"), printed=False),),
            heading="Power over time",
        ),
    ),
)
