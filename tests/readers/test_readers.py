"""Every kind of workbook is valid, and common readers load all of it.

The first validator is that of the file format's owner (its SDK's, by way of npm); the second, in
Python, takes longer, and gets fewer kinds. PhpSpreadsheet is not run; what it is known to fail on
is looked for: prefixes other than v, o and x in notes (its issue 4505), and relations whose targets
are whole paths (issue 3665).
"""

from __future__ import annotations

import zipfile
from pathlib import Path

import openpyxl
import pytest
from engines.cells import formula_cells
from engines.handmade import rewritten
from lxml import etree
from openxml_audit import OpenXmlValidator
from thorough import every
from workbook.kinds import KINDS, workbook

from readers.judge import complaints, read

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("kind", KINDS)
def test_the_validator_of_the_formats_owner_finds_nothing(kind: str) -> None:
    assert complaints(workbook(kind)) == []


@pytest.mark.parametrize("kind", every(4, ["costing", "colline", "compared", "starter"]))
def test_a_second_validator_finds_nothing(kind: str) -> None:
    assert OpenXmlValidator().validate(str(workbook(kind))).errors == []


def test_both_would_find_something(tmp_path: Path) -> None:
    copy = tmp_path / "costing.xlsx"
    copy.write_bytes(workbook("costing").read_bytes())
    wrong = rewritten(copy, b"<b val", b"<bold val")
    assert complaints(wrong)
    assert OpenXmlValidator().validate(str(wrong)).errors


def notes(path: Path) -> dict[str, int]:
    """How many notes each sheet has, by the parts themselves."""
    found = {}
    with zipfile.ZipFile(path) as archive:
        for number, sheet in enumerate(openpyxl.load_workbook(path, read_only=True).sheetnames, 1):
            rels = f"xl/worksheets/_rels/sheet{number}.xml.rels"
            listed = etree.fromstring(archive.read(rels)) if rels in archive.namelist() else ()
            parts = [
                each.get("Target") for each in listed if each.get("Type").endswith("/comments")
            ]
            found[sheet] = sum(
                archive.read("xl/" + part.removeprefix("../")).count(b"<comment ") for part in parts
            )
    return found


@pytest.mark.parametrize("kind", every(2, KINDS))
def test_readers_load_every_formula_and_note(kind: str) -> None:
    path = workbook(kind)
    told, noted = read(path), notes(path)
    formulas = dict.fromkeys(noted, 0)
    for sheet, _ in formula_cells(path):
        formulas[sheet] += 1
    for reader in ("exceljs", "sheetjs"):
        found = {each["name"]: each for each in told[reader]}
        assert list(found) == list(noted), reader
        assert {name: each["formulas"] for name, each in found.items()} == formulas, reader
        assert {name: each["notes"] for name, each in found.items()} == noted, reader
    assert sum(noted.values()) > 20


@pytest.mark.parametrize("kind", ["starter", "windrow-lane", "colline", "compared", "costing"])
def test_openpyxl_loads_notes_charts_names_and_rules(kind: str) -> None:
    path = workbook(kind)
    book = openpyxl.load_workbook(path)
    with zipfile.ZipFile(path) as archive:
        charts = sum(name.startswith("xl/charts/") for name in archive.namelist())
        names = archive.read("xl/workbook.xml").count(b"<definedName ")
        rules = sum(
            archive.read(name).count(b"<dataValidation ")
            for name in archive.namelist()
            if name.startswith("xl/worksheets/sheet")
        )
    found = {
        sheet.title: sum(cell.comment is not None for row in sheet.iter_rows() for cell in row)
        for sheet in book
    }
    assert found == notes(path)
    assert sum(len(sheet._charts) for sheet in book) == charts
    assert sum(sheet.data_validations.count for sheet in book) == rules
    printed = sum(bool(each.print_area) + bool(each.print_titles) for each in book)
    filtered = sum(bool(each.auto_filter.ref) for each in book)
    assert len(book.defined_names) + printed + filtered == names


@pytest.mark.parametrize("kind", ["starter", "windrow-lane", "costing"])
def test_parts_have_the_names_and_prefixes_that_readers_look_for(kind: str) -> None:
    with zipfile.ZipFile(workbook(kind)) as archive:
        names = archive.namelist()
        drawn = [name for name in names if name.startswith("xl/drawings/drawing")]
        noted = [name for name in names if name.endswith(".vml")]
        assert drawn and noted
        assert all(b"<xdr:wsDr " in archive.read(name) for name in drawn)
        for number, name in enumerate(sorted(noted, key=lambda each: (len(each), each)), 1):
            assert name == f"xl/drawings/vmlDrawing{number}.vml"
            assert f"xl/comments{number}.xml" in names
            prefixes = {each.prefix for each in etree.fromstring(archive.read(name)).iter()}
            assert prefixes == {None, "v", "o", "x"}
        for name in names:
            if name.endswith(".rels") and name != "_rels/.rels":
                assert b'Target="/' not in archive.read(name), name
