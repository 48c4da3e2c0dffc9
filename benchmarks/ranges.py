"""How many cells the formulas of a season's workbook read through ranges.

    python benchmarks/ranges.py [--runs 2500] [--most 15]

To reach, at 2,500 runs: at most 20 million under SUMPRODUCT and its like, at most 110 million under
MATCH and COUNTIF. An IF reads its condition and the branch that is taken; which one that is follows
from the values in the workbook where the condition asks for cells, and where it does not, both
branches count. An engine that remembers what it has looked up reads less.
"""

from __future__ import annotations

import argparse
import re
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from benchmarks import large
from reportgen import program
from reportgen.algebra.places import at_row
from reportgen.layout.compose import compose
from reportgen.layout.page import Workbook
from reportgen.sheets.all import SHEETS, contents

_TOKEN = re.compile(
    r"""(?P<text>"(?:[^"]|"")*")|(?P<number>\d+(?:\.\d+)?)|(?P<call>[A-Z][A-Z0-9.]*)\(
    |(?:(?P<sheet>'[^']+'|[A-Za-z]+)!)?\$?(?P<column>[A-Z]+)\$?(?P<row>\d+)
     (?::\$?(?P<column2>[A-Z]+)\$?(?P<row2>\d+))?
    |(?P<sign><=|>=|<>|[-+*/&=<>(),])""",
    re.X,
)
_LOOKED_UP, _WHOLE = ("MATCH", "COUNTIF"), "SUMPRODUCT and its like"
_UNKNOWN, _NOWHERE = object(), object()
"""What only an engine could tell; what is an error, as a look-up that found no row."""


class Sheets:
    """The values of a workbook's cells."""

    def __init__(self, book: Workbook) -> None:
        self.cells: dict[tuple[str, int, int], Any] = {}
        self._places: dict[Any, dict[Any, float]] = {}
        for page in book.pages:
            for band in page.bands:
                for strip in band.strips:
                    for offset, value in enumerate(strip.values):
                        self.cells[page.name, strip.column, band.first + offset] = value

    def place(self, sought: Any, span: Any) -> Any:
        """Where in a range of a column a value stands first, from 1."""
        if span not in self._places:
            sheet, column, row, rows = span
            values = (self.cells.get((sheet, column, row + at)) for at in range(rows))
            found = ((_folded(value), float(at)) for at, value in enumerate(values, 1))
            self._places[span] = dict(reversed(list(found)))
        return self._places[span].get(_folded(sought), _NOWHERE)


class Reader:
    """Reads one formula as a sheet would, and counts the cells of ranges."""

    def __init__(self, sheets: Sheets, sheet: str) -> None:
        self.sheets, self.sheet = sheets, sheet
        self.read: Counter[str] = Counter()

    def formula(self, text: str) -> None:
        """Count what a formula reads."""
        self.tokens = list(_TOKEN.finditer(text))
        self.at, self.off = 0, 0
        self._compared("")

    # --- a grammar of formulas, by falling precedence -------------------------------------------

    def _sign(self) -> str:
        return self.tokens[self.at]["sign"] or "" if self.at < len(self.tokens) else ""

    def _compared(self, within: str) -> Any:
        left = self._added(within)
        while self._sign() in ("=", "<>", "<", ">", "<=", ">="):
            sign = self._take()
            left = _comparison(sign, left, self._added(within))
        return left

    def _added(self, within: str) -> Any:
        left = self._multiplied(within)
        while self._sign() in ("+", "-", "&"):
            sign = self._take()
            left = _sum(sign, left, self._multiplied(within))
        return left

    def _multiplied(self, within: str) -> Any:
        left = self._single(within)
        while self._sign() in ("*", "/"):
            sign = self._take()
            left = _product(sign, left, self._single(within))
        return left

    def _take(self) -> str:
        self.at += 1
        return self.tokens[self.at - 1][0]

    def _single(self, within: str) -> Any:
        token = self.tokens[self.at]
        self.at += 1
        if token["text"]:
            return token[0][1:-1]
        if token["number"]:
            return float(token[0])
        if token["call"]:
            return self._call(token["call"], within)
        if token["column"]:
            return self._reference(token, within)
        if token[0] == "(":
            value = self._compared(within)
            self.at += 1
            return value
        value = self._single(within)
        return -value if isinstance(value, float) and token[0] == "-" else _UNKNOWN

    def _reference(self, token: re.Match[str], within: str) -> Any:
        sheet = (token["sheet"] or self.sheet).strip("'")
        column, row = _number(token["column"]), int(token["row"])
        if token["row2"] is None:
            return self._cell(sheet, column, row)
        rows = int(token["row2"]) - row + 1
        if within not in ("INDEX", "ROW", "ROWS") and not self.off:
            kind = "MATCH and COUNTIF" if within in _LOOKED_UP else _WHOLE
            self.read[kind] += rows
        return (sheet, column, row, rows)

    def _cell(self, sheet: str, column: int, row: int) -> Any:
        value = self.sheets.cells.get((sheet, column, row))
        return "" if value is None else float(value) if not isinstance(value, str) else value

    def _call(self, name: str, within: str) -> Any:
        if name == "IF":
            return self._if(within)
        values = []
        while self._sign() != ")":
            values.append(self._compared(name if name not in ("ABS", "COUNT") else within or name))
            if self._sign() == ",":
                self.at += 1
        self.at += 1
        return self._result(name, values)

    def _if(self, within: str) -> Any:
        test = self._compared(within)
        found = []
        for branch in (True, False):
            self.at += 1  # the comma
            skipped = test is not _UNKNOWN and _holds(test) is not branch
            self.off += skipped
            value = self._compared(within)
            self.off -= skipped
            if not skipped:
                found.append(value)
        self.at += 1
        return found[0] if len(found) == 1 else _UNKNOWN

    def _result(self, name: str, values: Sequence[Any]) -> Any:
        simple = all(v is not _UNKNOWN and not isinstance(v, tuple) for v in values)
        numbers = [v for v in values if isinstance(v, float)]
        match name:
            case "COUNT" if simple:
                return float(len(numbers))
            case "SUM" if simple:
                return sum(numbers, 0.0)
            case "MAX" if simple:
                return max(numbers, default=0.0)
            case "MATCH" if isinstance(values[0], str | float) and isinstance(values[1], tuple):
                return self.sheets.place(values[0], values[1])
            case "ROWS" if isinstance(values[0], tuple):
                return float(values[0][3])
            case "INDEX" if isinstance(values[1], float):
                sheet, column, row, _ = values[0]
                return self._cell(sheet, column, row + int(values[1]) - 1)
        return _UNKNOWN


