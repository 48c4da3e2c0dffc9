"""Workbooks made to do harm: refused or ignored with a sentence, soon, in little memory; nothing
outside of the season's own files is opened or written."""

from __future__ import annotations

import hashlib
import io
import json
import os
import subprocess
import sys
import zipfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

import openpyxl
import pytest
from engines.cells import Value
from thorough import every

from edits.desk import LIST_FILE, Desk, desk

pytestmark = pytest.mark.slow

TESTS = Path(__file__).parents[1]
SECONDS, MEGABYTES = 5.0, 300
"""Of the processor, since the machine may be busy with other things; and of memory."""
_WORKER = """
import json, sys, time, warnings
from click.testing import CliRunner
from memory import forget, peak
from reportgen.cli import app
for line in sys.stdin:
    forget()
    begun = time.process_time()
    done = CliRunner().invoke(app, json.loads(line))
    took, most = time.process_time() - begun, peak()
    odd = done.exception is not None and not isinstance(done.exception, SystemExit)
    said = [3 if odd else done.exit_code, done.output + (repr(done.exception) if odd else "")]
    print(json.dumps([took, most, *said]), flush=True)
"""


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    return desk(tmp_path)


class Worker:
    """A process of its own that is given commands, one after the other."""

    def __init__(self) -> None:
        path = os.pathsep.join((str(TESTS.parent), str(TESTS)))
        self._process = subprocess.Popen(
            [sys.executable, "-c", _WORKER], env={**os.environ, "PYTHONPATH": path}, text=True,
            stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        )  # fmt: skip

    def run(self, *words: str) -> tuple[float, int, int, str]:
        """Seconds of the processor, megabytes at the most, exit code and what was said."""
        assert self._process.stdin is not None and self._process.stdout is not None
        self._process.stdin.write(json.dumps(words) + "\n")
        self._process.stdin.flush()
        took, most, code, said = json.loads(self._process.stdout.readline())
        return took, most, code, said


@cache
def worker() -> Worker:
    """One for all workbooks: what each of them takes is measured by itself."""
    return Worker()


def run(at: Desk, command: str = "take") -> tuple[int, str]:
    """The command in the other process, held to its time and its memory."""
    took, most, code, said = worker().run(command, str(at.folder), str(at.book))
    assert took < SECONDS, (took, said)
    assert most < MEGABYTES, (most, said)
    return code, said


def parts(at: Desk) -> dict[str, bytes]:
    with zipfile.ZipFile(at.book) as book:
        return {name: book.read(name) for name in book.namelist()}


def pack(at: Desk, made: dict[str, bytes]) -> None:
    at.book = at.book.with_name("hostile.xlsx")
    with zipfile.ZipFile(at.book, "w", zipfile.ZIP_DEFLATED) as book:
        for name, data in made.items():
            book.writestr(name, data)


def part_of(at: Desk, sheet: str) -> str:
    from engines.cells import sheet_parts

    with zipfile.ZipFile(at.book) as book:
        return next(part for name, part in sheet_parts(book) if name == sheet)


def refused(at: Desk, said: str, *, heavy: bool = False) -> None:
    """Refused with a sentence; ``heavy``: held to its time and its memory."""
    before = at.texts()
    if heavy:
        code, output = run(at)
    else:
        done = at.run("take")
        code, output = done.exit_code, done.output
    assert code == 1 and said in output, output
    assert at.texts() == before


def ignored(at: Desk) -> None:
    before = at.texts()
    code, output = run(at, "compare")
    assert code == 0 and "Nothing was changed" in output, output
    assert at.texts() == before


# --- the file -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "data",
    [
        b"", b"PK", b"%PDF-1.7\n", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(2000),
        b"season: x\n", b"\x89PNG\r\n\x1a\n" + bytes(500),
    ],
    ids=["empty", "two letters", "a PDF", "an older workbook", "YAML", "a picture"],
)  # fmt: skip
def test_what_is_no_workbook(at: Desk, data: bytes) -> None:
    at.book.write_bytes(data)
    refused(at, "this is no workbook")


