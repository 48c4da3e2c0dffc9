"""What the costing sheet of a product shows, and under which headings: page and workbook alike."""

from reportgen.sheets.cost import BEYOND, RUNNING

FIGURES = (
    ("Came out", ("dried", "packed_good", "carried", "bulk_used", "unpacked")),
    ("Cost by weight, packed", ("running_per_packed", "full_per_packed")),
    ("Against shops", ("retail_median", "running_to_retail", "full_to_retail", "saving")),
)
"""Of a product. The first two of each stand on the workbook's first sheet, the others behind it."""
SURE = ("How sure", ("running_per_packed_u", "estimated_share"))
"""On the page they are a sentence."""
FIRST = 2
PARTS = (
    ("Running cost", (*RUNNING, "running_cost")),
    ("Beyond the running cost", (*BEYOND, "full_cost")),
)
COST_PARTS = (*RUNNING, *BEYOND)
"""What the full cost of a product is made of, the running cost first."""
PRICES = (
    ("Packs", ("on_hand", "full_each")),
    ("Price", ("price_floor", "price_asked")),
    ("Against shops", ("retail_equivalent", "price_to_retail")),
)
"""Of a pack."""


def names(*groups: tuple[str, tuple[str, ...]]) -> tuple[str, ...]:
    """What stands under these headings, in order."""
    return tuple(name for _, under in groups for name in under)
