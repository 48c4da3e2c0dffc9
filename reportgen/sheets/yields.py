"""Charts of the runs and loads: what came out, and what energy it took."""

from reportgen.layout.blocks import ChartBlock, ChartSpec, Sheet, Use
from reportgen.sheets.deciding import FEW
from reportgen.trade.tables import loads, power, runs

SHEET = Sheet(
    name="Yield and energy",
    purpose="What came out of each load, and the energy it took. An odd one is worth a look.",
    tab="read",
    aside=True,
    used_by=(Use(loads, "yield_drawn", above=FEW), Use(power, "watt")),
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
