"""Views, protection, validation, conditions, print, comments, links, names, properties."""

from __future__ import annotations

from dataclasses import replace

import pytest
from openpyxl import Workbook as Empty
from openpyxl.utils import quote_sheetname

from reportgen.layout.page import Page, Piece, Validation, Workbook
from reportgen.layout.spots import quoted
from reportgen.write.limits import Unwritable
from reportgen.write.sheet import footer_text
from reportgen.write.workbook import render
from write.books import load, parts, whole, xml


def _with(validation: Validation) -> Workbook:
    return Workbook("t", "en", [Page("S", validations=[validation])])


def _rule(validation: Validation):
    (found,) = load(_with(validation))["S"].data_validations.dataValidation
    return found


def test_sheets_are_protected_without_a_password_and_may_be_looked_at():
    for sheet in load(whole()):
        protection = sheet.protection
        assert protection.sheet and protection.password is None
        assert not protection.selectLockedCells  # True would forbid
        assert not protection.formatColumns
        assert protection.insertRows and protection.deleteRows


def test_inputs_are_open_and_formulas_locked():
    sheet = load(whole())["Loads"]
    assert [sheet[ref].protection.locked for ref in ("A6", "B9", "C6", "A4", "A10")] == [
        False, False, True, True, True,
    ]  # fmt: skip


def test_validations_say_what_is_wanted():
    weight, ids = load(whole())["Loads"].data_validations.dataValidation
    assert str(weight.sqref) == "B6:B9"
    assert (weight.type, weight.operator, weight.formula1) == ("decimal", "greaterThan", "0")
    assert (ids.type, ids.formula1) == ("list", '"pears-1,kale-1"')
    for rule in (weight, ids):
        assert rule.showErrorMessage and rule.showInputMessage and rule.allowBlank
        assert rule.prompt and rule.error and rule.promptTitle


@pytest.mark.parametrize(
    ("wanted", "rule"),
    [
        (Validation("A1", "decimal", "0", "1"), ("decimal", "between", "0", "1")),
        (Validation("A1", "whole", "0"), ("whole", "greaterThanOrEqual", "0", None)),
        (Validation("A1", "decimal", None, "5"), ("decimal", "lessThanOrEqual", "5", None)),
        (Validation("A1", "date"), ("date", "greaterThanOrEqual", "1", None)),
        (Validation("A1", "decimal"), ("decimal", "greaterThanOrEqual", "-1E+300", None)),
        (
            Validation("A1:A9", "decimal", "0", "1", above=True),
            ("custom", None, "AND(ISNUMBER(A1),A1>0,A1<=1)", None),
        ),
    ],
)
def test_kinds_of_validation(wanted, rule):
    found = _rule(wanted)
    assert (found.type, found.operator, found.formula1, found.formula2) == rule


def test_messages_are_cut_to_what_the_format_allows():
    found = _rule(Validation("A1", "decimal", "0", title="t" * 40, prompt="word " * 100))
    assert len(found.promptTitle) <= 32 and len(found.errorTitle) <= 32
    assert len(found.prompt) <= 255 and len(found.error) <= 224
    assert found.prompt.endswith("word…")


def test_long_choices_need_a_range():
    with pytest.raises(Unwritable, match="need a range"):
        render(_with(Validation("A1", "list", '"' + "kale," * 60 + 'corn"')))
    assert _rule(Validation("A1", "list", "$B$1:$B$99")).formula1 == "$B$1:$B$99"


def test_conditions_look_different_by_more_than_colour():
    found = load(whole())["Loads"].conditional_formatting
    looks = {str(one.sqref): one.rules[0] for one in found}
    bad, quiet = looks["C6:C9"], looks["A6:D9"]
    assert bad.formula == ["SUM($C6)>20"] and quiet.formula == ['$A6=""']
    assert bad.dxf.font.b and bad.dxf.border.left.style == "thin"
    assert bad.dxf.fill.bgColor.rgb == "FFFBE2D5"
    assert quiet.dxf.font.i
    assert bad.priority < quiet.priority


def test_panes_zoom_and_tabs():
    book = load(whole())
    assert book["Loads"].freeze_panes == "B6"
    assert book["Rates & all"].freeze_panes is None
    assert book["Rates & all"].sheet_view.zoomScale == 90
    assert not book["Loads"].sheet_view.showGridLines
    assert len({sheet.sheet_properties.tabColor.rgb for sheet in book}) == 2


@pytest.mark.parametrize("cell", ["", "A1", "B6", "A4", "C1", "AB12"])
def test_panes_are_frozen_as_the_library_freezes_them(cell):
    wanted = Empty().active
    wanted.freeze_panes = cell or None
    found = load(Workbook("t", "en", [Page("S", freeze=cell)]))["S"]
    views = found.sheet_view, wanted.sheet_view
    assert views[0].pane == views[1].pane
    corners = [[each.pane for each in view.selection] for view in views]
    assert corners[0] == corners[1]
    assert views[0].selection[-1].activeCell == (cell or "A1")


