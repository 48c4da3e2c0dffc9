"""Charts of the runs and loads: what came out, and what energy it took."""

from reportgen.layout.blocks import ChartBlock, ChartSpec, Sheet
from reportgen.trade.tables import loads, power, runs

SHEET = Sheet(
    name="Yield and energy",
    purpose="What came out of each load, and the energy it took. An odd one is worth a look.",
    tab="read",
    blocks=(
        ChartBlock((
            ChartSpec(
                "column", "Dried weight from wet, load by load", loads, ("yield_drawn",), "key",
                "dried yield",
            ),
            ChartSpec(
                "column", "Energy by water removed, run by run", runs, ("energy_drawn",),
                "key", "energy by water",
            ),
            ChartSpec(
                "curve", "Power over time, run by run", power, ("watt",), "since", "mean power",
                curves="run",
            ),
        )),
    ),
)  # fmt: skip
