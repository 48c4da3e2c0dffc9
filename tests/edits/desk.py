"""A season on a desk: its files, the workbook built from them, and somebody who types into it.

Cells are found from outside: by the marks in the workbook and the headings that its memory names.
"""

from __future__ import annotations

import json
import re
import shutil
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

import openpyxl
from click.testing import CliRunner, Result
from engines.cells import Value, sheet_parts
from engines.edit import typed
from openpyxl.utils import get_column_letter

from reportgen import program
from reportgen.cli import app

SETTINGS = """\
season: Alder Bend 2025           # a comment on the first line
currency: USD
as_of: 2025-11-30
units: {fresh: lb, dried: oz}
rates:
  electricity: 0.20 USD/kWh       # since March
  labor: 10 USD/h
dryers:
  - {id: porch, trays: 4, tray_area: 0.12 m2, mean_power: 700 W, price: 2000 USD, life: 500 run}
containers:
  - {id: jar, volume: 946 mL, parts: {lid: 0.40 USD, jar: {cost: 1.80 USD, uses: 20}}}
  - {id: tin, volume: 3236 mL, parts: {can: 2.45 USD}}     # named by nothing
offers:
  - {id: o-1, product: pear-slices, date: 2025-08-01, net: 4 oz, price: 10 USD}
"""

LISTS = """\
# Two lots, of which the second was only bought.
lots:
  - id: pears-1
    product: pear-slices
    date: 2025-09-05
    price: 30 USD
    weighed: 40 lb                # on the kitchen scale
    prepped: 30 lb
  - {id: pears-2, product: pear-slices, date: 2025-09-06, price: 12 USD, weighed: 9 lb}
runs:
  - id: run-1
    started: 2025-09-05 18:00
    duration: 30 h
    energy: 20 kWh
    loads: [{lot: pears-1, wet: 10 lb, dry: 26 oz}]
packs:
  - {id: P-1, product: pear-slices, date: 2025-09-10, container: jar, count: 5, net: 2 oz,
     from: [run-1]}
uses:
  - {date: 2025-09-20, pack: P-1, count: 1, for: stall}     # the first
  - {date: 2025-09-21, product: pear-slices, weight: 1.5 oz, for: crumbs}
counts:
  - {date: 2025-09-30, pack: P-1, counted: 3}     # two should be in the cellar
"""

SHORT = """\
# One day's work.
product: apple-rings
bought: 2 box at 15 USD
prepped: 30 lb
wet: [9 lb, 9.5 lb]
run: {started: "19:15", duration: 31 h, energy: 19 kWh}   # overnight
dry: 40 oz
packed: [3 jar of 2 oz]
"""
LIST_FILE, SHORT_FILE, SEASON_FILE = (
    "batches/pears.yaml",
    "batches/2025-09-12-apples.yaml",
    "season.yaml",
)


@dataclass
class Places:
    """Where things stand in a workbook as it was built."""

    rows: dict[tuple[str, int], tuple[str, int]] = field(default_factory=dict)
    spare: dict[str, tuple[str, int]] = field(default_factory=dict)
    columns: dict[str, dict[str, int]] = field(default_factory=dict)
    single: dict[tuple[str, str], tuple[str, str]] = field(default_factory=dict)
    numbers: dict[tuple[str, str], int] = field(default_factory=dict)

    def cell(self, table: str, row: str | int, name: str) -> tuple[str, str]:
        """The sheet and cell of an input, by the record's id or number."""
        if (table, name) in self.single:
            return self.single[table, name]
        number = self.numbers[table, row] if isinstance(row, str) else row
        sheet, at = self.rows[table, number]
        return sheet, f"{get_column_letter(self.columns[table][name])}{at}"

    def new(self, table: str, name: str) -> tuple[str, str]:
        """The cell of an input in the first spare row of a table."""
        sheet, at = self.spare[table]
        return sheet, f"{get_column_letter(self.columns[table][name])}{at}"