def _folded(value: Any) -> Any:
    return value.casefold() if isinstance(value, str) else value


def _number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number


def _holds(value: Any) -> bool:
    return bool(value) if isinstance(value, float) else value != ""


def _comparison(sign: str, left: Any, right: Any) -> Any:
    if not all(isinstance(each, str | float) for each in (left, right)):
        return _UNKNOWN
    if isinstance(left, str) is not isinstance(right, str):
        # Nothing equals a number but a number, and a text is above each.
        true = (">", ">=", "<>") if isinstance(left, str) else ("<", "<=", "<>")
        return float(sign in true)
    if isinstance(left, str):
        left, right = left.casefold(), right.casefold()
    return float({"=": left == right, "<>": left != right, "<": left < right, ">": left > right,
                  "<=": left <= right, ">=": left >= right}[sign])  # fmt: skip


def _sum(sign: str, left: Any, right: Any) -> Any:
    if not (isinstance(left, float) and isinstance(right, float)) or sign == "&":
        return _UNKNOWN
    return left + right if sign == "+" else left - right


def _product(sign: str, left: Any, right: Any) -> Any:
    if sign == "*" and 0.0 in [each for each in (left, right) if isinstance(each, float)]:
        return 0.0
    if not (isinstance(left, float) and isinstance(right, float)):
        return _UNKNOWN
    if sign == "/":
        return left / right if right else _NOWHERE
    return left * right


def counted(book: Workbook) -> Iterator[tuple[str, str, str, int]]:
    """Sheet, heading and kind of function, and how many cells the column reads by it."""
    sheets = Sheets(book)
    for page in book.pages:
        heads: dict[int, str] = {}
        for band in page.bands:
            for strip in band.strips:
                if strip.style.role == "header":
                    heads[strip.column] = str(strip.values[0])
                if strip.formula is None or ":" not in strip.formula:
                    continue
                reader = Reader(sheets, page.name)
                for offset in range(band.rows):
                    reader.formula(at_row(strip.formula, band.first + offset))
                for kind, cells in reader.read.items():
                    yield page.name, heads.get(strip.column, ""), kind, cells


def main() -> None:
    """Print the sums, and the columns that read most."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    words.add_argument("--runs", type=int, default=2500)
    words.add_argument("--most", type=int, default=15, help="columns to name")
    asked = words.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        read = program.read(large.write(Path(folder) / "season", asked.runs))
    assert read.season is not None and read.numbers is not None, read.problems
    book = compose(contents(SHEETS, read.numbers), read.numbers, read.season.name, "en", "a4")
    found = sorted(counted(book), key=lambda each: -each[3])
    for kind in dict.fromkeys(kind for _, _, kind, _ in found):
        cells = sum(cells for _, _, each, cells in found if each == kind)
        print(f"{asked.runs:,} runs: {cells / 1e6:,.1f} million cells under {kind}")
    for sheet, head, kind, cells in found[: asked.most]:
        print(f"  {cells / 1e6:8.1f}  {sheet}: {head} ({kind})")


if __name__ == "__main__":
    main()
