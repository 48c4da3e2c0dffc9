"""The costing sheet as a book of its own: what a partner may change, and what follows from it.

A partner gets the lots, loads and packs of one product with what they cost; what would give away
wages, the home's electricity price or where produce was bought is taken as given, as amounts.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from functools import cache

from reportgen.algebra.book import Book, Key
from reportgen.algebra.numbers import Numbers
from reportgen.handout.costing_groups import FIGURES, PRICES, SURE, names
from reportgen.handout.part import part_of
from reportgen.trade import BOOK
from reportgen.trade.rows import of_book


def _keys(names: Mapping[str, str]) -> frozenset[Key]:
    return frozenset((table, name) for table, row in names.items() for name in row.split())


WANTED = _keys(
    {
        "products": " ".join(
            (
                "key",
                "name",
                "headline",
                "running_cost",
                "full_cost",
                "retail_lowest",
                "offers_count",
                *names(*FIGURES, SURE),
            )
        ),
        "prices": " ".join(("key", "packed", "running_each", "margin_kept", *names(*PRICES))),
        "lots": "date",
        "loads": "dryness_verdict evidence dryness_reason",
        "packs": "date dryness doubtful_sealed dryness_not_shown",
    }
)
"""What the sheet shows."""
_DRY = (
    "dryness_verdict evidence dryness_cause current speaks_against read_moist drifting has_reading "
    "too_coarse share_allowed active metered_moist"
)
"""What the verdict on dryness, its reason and its limit are put together from."""
_ALWAYS = _keys(
    {
        "products": "carried carried_running carried_full bulk_used bulk_missing crumbs spoiled "
        "kept_taken running_per_packed_u bulk_mixed mixes_made running_mixed full_mixed "
        "running_by_mixes full_by_mixes",
        "lots": "purchase_cost travel_cost prepped labor_shared",
        "loads": "key finished cost_upkeep cost_wear running_estimated run_share wet_by_lot "
        f"wet_again dry_passed_on dry_between dry_estimated gone {_DRY}",
        "runs": "energy_used",
        "packs": "taken missing opened mixes_named running_of_mixes full_of_mixes dryness "
        "doubtful_origin unshown_origin",
        "season": "overhead_by_weight",
    }
)
PRIVATE = _keys({"lots": "labor_cost", "loads": "cost_energy cost_labor", "packs": "labor_cost"})
"""Amounts whose rates and hours are left out, unless all is to be shown."""
_SOURCES = _keys({"lots": "source", "offers": "seller"})
_FIXED = _keys(
    {
        "products": "running_per_packed_u",
        "loads": "finished running_estimated wet_by_lot wet_again dry_passed_on dry_between "
        f"dry_estimated gone {_DRY}",
        "packs": "dryness doubtful_origin unshown_origin",
    }
)
"""Taken as given, and not to be typed over: nothing here would follow from them."""
_BY_PRODUCT = ("lots", "loads", "packs", "offers", "prices")
_USED_BY = {"containers": ("packs", "container"), "runs": ("loads", "run")}
"""Tables of which only the rows that some kept row names are kept."""


@cache
def partner_book(everything: bool = False) -> Book:
    """The book of the costing sheet. ``everything``: the private rates and hours too."""
    if everything:
        return part_of(BOOK, WANTED | _SOURCES, _ALWAYS, _FIXED)
    return part_of(BOOK, WANTED, _ALWAYS | PRIVATE, _FIXED)


def partner_numbers(numbers: Numbers, product: str, everything: bool = False) -> Numbers:
    """The numbers of one product in the partner's book: inputs and given values as they are, all
    else worked out again."""
    book = partner_book(everything)
    kept = _rows(numbers, book, product)
    tables = of_book(book)
    for name, table in book.tables.items():
        if name in tables:
            continue
        cells = numbers.cells[name]
        columns = [*table.inputs, *([] if "key" in table.definitions else ["key"])]
        rows = range(1) if table.single else kept[name]
        tables[name] = {
            column: [cells[column][row] for row in rows] if column in cells else [name]
            for column in columns
        }
    return Numbers(book, tables, numbers.slots)


def _rows(numbers: Numbers, book: Book, product: str) -> dict[str, list[int]]:
    """Which rows of the season's tables belong to the product."""
    cells = numbers.cells
    kept = {"products": _where(cells["products"]["key"], {product.casefold()})}
    for name in _BY_PRODUCT:
        kept[name] = _where(cells[name]["product"], {product.casefold()})
    for name, (child, link) in _USED_BY.items():
        named = {str(cells[child][link][row]).casefold() for row in kept[child]}
        kept[name] = _where(cells[name]["key"], named)
    containers = {str(cells["containers"]["key"][row]).casefold() for row in kept["containers"]}
    runs = {str(cells["runs"]["key"][row]).casefold() for row in kept["runs"]}
    kept["parts"] = _where(cells["parts"]["container"], containers)
    kept["run_energy"] = _where(cells["run_energy"]["run"], runs)
    kept["channels"] = [row for row, of in enumerate(cells["channels"]["of_stall"]) if of]
    for name in ("periods", "windows"):
        kept[name] = list(range(len(cells[name]["key"])))
    return {name: rows for name, rows in kept.items() if name in book.tables}


def _where(column: Sequence[object], ids: Collection[str]) -> list[int]:
    return [row for row, each in enumerate(column) if str(each).casefold() in ids]
