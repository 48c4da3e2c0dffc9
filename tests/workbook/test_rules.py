"""Every formula and cell of every kind of workbook keeps the rules, and each rule can be broken.

Sources: SUMPRODUCT over one blank cell is #VALUE! and N of one #NUM! in Gnumeric (seen in
``tests/engines/test_gnumeric.py``), the first by report in Excel as well; the others are what the
suites' own help pages say of formats and entries (common practice where none does).
"""

from __future__ import annotations

import pytest

from workbook.kinds import KINDS, LARGE, workbook
from workbook.rules import Cell, judged, of_cell, of_formula


@pytest.mark.slow
@pytest.mark.parametrize("kind", KINDS)
def test_every_formula_and_cell_keeps_the_rules(kind: str) -> None:
    formulas, broken = judged(workbook(kind))
    assert broken[:20] == []
    assert formulas > (100_000 if kind == LARGE else 50)


@pytest.mark.parametrize(
    ("formula", "why"),
    [
        ("SUMPRODUCT(Scenarios!$AH$7:$AH$7)", "range of one cell"),
        ("SUMPRODUCT(($A$7:$A$9=1)*1,$B$7:$B$7)", "range of one cell"),
        ("SUM($B$7:$B$7)", "range of one cell"),
        ("N($A7)", "N is not right"),
        ("IF(N(INDEX($A$7:$A$9,$B7)),1,0)", "N is not right"),
        ("SUMPRODUCT(ISNUMBER($A$7:$A$9)*1)", "ISNUMBER inside"),
        ("XLOOKUP($A7,$B$7:$B$9,$C$7:$C$9)", "XLOOKUP is not right"),
        ("$A$7:$A$9*1", "array outside"),
        ("SUM(($A$7:$A$9=1)*1)", "array outside"),
        ("IF($A$7:$A$9,1,0)", "array outside"),
        ("MAX(ROW($A$7:$A$9))", "array outside"),
        ("$A$7:$A$9", "array outside"),
        ('IF($A7>0,$A7,"")*$B7', "reckons with a text"),
        ('$B7-IF($A7>0,"",1)+1', "reckons with a text"),
        ('$B7+""', "reckons with a text"),
    ],
)
def test_a_formula_that_breaks_a_rule_is_found(formula: str, why: str) -> None:
    found = of_formula(formula)
    assert any(why in each for each in found), found


@pytest.mark.parametrize(
    "formula",
    [
        'IF(($A7<>"")*COUNT($F7),$F7*INDEX(Runs!$B$7:$B$9,$G7),"")',
        'SUMPRODUCT(($A$7:$A$9=$B7)*($C$7:$C$9<>""),$D$7:$D$9)',
        'IF(COUNT(1/$A7),$B7/$A7,"")',
        'INDEX(Runs!$A$7:$A$9,MATCH($B7,Runs!$C$7:$C$9,0))&""',
        "SUM($A7)",
    ],
)
def test_a_formula_that_keeps_them_is_not(formula: str) -> None:
    assert of_formula(formula) == ()


@pytest.mark.parametrize(
    ("cell", "why"),
    [
        (Cell("Lots!B7", 'A7&""', True, "pears", "@"), "text format"),
        (Cell("Constants!C5", None, False, "365", "0.############"), "bare point"),
        (Cell("Rates!C5", None, False, "2", "#,##0.0#"), "bare point"),
        (Cell("Plan!A7", None, True, "1", "@"), "text of digits"),
        (Cell("Queue!A7", "B7", True, "12", "General"), "text of digits"),
    ],
)
def test_a_cell_that_breaks_a_rule_is_found(cell: Cell, why: str) -> None:
    assert any(why in each for each in of_cell(cell))


@pytest.mark.parametrize(
    "cell",
    [
        Cell("Lots!A7", None, True, "pears-1", "@"),
        Cell("Lots!B7", 'A7&""', True, "pears", "General"),
        Cell("Plan!A7", None, True, "plan-1", "@"),
        Cell("Trace!A7", None, False, "1", "0"),
        Cell("Constants!C5", None, False, "365", "0"),
    ],
)
def test_a_cell_that_keeps_them_is_not(cell: Cell) -> None:
    assert list(of_cell(cell)) == []
