"""The trace, both ways: from packs back to lots, and from lots to packs."""

from reportgen.layout.blocks import Group, Sheet, TableBlock, Use
from reportgen.trade.tables import market_packs, pricing, recall, trace, uses

_OUT_OF_THE_HOUSE = (Use(uses, "went_out"), Use(market_packs, "gone"), Use(pricing, "stall"))

TRACE = Sheet(
    name="Trace",
    purpose="From each pack back to its loads, runs, lots and sources.",
    tab="record",
    used_by=_OUT_OF_THE_HOUSE,
    blocks=(
        TableBlock(
            trace,
            (
                Group("Pack", ("pack", "packed", "on_hand", "pack_dryness")),
                Group("Through a mix", ("mix", "part_called")),
                Group("Came from", ("load", "run", "lot", "bought", "source")),
            ),
        ),
    ),
)


RECALL = Sheet(
    name="Recall",
    purpose="From each lot to its packs: what to look for if a lot must come back.",
    tab="record",
    used_by=_OUT_OF_THE_HOUSE,
    blocks=(
        TableBlock(
            recall,
            (
                Group("Lot", ("lot", "bought", "source")),
                Group("Is in", ("pack", "packed", "filled", "taken", "on_hand", "pack_dryness")),
                Group("Where others are", ("gone_at_markets", "opened", "missing"), quiet=True),
            ),
        ),
    ),
)
