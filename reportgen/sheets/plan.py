"""What is still to be made."""

from reportgen.layout.blocks import Group, ListBlock, Sheet, TableBlock
from reportgen.trade.tables import plan, queue, season

PLAN = Sheet(
    name="Plan",
    purpose="What is still to be made: how much to buy, how many runs, until when, for how much.",
    tab="read",
    blocks=(
        TableBlock(
            plan,
            (
                Group(
                    "Write down",
                    (
                        "product", "container", "count", "net", "start", "dryer", "buy", "pace",
                    ),
                ),
                Group("On the shelf", ("on_shelf", "doubtful", "count_left", "dried_needed")),
                Group(
                    "To buy",
                    ("prepped_needed", "buy_weight", "buy_used", "container_weight", "buy_count"),
                ),
                Group(
                    "Runs",
                    (
                        "run_weight", "runs_needed", "machine_time", "hours_basis", "begin",
                        "finish",
                    ),
                ),
                Group("As long, as much", ("until", "at_most", "at_most_of", "at_most_weight")),
                Group("Closed days", ("closed_within",)),
                Group("Until it is gone", ("runs_fit", "runs_over", "weight_over", "earned_over")),
                Group("No more to be had", ("short", "count_short")),
                Group("Running", ("running_needed", "running_basis")),
                Group("To buy", ("buy_basis",), printed=False),
            ),
            spare=5,
        ),
        ListBlock("All rows", ((season, ("plan_start",)),)),
        TableBlock(
            queue,
            (Group("Row", ("row", "before")), Group("Time", ("in_its_way", "slack"))),
            heading="The queue: rows on one dryer follow each other by their start",
        ),
    ),
)  # fmt: skip