def test_an_archive_of_something_else(at: Desk) -> None:
    pack(at, {"word/document.xml": b"<a/>", "photo.jpg": bytes(100)})
    refused(at, "this is no workbook")


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9, 0.999])
def test_a_truncated_archive(at: Desk, share: float) -> None:
    data = at.book.read_bytes()
    at.book.write_bytes(data[: int(len(data) * share)])
    refused(at, "this is no workbook, or a damaged one")


def test_bytes_changed_inside(at: Desk) -> None:
    data = bytearray(at.book.read_bytes())
    for position in range(4000, len(data) // 2, 997):
        data[position] ^= 0x5A
    at.book.write_bytes(bytes(data))
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 1 and "expected" in done.output
    assert at.texts() == before


def test_a_folder_or_nothing_in_its_place(at: Desk, tmp_path: Path) -> None:
    at.book = tmp_path
    assert at.run("take").exit_code == 2
    at.book = tmp_path / "none.xlsx"
    assert at.run("take").exit_code == 2


def test_a_part_that_unpacks_to_very_much(at: Desk) -> None:
    pack(at, {**parts(at), part_of(at, "Lots"): b" " * 400_000_000})
    refused(at, "packed too tightly", heavy=True)


def test_a_part_that_says_it_is_small(at: Desk) -> None:
    """The sizes in the archive's own list are lies: 400 MB are said to be 1,000 bytes."""
    made, name = parts(at), part_of(at, "Lots")
    pack(at, {**made, name: b"<worksheet>" + b" " * 400_000_000})
    data = bytearray(at.book.read_bytes())
    real = (400_000_011).to_bytes(4, "little")
    assert real in data
    at.book.write_bytes(bytes(data.replace(real, (1000).to_bytes(4, "little"))))
    refused(at, "damaged", heavy=True)


LAUGHS = (
    '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "ha">'
    + "".join(
        f'<!ENTITY {b} "{f"&{a};" * 10}">' for a, b in zip("abcdefgh", "bcdefghi", strict=True)
    )
    + "]><x>&i;</x>"
).encode()
OUTSIDE = b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]><x>&a;</x>'


@pytest.mark.parametrize("data", [LAUGHS, OUTSIDE], ids=["billion laughs", "an outside entity"])
@pytest.mark.parametrize(
    "name", ["xl/workbook.xml", "xl/sharedStrings.xml", "_rels/.rels", "a sheet"]
)
def test_entities(at: Desk, data: bytes, name: str) -> None:
    pack(at, {**parts(at), part_of(at, "Lots") if name == "a sheet" else name: data})
    refused(at, "declares entities", heavy=True)


def test_very_many_parts(at: Desk) -> None:
    pack(at, {**parts(at), **{f"xl/media/{n}.png": b"" for n in range(6000)}})
    refused(at, "more than 5,000 parts")


def test_a_part_that_stands_twice(at: Desk) -> None:
    with zipfile.ZipFile(at.book, "a") as book, pytest.warns(UserWarning):
        book.writestr("xl/workbook.xml", b"<workbook/>")
    refused(at, "stands in it twice")


def test_very_deep_elements(at: Desk) -> None:
    deep = b"<worksheet>" + b"<a>" * 100_000 + b"</a>" * 100_000 + b"</worksheet>"
    pack(at, {**parts(at), part_of(at, "Lots"): deep})
    refused(at, "nested too deeply", heavy=True)


def test_a_sheet_that_leads_out_of_the_archive(at: Desk, tmp_path: Path) -> None:
    made = parts(at)
    name = "xl/_rels/workbook.xml.rels"
    target = part_of(at, "Lots").removeprefix("xl/").encode()
    out = b"../../../../../../etc/passwd"
    assert target in made[name] or b"/xl/" + target in made[name]
    made[name] = made[name].replace(b"/xl/" + target, out).replace(target, out)
    pack(at, made)
    refused(at, "etc/passwd is missing")


