"""IronCalc, a second engine that shares no code with LibreOffice or with the program."""

from __future__ import annotations

from collections.abc import Mapping
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
def _number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


@cache
def _column(number: int) -> str:
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


class Opened:
    """A workbook that stays open: it is recalculated, typed into, and recalculated again."""

    def __init__(self, path: Path) -> None:
        engine = _engine()
        if engine is None:
            missing("ironcalc", "Run: pip install ironcalc")
        self._model = engine.load_from_xlsx(str(path), "en", "UTC", "en")
        self._fault = engine.CellType.ErrorValue
        self._names = [sheet["name"] for sheet in self._model.get_worksheets_properties()]

    def enter(self, contents: Mapping[Place, Value]) -> None:
        """Put constants into cells; None empties one."""
        for (sheet, ref), value in contents.items():
            letters = ref.rstrip("0123456789")
            at = self._names.index(sheet), int(ref[len(letters) :]), _number(letters)
            if value is None:
                self._model.clear_cell_contents(*at)
            elif isinstance(value, str):
                self._model.update_cell_with_text(*at, value)
            else:
                self._model.update_cell_with_number(*at, float(value))

    def remove(self, sheet: str, first: int, rows: int) -> None:
        """Take rows out of a sheet."""
        self._model.delete_rows(self._names.index(sheet), first, rows)

    def values(self) -> dict[Place, Value]:
        """Every cell's value after the engine has worked out all formulas from nothing."""
        model = self._model
        model.evaluate()
        found: dict[Place, Value] = {}
        for sheet, row, column in model.get_all_cells():
            value = model.get_cell_value(sheet, row, column)
            if value is None:
                continue
            if isinstance(value, str) and value[:1] == "#":
                is_fault = model.get_cell_type(sheet, row, column) == self._fault
                value = Fault(value) if is_fault else value
            found[self._names[sheet], f"{_column(column)}{row}"] = value
        return found


def recalculate(path: Path) -> dict[Place, Value]:
    """Every cell's value of a workbook, worked out from nothing."""
    return Opened(path).values()
