"""Edits typed into the workbook, which another suite then saves: what was changed is found again,
whatever was renamed, moved or sorted besides."""

from __future__ import annotations

import json
import random
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType

import openpyxl
import pytest
from engines import gnumeric, libreoffice
from engines.cells import Value
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet
from thorough import some

from edits.desk import Desk, desk

Typed = dict[tuple[str, str], Value]
TEXTS: list[tuple[str, str | int, str, list[Value]]] = [
    ("lots", "pears-1", "weighed", [41.5, "39 lb 8 oz", "40,25", "~41", 40.123456789]),
    ("lots", "pears-1", "prepped_weighed", [29.5, None, "28 lb"]),
    ("lots", "pears-2", "finished", [True]),
    ("lots", "pears-2", "note", ["a: b # c", "two  blanks", "=", "'quoted'", "été 中"]),
    ("lots", "pears-2", "date", [45907.0, "2025-09-08"]),
    ("lots", "pears-2", "key", ["orchard-2"]),
    ("runs", "run-1", "started", [45905.8125]),
    ("runs", "run-1", "duration", [34.5, "31 h 30 min", 30.1]),
    ("runs", 1, "duration", [30.5, None]),
    ("runs", "run-1", "labor", [0.75, "40 min"]),
    ("packs", 1, "count", [4.0]),
    ("packs", "P-1", "net", [2.1, "0.13 lb"]),
    ("uses", 2, "weight", [1.75, "~2"]),
    ("uses", 1, "purpose", ["gift", "household"]),
    ("offers", "o-1", "price", [11.25]),
    ("offers", "o-1", "on_sale", [True]),
    ("parts", 1, "cost", [0.45]),
    ("dryers", "porch", "trays", [5.0]),
    ("rates", "rates", "electricity", [0.21, "0,22"]),
    ("pricing", "pricing", "margin", [0.3, "30 %"]),
    ("lots", "pears-1", "purchase_cost", [99.0]),
]

OVER_FORMULAS: Typed = {("Checks", "E12"): 9.0, ("Summary", "A3"): "fine"}
"""How often a check fails, and the verdict."""


def edits(at: Desk, seed: int) -> Typed:
    """Some of the changes above; a lot that is new, or one that is gone."""
    rng = random.Random(seed)
    found: Typed = dict(OVER_FORMULAS)
    for table, row, name, values in rng.sample(TEXTS, 7):
        if name == "started":
            continue
        found[at.at.cell(table, row, name)] = rng.choice(values)
    if seed % 2:
        new = {"key": "pears-3", "product": "pear-slices", "date": 45910.0, "weighed": 7.5}
        found |= {at.at.new("lots", name): value for name, value in new.items()}
    return found


def block(at: Desk, sheet: Worksheet, table: str) -> tuple[int, int]:
    """First and last row of a table's records, the first spare row included."""
    rows = [row for (name, _), (_, row) in at.at.rows.items() if name == table]
    return min(rows), max(rows) + 1


def sorted_rows(at: Desk, book: Workbook, rng: random.Random) -> None:
    for table in ("lots", "runs", "packs", "uses"):
        sheet = book[at.at.spare[table][0]]
        first, last = block(at, sheet, table)
        rows = [[c.value for c in sheet[row]] for row in range(first, last + 1)]
        rng.shuffle(rows)
        for row, values in enumerate(rows, first):
            for column, value in enumerate(values, 1):
                sheet.cell(row, column).value = value


def moved_columns(at: Desk, book: Workbook, rng: random.Random) -> None:
    for table in ("lots", "runs", "packs"):
        sheet = book[at.at.spare[table][0]]
        first, last = block(at, sheet, table)
        one, other = rng.sample(sorted(at.at.columns[table].values()), 2)
        for row in range(first - 2, last + 1):
            a, b = sheet.cell(row, one), sheet.cell(row, other)
            a.value, b.value = b.value, a.value
            a.number_format, b.number_format = b.number_format, a.number_format


def renamed_sheets(at: Desk, book: Workbook, rng: random.Random) -> None:
    for sheet in ("Lots", "Rates", "Stock"):
        old, new = sheet, rng.choice(["Mine", "L'été", "A, B"]) + f" {sheet[0]}"
        book[old].title = new
        for name in book.defined_names.values():
            quoted = "'" + new.replace("'", "''") + "'"
            name.attr_text = name.attr_text.replace(f"{old}!", f"{quoted}!")


def as_it_was(at: Desk, book: Workbook, rng: random.Random) -> None:
    """Nothing else is done."""


LAID_OUT: list[Callable[[Desk, Workbook, random.Random], None]] = [
    as_it_was, sorted_rows, moved_columns, renamed_sheets,
]  # fmt: skip
SETS = some(of=4, at_every_change=1)
AT_ONCE = 6
"""Workbooks that a suite saves in one call: more may take longer than a call is given."""


@dataclass
class Typists:
    """Workbooks into which somebody typed, and what ``compare`` says of each as it is."""

    at: Desk
    books: list[Path]
    wanted: list[list[tuple[str, ...]]]
    seeds: range

    def differing(self, suite: ModuleType, ending: str, folder: Path) -> list[str]:
        """Which of them say something else after a suite has saved them again."""
        wrong = []
        books = [
            saved
            for first in range(0, len(self.books), AT_ONCE)
            for saved in suite.saved_again(
                self.books[first : first + AT_ONCE], folder / str(first), ending
            )
        ]
        for seed, saved, wanted in zip(self.seeds, books, self.wanted, strict=True):
            self.at.book = saved
            found = changes(self.at)
            if found != wanted:
                other = sorted(set(found) ^ set(wanted))
                wrong.append(f"{seed} {LAID_OUT[seed % len(LAID_OUT)].__name__}: {other}")
        return wrong


def typed_into(folder: Path, seeds: range) -> Typists:
    """Workbooks, each edited and laid out in its own way."""
    at = desk(folder)
    plain, wanted, books = at.book, [], []
    for seed in seeds:
        at.book = plain
        at.type(edits(at, seed))
        wanted.append(changes(at))
        over = {(table, field) for kind, table, _, field, _ in wanted[-1] if kind == "overwritten"}
        assert over >= {("checks", "failing"), ("season", "verdict_of_all")}
        book = openpyxl.load_workbook(at.book)
        LAID_OUT[seed % len(LAID_OUT)](at, book, random.Random(seed))
        books.append(folder / f"{seed:03d}.xlsx")
        book.save(books[-1])
    return Typists(at, books, wanted, seeds)


@pytest.fixture(scope="module")
def edited(tmp_path_factory: pytest.TempPathFactory) -> Typists:
    return typed_into(tmp_path_factory.mktemp("edited"), range(SETS))


@pytest.mark.slow
@pytest.mark.parametrize("ending", ["xlsx", "ods"])
@pytest.mark.parametrize("suite", [libreoffice, gnumeric], ids=["LibreOffice", "Gnumeric"])
def test_what_was_changed_is_found_again(
    suite: ModuleType, ending: str, edited: Typists, tmp_path: Path
) -> None:
    assert edited.differing(suite, ending, tmp_path) == []


def changes(at: Desk) -> list[tuple[str, ...]]:
    """What was changed, wherever it now stands."""
    done = at.run("compare", "--json")
    assert done.exit_code in (0, 1), done.output
    found = []
    for each in json.loads(done.stdout)["changes"]:
        value = each["edited"]
        said = f"{value:.11g}" if isinstance(value, float | int) else str(value)
        found.append((each["kind"], each["table"], each["row"], each["field"], said))
    assert len(found) >= 3
    return sorted(found)