def test_macros_links_and_embedded_things_are_passed_over(at: Desk) -> None:
    made = parts(at)
    made["xl/vbaProject.bin"] = b"\xd0\xcf\x11\xe0" + bytes(1000)
    made["xl/externalLinks/externalLink1.xml"] = LAUGHS
    made["customXml/item1.xml"] = OUTSIDE
    rels = made["xl/_rels/workbook.xml.rels"]
    kind = b"http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
    made["xl/_rels/workbook.xml.rels"] = rels.replace(
        b"</Relationships>",
        b'<Relationship Id="x1" Type="' + kind + b'externalLink" '
        b'Target="externalLinks/externalLink1.xml"/>'
        b'<Relationship Id="x2" Type="' + kind + b'worksheet" TargetMode="External" '
        b'Target="http://192.0.2.1/sheet.xml"/></Relationships>',
    )
    pack(at, made)
    ignored(at)


# --- the cells ----------------------------------------------------------------------------


def with_rows(at: Desk, sheet: str, rows: bytes) -> None:
    made, name = parts(at), part_of(at, sheet)
    assert made[name].count(b"</sheetData>") == 1
    pack(at, {**made, name: made[name].replace(b"</sheetData>", rows + b"</sheetData>")})


def test_one_cell_in_the_farthest_corner(at: Desk) -> None:
    with_rows(at, "Lots", b'<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>')
    ignored(at)


def test_a_cell_beyond_the_last_column(at: Desk) -> None:
    with_rows(at, "Lots", b'<row r="9000"><c r="XFE9000"><v>1</v></c></row>')
    refused(at, "beyond the last column")


def test_rows_with_a_cell_in_the_last_column(at: Desk) -> None:
    """Room for some twenty million cells is made, and no more."""
    rows = b"".join(b'<row r="%d"><c r="XFD%d"><v>1</v></c></row>' % (n, n)
                    for n in range(5_000, 9_000))  # fmt: skip
    with_rows(at, "Lots", rows)
    refused(at, "cells", heavy=True)


def test_a_cell_behind_two_thousand_million_empty_ones(at: Desk) -> None:
    """In the other format an empty cell may say how many it stands for."""
    space = "urn:oasis:names:tc:opendocument:xmlns"
    cells = ('<t:table-cell t:number-columns-repeated="2000000000"/>'
             '<t:table-cell o:value-type="float" o:value="1"/>')  # fmt: skip
    content = (
        f'<o:document-content xmlns:o="{space}:office:1.0" xmlns:t="{space}:table:1.0">'
        f'<o:body><o:spreadsheet><t:table t:name="Lots"><t:table-row>{cells}</t:table-row>'
        "</t:table></o:spreadsheet></o:body></o:document-content>"
    )
    pack(at, {"content.xml": content.encode()})
    refused(at, "beyond the last column", heavy=True)


def test_a_million_empty_rows(at: Desk) -> None:
    rows = b"".join(b'<row r="%d"/>' % n for n in range(5_000, 1_005_000))
    with_rows(at, "Lots", rows)
    ignored(at)


def test_a_million_rows_with_a_cell_each(at: Desk) -> None:
    rows = b"".join(b'<row r="%d"><c r="A%d"><v>%d</v></c></row>' % (n, n, n)
                    for n in range(5_000, 1_005_000))  # fmt: skip
    with_rows(at, "Lots", rows)
    before = at.texts()
    code, output = run(at)
    assert code in (0, 1) and "fault of reportgen" not in output, output
    assert at.texts() == before


def test_formulas_in_inputs_are_never_worked_out(at: Desk) -> None:
    cells = {
        "weighed": 'WEBSERVICE("http://192.0.2.1/")',
        "labor": "SUM(A1:XFD1048576)",
    }
    for name, formula in cells.items():
        sheet, ref = at.at.cell("lots", "pears-1", name)
        at.formula(sheet, ref, formula.replace('"', "&quot;"), 7)
    refused(at, "a formula stands in an input cell")


ODD_NUMBERS = [
    "1e999", "-1e999", "NaN", "9" * 400, "x" * 32_000, "\u202e1", "=1+1", "@SUM(1)", "0x10",
    "1_000", "\uff11", "1" + "0" * 20, "- 1", "a\nb: c", "#", "]", "!!python/object:x",
]  # fmt: skip


