"""The figures of a season given as its records, in the units of its tables."""

from __future__ import annotations

from typing import Any

from reportgen.algebra.numbers import Numbers, Value
from reportgen.model.season import slots_of
from reportgen.trade import BOOK
from reportgen.trade.rows import follow

Record = dict[str, Any]


class Figures:
    """``Figures(lots=[{"key": "a", "weighed": 12}])("lots", "as_purchased")``; weights in ``fresh``
    and ``dried``, time in hours, shares as fractions. What a record leaves out is unknown."""

    def __init__(self, fresh: str = "kg", dried: str = "kg", **tables: list[Record]) -> None:
        given = {*tables}
        tables.setdefault("channels", [{"key": "stall", "of_stall": True}, {"key": "co-op"}])
        cells: dict[str, dict[str, list[Value]]] = {}
        for name, table in BOOK.tables.items():
            records = tables.pop(name, [{}] if table.single else [])
            columns = {each: [record.get(each) for record in records] for each in table.inputs}
            if "key" not in table.definitions:
                columns["key"] = [r.get("key", str(n)) for n, r in enumerate(records, 1)]
            unknown = {each for record in records for each in record} - {*columns, "key"}
            assert not unknown, f"{name} has no {unknown}"
            cells[name] = columns
        assert not tables, f"there is no table {[*tables]}"
        cells |= {name: rows for name, rows in follow(BOOK, cells).items() if name not in given}
        self.numbers = Numbers(BOOK, cells, slots_of(fresh, dried, "USD"))

    def __call__(self, table: str, name: str, key: str | None = None) -> Value:
        cells = self.numbers.cells[table]
        return cells[name][0 if key is None else cells["key"].index(key)]


def dried(
    wet: float, dry: float, water: float, *, fresh: str = "kg", dried: str = "kg", **lot: Any
) -> Figures:
    """One lot of one product, dried in one run: weights before and after, and water before."""
    return Figures(
        fresh,
        dried,
        products=[{"key": "food", "water": water}],
        lots=[{"key": "lot", "product": "food", **lot}],
        runs=[{"key": "run"}],
        loads=[{"run": "run", "lot": "lot", "wet": wet, "dry": dry}],
    )