@dataclass
class Desk:
    """A season's folder with the workbook that was built from it."""

    folder: Path
    book: Path
    at: Places

    def type(self, contents: Mapping[tuple[str, str], Value]) -> None:
        """Type into cells; None empties one."""
        out = self.book.with_name("typed-" + self.book.name)
        self.book = typed(self.book, contents, out)

    def formula(self, sheet: str, ref: str, formula: str, gives: float) -> None:
        """Type a formula, whose value is stored with it."""
        self.type({(sheet, ref): gives})
        out = self.book.with_name("formula-" + self.book.name)
        with zipfile.ZipFile(self.book) as source, zipfile.ZipFile(out, "w") as target:
            part = next(p for p, name in _parts(source) if name == sheet)
            for name in source.namelist():
                data = source.read(name)
                if name == part:
                    data, times = re.subn(
                        rf'(<c r="{ref}"[^>]*>)<v>'.encode(),
                        rf"\1<f>{formula}</f><v>".encode(),
                        data,
                    )
                    assert times == 1
                target.writestr(name, data)
        self.book = out

    def clear(self, table: str, row: str | int) -> None:
        """Empty what was typed into a row."""
        number = self.at.numbers[table, row] if isinstance(row, str) else row
        sheet, at = self.at.rows[table, number]
        inputs = [*program.BOOK.tables[table].inputs, "key"]
        self.type(
            {
                (sheet, f"{get_column_letter(column)}{at}"): None
                for name, column in self.at.columns[table].items()
                if name in inputs
            }
        )

    def write(self, file: str, old: str, new: str) -> None:
        """Change a file as its maker does."""
        path = self.folder / file
        text = path.read_text("utf-8")
        assert text.count(old) == 1, old
        path.write_text(text.replace(old, new), "utf-8")

    def texts(self) -> dict[str, str]:
        """The season's files as they are."""
        return {
            each.relative_to(self.folder).as_posix(): each.read_bytes().decode("utf-8")
            for each in sorted(self.folder.rglob("*.yaml"))
        }

    def run(self, command: str, *options: str) -> Result:
        """``compare`` or ``take`` of the workbook as it is now."""
        return CliRunner().invoke(app, [command, str(self.folder), str(self.book), *options])

    def compare(self, *options: str, exit_code: int = 0) -> list[dict[str, object]]:
        """What ``compare --json`` says was changed."""
        done = self.run("compare", "--json", *options)
        assert done.exit_code == exit_code, done.output
        return list(json.loads(done.stdout)["changes"])

    def kinds(self, exit_code: int = 0) -> list[str]:
        """The kinds of all changes."""
        return [str(each["kind"]) for each in self.compare(exit_code=exit_code)]


def write_season(folder: Path) -> Path:
    """The season of these tests."""
    made = folder / "alder"
    for name, text in ((SEASON_FILE, SETTINGS), (LIST_FILE, LISTS), (SHORT_FILE, SHORT)):
        (made / name).parent.mkdir(parents=True, exist_ok=True)
        (made / name).write_text(text, "utf-8")
    return made


def desk(folder: Path, season: Path | None = None) -> Desk:
    """A desk of one's own; the season is copied to it."""
    made = write_season(folder) if season is None else folder / season.name
    if season is not None:
        shutil.copytree(season, made)
    data = _built(tuple((n, (made / n).read_bytes()) for n in _names(made)), str(made.name))
    book = folder / "book.xlsx"
    book.write_bytes(data)
    return Desk(made, book, _places(data))


def _parts(source: zipfile.ZipFile) -> list[tuple[str, str]]:
    return [(part, sheet) for sheet, part in sheet_parts(source)]


def _names(folder: Path) -> list[str]:
    return sorted(
        each.relative_to(folder).as_posix() for each in folder.rglob("*") if each.is_file()
    )


@cache
def _built(files: tuple[tuple[str, bytes], ...], name: str) -> bytes:
    import tempfile

    with tempfile.TemporaryDirectory() as beside:
        for file, data in files:
            path = Path(beside) / name / file
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        data, problems = program.build(Path(beside) / name)
    assert data is not None, problems
    return data


@cache
def _places(data: bytes) -> Places:
    import io

    book = openpyxl.load_workbook(io.BytesIO(data))
    found = Places()
    memory = book["Memory"]
    told = "".join(str(each.value) for each in memory[2] if each.value is not None)
    headings, cells = json.loads(told)[3:5]
    for row in range(3, memory.max_row):
        table, number, key, *_ = json.loads("".join(str(c.value) for c in memory[row] if c.value))
        found.numbers[table, key] = number
    for sheet in book:
        for row, what, table in _marks(sheet):
            if what == "0":
                labels = {str(c.value): c.column for c in reversed(sheet[row]) if c.value}
                found.columns[table] = {name: labels[label] for name, label, _ in headings[table]}
                found.spare[table] = sheet.title, row + 2
            elif what != "end":
                found.rows[table, int(what)] = sheet.title, row
                found.spare[table] = sheet.title, row + 1
    for defined, (table, name, *_) in cells.items():
        sheet, _, cell = book.defined_names[defined].attr_text.rpartition("!")
        found.single[table, name] = sheet.strip("'"), cell.replace("$", "")
    return found


def _marks(sheet: openpyxl.worksheet.worksheet.Worksheet) -> Iterator[tuple[int, str, str]]:
    for row in sheet.iter_rows():
        for cell in row:
            if isinstance(cell.value, str) and (
                m := re.fullmatch(r"([a-z_]+)/(\d+|end)", cell.value)
            ):
                yield cell.row, m[2], m[1]