@pytest.mark.parametrize("number", every(3, range(len(ODD_NUMBERS))))
def test_odd_texts_in_numbers(at: Desk, number: int) -> None:
    typed = ODD_NUMBERS[number]
    at.type({at.at.cell("lots", "pears-1", "weighed"): typed})
    before = at.texts()
    done = at.run("take")
    assert done.exit_code == 1, done.output
    assert at.texts() == before


ODD_TEXTS = [
    "a: b", "- x", "#", "x # y", "'", '"', "{}", "[a", "!!binary x", "&a", "*a", "a\nb", "|", "%",
    "@", "`", "null", "~", "1.0", "no", "\u00e9\u4e2d\U0001f350", "=cmd", "\t", "\\",
]  # fmt: skip


@pytest.mark.parametrize("number", every(3, range(len(ODD_TEXTS))))
def test_odd_texts_in_texts_come_home_as_they_are(at: Desk, number: int) -> None:
    """Whatever is typed into a text is a text in the file, and nothing else changes."""
    typed = ODD_TEXTS[number]
    at.type({at.at.cell("lots", "pears-1", "note"): typed})
    before = at.texts()
    done = at.run("take")
    assert (done.exit_code in (0, 1) and done.exception is None) or isinstance(
        done.exception, SystemExit
    ), done.output
    if done.exit_code == 1 or not typed.strip():
        assert at.texts() == before
        return
    after = at.texts()
    assert {n: t for n, t in after.items() if n != LIST_FILE} == {
        n: t for n, t in before.items() if n != LIST_FILE
    }
    from reportgen import program

    season = program.read(at.folder).season
    assert season is not None
    lots = season.tables["lots"]
    assert lots.values["note"][lots.keys.index("pears-1")] == typed.strip()
    assert set(at.kinds()) == {"home"}


# --- the memory ---------------------------------------------------------------------------

Line = list[object]
Forged = Callable[[list[Line]], None]


def forge(at: Desk, change: Forged, *, sign: bool) -> None:
    """Change the memory; ``sign`` it as whoever knows how it is made can."""
    old = remembered(at.book.read_bytes())
    lines = [json.loads(text) for text in old[:-1]]
    change(lines)
    texts = [json.dumps(line, ensure_ascii=False, separators=(",", ":")) for line in lines]
    digest = hashlib.sha256("\n".join(texts).encode()).hexdigest()
    new = [*texts, digest if sign else old[-1]]
    cells: dict[tuple[str, str], Value] = {}
    for row in range(max(len(old), len(new))):
        for n, column in enumerate("ABC"):
            text = new[row][n * 30_000 : (n + 1) * 30_000] if row < len(new) else ""
            cells["Memory", f"{column}{row + 2}"] = text or None
    at.type(cells)


@cache
def remembered(book: bytes) -> tuple[str, ...]:
    """The lines of the memory, the digest last."""
    sheet = openpyxl.load_workbook(io.BytesIO(book), read_only=True)["Memory"]
    rows = sheet.iter_rows(min_row=2, values_only=True)
    return tuple("".join(str(each) for each in row if each is not None) for row in rows)


def record(lines: list[Line], table: str, key: str) -> Line:
    return next(line for line in lines[1:] if line[0] == table and line[2] == key)


def file_of(name: str) -> Forged:
    def change(lines: list[Line]) -> None:
        for line in lines[1:]:
            line[3] = name

    return change


def value_of(value: object) -> Forged:
    def change(lines: list[Line]) -> None:
        inputs = record(lines, "lots", "pears-1")[5]
        assert isinstance(inputs, dict)
        inputs["weighed"] = value

    return change


def everywhere(at: int, value: object) -> Forged:
    def change(lines: list[Line]) -> None:
        for line in lines[1:]:
            line[at] = value

    return change


def head(at: int, value: object) -> Forged:
    def change(lines: list[Line]) -> None:
        lines[0][at] = value

    return change


def test_a_memory_that_was_changed_is_refused(at: Desk) -> None:
    forge(at, value_of([41.0, "41 lb"]), sign=False)
    refused(at, "what this workbook remembers of its season was changed")


