"""IronCalc, a second engine that shares no code with LibreOffice or with the program."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from types import ModuleType

from engines.cells import Fault, Place, Value
from engines.need import missing


@cache
def _engine() -> ModuleType | None:
    try:
        import ironcalc
    except ImportError:
        return None
    return ironcalc


@cache
def _column(number: int) -> str:
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def recalculate(path: Path) -> dict[Place, Value]:
    """Every cell's value after the engine has worked out all formulas from nothing."""
    engine = _engine()
    if engine is None:
        missing("ironcalc", "Run: pip install ironcalc")
    model = engine.load_from_xlsx(str(path), "en", "UTC", "en")
    model.evaluate()
    names = [sheet["name"] for sheet in model.get_worksheets_properties()]
    fault = engine.CellType.ErrorValue
    found: dict[Place, Value] = {}
    for sheet, row, column in model.get_all_cells():
        value = model.get_cell_value(sheet, row, column)
        if value is None:
            continue
        if isinstance(value, str) and value[:1] == "#":
            is_fault = model.get_cell_type(sheet, row, column) == fault
            value = Fault(value) if is_fault else value
        found[names[sheet], f"{_column(column)}{row}"] = value
    return found