def test_folded_columns_can_be_unfolded():
    page = Page("S", widths={2: 9.0, 3: 7.0}, folded=frozenset({3}), unseen={4})
    sheet = load(Workbook("t", "en", [page]))["S"]
    columns = {name: sheet.column_dimensions[name] for name in "BCD"}
    assert [columns[name].hidden for name in "BCD"] == [False, True, True]
    assert [columns[name].outlineLevel for name in "BCD"] == [0, 1, 0]
    assert columns["D"].collapsed and not columns["C"].collapsed
    assert [columns[name].width for name in "BC"] == [9.0, 7.0]
    # The levels that there are (ECMA-376, 18.3.1.81): some programs make room by it.
    assert sheet.sheet_format.outlineLevelCol == 1
    assert not load(Workbook("t", "en", [Page("S")]))["S"].sheet_format.outlineLevelCol


def test_print_setup():
    book = load(whole())
    loads, rates = book["Loads"], book["Rates & all"]
    assert loads.page_setup.orientation == "landscape"
    assert rates.page_setup.orientation == "portrait"
    assert loads.page_setup.paperSize == 9  # A4; 1 is Letter (ECMA-376 part 1, 18.3.1.63)
    assert load(replace(whole(), paper="letter"))["Loads"].page_setup.paperSize == 1
    assert not loads.sheet_properties.pageSetUpPr.fitToPage and loads.page_setup.scale == 100
    assert loads.print_title_rows == "$4:$5" and loads.print_title_cols is None
    page = Page("S", pieces=[Piece(1, 8, 3), Piece(9, 20, 2, fresh=True)])
    sheet = load(Workbook("t", "en", [page]))["S"]
    assert sheet.print_area == "'S'!$A$1:$C$20"
    assert [b.id for b in sheet.row_breaks.brk] == [8]


def test_the_footer_names_season_sheet_and_page():
    foot = xml(whole(), "xl/worksheets/sheet2.xml").findtext(".//{*}oddFooter")
    assert foot is not None
    left, rest = foot.split("&C")
    assert left.endswith("Hill && Dale 2026")
    assert rest.split("&R")[0].endswith("&A") and rest.endswith("&P / &N")


def test_a_long_or_hostile_title_fits_the_footer():
    title = "&D&&[File]&" * 40 + "\n&R"
    foot = xml(Workbook(title, "en", [Page("S")]), "xl/worksheets/sheet1.xml")
    text = foot.findtext(".//{*}oddFooter") or ""
    assert len(text) <= 255
    assert "…" in text
    own = text.split("&C")[0]
    assert "&D" not in own.replace("&&", "") and "&F" not in own.replace("&&", "")
    assert footer_text("2026 pears", 50) == "2026 pears"
    assert footer_text("a&b", 4) == "a&&b" and footer_text("a&bc", 4) == "a&&…"


def test_comments_are_sized_to_their_text():
    short, long = "Short.", "A rather long rule in words. " * 12
    page = Page("S", comments={"A1": short, "B2": long + "\x00"})
    data = render(Workbook("t", "en", [page]))
    sheet = load(Workbook("t", "en", [page]))["S"]
    assert sheet["A1"].comment.text == short and sheet["A1"].comment.author == "reportgen"
    assert sheet["B2"].comment.text == long + "\ufffd"
    heights = [
        int(style.split("height:")[1].split("px")[0])
        for style in parts(data)["xl/drawings/vmlDrawing1.vml"].decode().split('style="')[1:]
        if "height:" in style
    ]
    # 348 characters at about 50 a line are at least 7 lines of 14 pixels.
    assert heights[1] >= 7 * 14 > heights[0] * 2


def test_links_lead_inside():
    link = load(whole())["Loads"]["A3"].hyperlink
    assert link.location == "'Rates & all'!A1" and link.target is None
    assert not any(b'TargetMode="External"' in part for part in parts(render(whole())).values())


def test_names_properties_and_calculation():
    book = load(whole())
    assert book.defined_names["rates_electricity"].attr_text == "'Rates & all'!$B$3"
    assert book.properties.title == "Hill & Dale 2026"
    assert (book.properties.creator, book.properties.language) == ("reportgen", "en")
    assert {p.name: p.value for p in book.custom_doc_props} == {"program": "reportgen 0"}
    assert book.calculation.fullCalcOnLoad
    with pytest.raises(Unwritable):
        render(Workbook("t", "en", [Page("S")], {"TAX2024": "S!$A$1"}))


def test_nothing_of_the_workbook_comes_from_outside_or_runs():
    for name in parts(render(whole())):
        assert not any(word in name for word in ("external", "vba", "connection", "embed"))


@pytest.mark.parametrize("name", ["What if", "L'étagère", "Reste d'hier", "a''b", "Coût"])
def test_names_of_sheets_are_quoted_as_openpyxl_quotes_them(name: str) -> None:
    assert quoted(name) == quote_sheetname(name)