def test_no_memory_is_refused(at: Desk) -> None:
    book = openpyxl.load_workbook(at.book)
    del book["Memory"]
    book.save(at.book)
    refused(at, "does not remember")


@pytest.mark.parametrize(
    "name", ["../x.yaml", "../../alder-2/x.yaml", "{tmp}/secret.yaml", "batches/../../x.yaml",
             "/etc/passwd", "batches/none.yaml", "", "CON", "batches/\x00.yaml", "~/x.yaml"],
)  # fmt: skip
def test_file_names_in_the_memory_are_never_opened_or_written(
    at: Desk, tmp_path: Path, name: str
) -> None:
    secret = {tmp_path / "secret.yaml": "lots: []\n", tmp_path / "x.yaml": "lots: []\n"}
    for path, text in secret.items():
        path.write_text(text)
    forge(at, file_of(name.replace("{tmp}", str(tmp_path))), sign=True)
    at.type({at.at.cell("lots", "pears-2", "weighed"): 9.5, at.at.cell("uses", 2, "weight"): 1.75})
    files = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    done = at.run("take")
    assert done.exit_code in (0, 1), done.output
    now = {path: path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    own = {at.folder / LIST_FILE, (at.folder / LIST_FILE).with_name("pears.yaml.before")}
    assert {p for p in {*files, *now} if files.get(p) != now.get(p)} <= own
    assert all(path.read_text() == text for path, text in secret.items())


def of_shown(change: Callable[[dict[str, list[object]]], object]) -> Forged:
    """What is remembered of columns that hold no formulas, on the first sheet that shows some."""
    return lambda lines: change(next(each[-1] for each in lines[0][5][1] if len(each[-1]) > 1))  # type: ignore[index]


FORGERIES: list[Forged] = [
    everywhere(2, "no-such-id"), everywhere(1, 10**30), everywhere(1, -1), everywhere(1, "x"),
    everywhere(0, "no_such_table"), everywhere(0, "season"), everywhere(4, 10**30),
    everywhere(5, []), everywhere(5, {"weighed": []}), everywhere(5, {"no_such_input": [1.0]}),
    everywhere(5, {"weighed": [[1.0]]}), everywhere(5, 7), everywhere(3, None),
    value_of([10**400]), value_of(["x"]), value_of([None]), value_of([True, {"a": 1}]),
    head(0, 2), head(1, "x"), head(1, 10**400), head(2, []), head(2, {"fresh": "kg"}),
    head(3, {}), head(3, {"lots": []}), head(3, {"lots": [["weighed", "No such heading"]]}),
    head(3, {"no_such_table": [["x", "y"]]}), head(3, 7), head(4, {}),
    head(4, {"A1": ["rates", "labor"]}), head(4, {"x": ["no_such_table", "x"]}),
    head(5, 7), head(5, [{}, [], []]),
    head(5, [{}, [["_at_1", "_at_2", "x", [["y", "z"]], [10**9], []]], []]),
    lambda lines: lines.clear(), lambda lines: lines.extend([[]] * 1000),
    lambda lines: lines.append([*lines[1]]),
    of_shown(lambda given: next(iter(given.values())).clear()),
    of_shown(lambda given: given.update({"0": ["x"] * 10_000})),
    of_shown(lambda given: given.update({"-1": []})), of_shown(lambda given: given.clear()),
    of_shown(lambda given: [each.reverse() for each in given.values()]),
]  # fmt: skip


@pytest.mark.parametrize("number", every(3, range(len(FORGERIES))))
def test_a_forged_memory_does_no_harm(at: Desk, number: int) -> None:
    forge(at, FORGERIES[number], sign=True)
    before = at.texts()
    done = at.run("take")
    assert done.exit_code in (0, 1), done.output
    assert done.exception is None or isinstance(done.exception, SystemExit)
    assert done.output.strip()
    assert at.texts() == before


def test_a_memory_nested_without_end(at: Desk) -> None:
    book = openpyxl.load_workbook(at.book)
    sheet = book["Memory"]
    sheet.cell(2, 1, "[1," + "[" * 30_000)
    book.save(at.book)
    refused(at, "does not remember")
