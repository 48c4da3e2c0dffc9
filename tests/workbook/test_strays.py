"""A text where a number belongs is marked: each cell for a typed number has the rule."""

from __future__ import annotations

from openpyxl import load_workbook

from workbook.kinds import workbook


def test_every_cell_for_a_number_or_day_marks_a_text() -> None:
    marked = asked = 0
    for sheet in load_workbook(workbook("windrow-lane")):
        rules = {str(each.sqref): each.rules[0].formula[0] for each in sheet.conditional_formatting}
        for each in sheet.data_validations.dataValidation:
            cells = str(each.sqref)
            if each.type != "list":
                asked += 1
                marked += rules.get(cells) == f'{cells.partition(":")[0]}>""'
    assert marked == asked > 80
