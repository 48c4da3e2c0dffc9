"""The workbooks as they are written: seen by everybody, without merged cells, every sheet linked.

Source: WCAG 2.2, 1.4.3 (text 4.5:1), 1.4.11 (graphics 3:1), 1.1.1 (text alternatives). The looks
are read from the files, not from what the program says of itself; only the measure of contrast is
its own (``tests/write/test_look.py`` checks it).
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

import openpyxl
import pytest
from cli.seasons import run
from engines.cells import sheet_parts
from handout.sheets import made as costing
from lxml import etree
from openpyxl.worksheet.worksheet import Worksheet
from past.test_past import write as season
from samples.season import ROOT

from reportgen.layout.look import contrast
from reportgen.program import build

pytestmark = pytest.mark.slow

TEXT, GRAPHIC = 4.5, 3.0
KINDS = ("windrow-lane", "colline", "costing", "costing with all", "comparison")
WHITE = "FFFFFF"


@cache
def data(kind: str) -> bytes:
    """A workbook of each kind."""
    if kind.startswith("costing"):
        words = ("--all",) if kind.endswith("all") else ()
        return costing("windrow-lane", "pear-slices", "", *words).workbook
    if kind == "comparison":
        with TemporaryDirectory() as folder:
            place = Path(folder)
            seasons = [season(place / str(year), year) for year in (2024, 2023)]
            assert run("build", *seasons, "-o", place / "made.xlsx").exit_code == 0
            return (place / "made.xlsx").read_bytes()
    made, problems = build(ROOT / "samples" / kind)
    assert made is not None, problems
    return made


@cache
def book(kind: str) -> openpyxl.Workbook:
    return openpyxl.load_workbook(BytesIO(data(kind)))


def parts(kind: str, begin: str) -> Iterator[etree._Element]:
    """The parts of the file whose names begin so."""
    with zipfile.ZipFile(BytesIO(data(kind))) as archive:
        for name in archive.namelist():
            if re.fullmatch(begin + r"\d+\.xml", name):
                yield etree.fromstring(archive.read(name))


def _ink(font: object) -> str:
    colour = getattr(font, "color", None)
    return colour.rgb[2:] if colour is not None and colour.type == "rgb" else "000000"


def _ground(fill: object) -> str:
    if getattr(fill, "fill_type", None) is None:
        return WHITE
    return fill.fgColor.rgb[2:]  # type: ignore[attr-defined, no-any-return]


@pytest.mark.parametrize("kind", KINDS)
def test_every_text_is_read_on_its_ground(kind: str) -> None:
    seen = set()
    for sheet in book(kind):
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None:
                    seen.add((_ink(cell.font), _ground(cell.fill)))
    assert len(seen) > 4
    assert [pair for pair in seen if contrast(*pair) < TEXT] == []


@pytest.mark.parametrize("kind", KINDS)
def test_every_verdict_is_read_on_whatever_ground_it_comes(kind: str) -> None:
    grounds = {_ground(cell.fill) for sheet in book(kind) for row in sheet.iter_rows()
               for cell in row if cell.value is not None}  # fmt: skip
    tried = 0
    for sheet in book(kind):
        for rules in sheet.conditional_formatting:
            for rule in rules.rules:
                look = rule.dxf
                own = look.fill.bgColor.rgb[2:] if look.fill and look.fill.bgColor else None
                for ground in {own} if own else grounds:
                    assert contrast(_ink(look.font), ground) >= TEXT
                    tried += 1
                # Not by colour alone.
                assert look.font.b or look.font.i or look.border is not None
    assert tried


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_to_be_typed_in_has_a_frame_that_is_seen(kind: str) -> None:
    framed = 0
    for sheet in book(kind):
        for row in sheet.iter_rows():
            for cell in row:
                if not cell.protection.locked:
                    edges = [getattr(cell.border, side) for side in ("left", "right", "top")]
                    assert all(edge is not None and edge.style for edge in edges), cell
                    for edge in edges:
                        assert contrast(edge.color.rgb[2:], _ground(cell.fill)) >= GRAPHIC, cell
                    framed += 1
    assert framed > 10 or kind == "comparison"


@pytest.mark.parametrize("kind", KINDS)
def test_cells_are_not_merged_and_a_sheet_begins_with_its_title(kind: str) -> None:
    for sheet in book(kind):
        assert not sheet.merged_cells.ranges
        assert sheet["A1"].value == sheet.title
        assert sheet["A1"].style == book(kind).worksheets[0]["A1"].style
        assert sheet["A1"].font.sz == max(
            cell.font.sz for row in sheet.iter_rows() for cell in row if cell.value is not None
        )


@pytest.mark.parametrize("kind", KINDS)
def test_every_sheet_in_use_is_linked_from_the_first(kind: str) -> None:
    first = book(kind).worksheets[0]
    others = [sheet for sheet in book(kind).worksheets[1:] if sheet.sheet_state == "visible"]
    links = [cell.hyperlink.location for row in first.iter_rows() for cell in row
             if cell.hyperlink is not None]  # fmt: skip
    targets = {each.rpartition("!")[0].strip("'") for each in links}
    assert targets == {sheet.title for sheet in (first, *others)}


@pytest.mark.parametrize("kind", KINDS)
def test_headings_stay_in_sight_and_are_printed_again(kind: str) -> None:
    alone = 0
    for sheet in book(kind):
        assert sheet.freeze_panes, sheet.title
        headers = _headers(sheet)
        # Where more than one thing stands on a sheet, no heading is that of all.
        if len(headers) == 1 and not sheet._charts and not _has_sections(sheet):
            alone += 1
            assert int(re.sub(r"\D", "", sheet.freeze_panes)) > headers[0], sheet.title
            top, bottom = (int(each.strip("$")) for each in sheet.print_title_rows.split(":"))
            assert top <= headers[0] <= bottom, sheet.title
    assert alone >= 1


def _has_sections(sheet: Worksheet) -> bool:
    return any(cell.style == "Section" and cell.value for (cell,) in sheet.iter_rows(max_col=1))


def _headers(sheet: Worksheet) -> list[int]:
    """The rows of column names."""
    return [
        row[0].row for row in sheet.iter_rows() if any(cell.style == "Column name" for cell in row)
    ]


@pytest.mark.parametrize("kind", KINDS)
def test_sheets_for_reading_stand_first_those_for_auditing_last(kind: str) -> None:
    colours = [sheet.sheet_properties.tabColor.rgb for sheet in book(kind)]
    kinds = list(dict.fromkeys(colours))
    assert len(kinds) == 3
    assert colours == sorted(colours, key=kinds.index), "each kind of sheet stands together"
    shown = [sheet.title for sheet in book(kind) if sheet.sheet_state != "veryHidden"]
    assert shown[-1] in ("Method", "Constants") or kind == "comparison"


# --- charts ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", KINDS)
def test_every_chart_has_words_for_who_cannot_see_it(kind: str) -> None:
    frames = [
        each for part in parts(kind, "xl/drawings/drawing") for each in part.iter("{*}graphicFrame")
    ]
    charts = list(parts(kind, "xl/charts/chart"))
    assert len(frames) == len(charts) >= (0 if kind == "comparison" else 1)
    for frame in frames:
        (named,) = frame.iter("{*}cNvPr")
        assert len(named.get("name")) > 8 and len(named.get("descr")) > 30
        assert re.search(r"\d|unknown|no ", named.get("descr"))


@pytest.mark.parametrize("kind", KINDS)
def test_every_chart_says_what_is_along_its_axes(kind: str) -> None:
    for chart in parts(kind, "xl/charts/chart"):
        assert "".join(chart.find("{*}chart/{*}title").itertext()).strip()
        axes = [*chart.iter("{*}valAx"), *chart.iter("{*}catAx")]
        assert len(axes) == 2
        for axis in axes:
            named = axis.find("{*}title") is not None
            # Names of products and the like say themselves what they are.
            assert named or axis.tag.endswith("catAx")
            assert axis.find("{*}delete").get("val") == "0"
            assert axis.find("{*}tickLblPos").get("val") != "none"


@pytest.mark.parametrize("kind", KINDS)
def test_every_chart_holds_the_values_of_its_cells(kind: str) -> None:
    cached = openpyxl.load_workbook(BytesIO(data(kind)), data_only=True)
    series = [each for chart in parts(kind, "xl/charts/chart") for each in chart.iter("{*}ser")]
    assert series or kind == "comparison"
    for each in series:
        for holder in ("tx", "cat", "val", "xVal", "yVal"):
            for reference in each.iterfind(f"{{*}}{holder}/*"):
                cells = _cells(cached, reference.findtext("{*}f"))
                cache = reference[1]
                assert int(cache.find("{*}ptCount").get("val")) == len(cells)
                held = {int(pt.get("idx")): pt.findtext("{*}v") for pt in cache.iter("{*}pt")}
                for at, value in enumerate(cells):
                    if isinstance(value, int | float):
                        assert float(held[at]) == pytest.approx(value, rel=1e-12)
                    elif reference.tag.endswith("numRef"):
                        assert value in (None, "") and at not in held
                    else:
                        assert held[at].casefold() == str(value or "").casefold()


def _cells(cached: openpyxl.Workbook, reference: str) -> list[object]:
    sheet, _, place = reference.rpartition("!")
    found = cached[sheet.strip("'")][place.replace("$", "")]
    rows = found if isinstance(found, tuple) else ((found,),)
    return [cell.value for row in rows for cell in row]


@pytest.mark.parametrize("kind", KINDS)
def test_every_shape_of_a_chart_stands_out(kind: str) -> None:
    for chart in parts(kind, "xl/charts/chart"):
        for each in chart.iter("{*}ser"):
            looks = each.find("{*}spPr")
            fill = looks.find("{*}solidFill/{*}srgbClr")
            line = looks.find("{*}ln/{*}solidFill/{*}srgbClr")
            seen = [colour.get("val") for colour in (fill, line) if colour is not None]
            assert seen and max(contrast(colour, WHITE) for colour in seen) >= GRAPHIC
        for colour in chart.xpath(".//*[local-name()='defRPr' or local-name()='rPr']//@val"):
            if re.fullmatch("[0-9A-F]{6}", colour):
                assert contrast(colour, WHITE) >= TEXT


def test_no_part_of_a_chart_is_lost() -> None:
    """The power of the run that has a log is a curve in the workbook, too."""
    with zipfile.ZipFile(BytesIO(data("colline"))) as archive:
        names = [name for name, _ in sheet_parts(archive)]
    assert "Energy" in names
    titles = [
        "".join(chart.find("{*}chart/{*}title").itertext()).strip()
        for chart in parts("colline", "xl/charts/chart")
    ]
    assert any(title.startswith("Power over time") for title in titles)
