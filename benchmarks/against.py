"""The same cells, formulas and values written by XlsxWriter and, unstyled, by openpyxl.

XlsxWriter looks through every formula for some thirty functions that Excel got after 2010, to put a
prefix before their names: a search by regular expression for each, three quarters of its time here.
No setting leaves that out. So it is measured twice: as it comes, and without the search (``bare``),
which this workbook does not need. Its ``constant_memory`` writes each row as the next begins.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from typing import NamedTuple

import openpyxl
import xlsxwriter
from xlsxwriter.worksheet import Worksheet

from reportgen.algebra.places import at_row
from reportgen.layout.page import Page, Value, Workbook

Cell = tuple[int, int, str | None, Value]


class Sheet(NamedTuple):
    """A sheet's name and its cells, row by row."""

    name: str
    cells: list[Cell]


def sheets(book: Workbook) -> list[Sheet]:
    """All cells of a workbook, made before the clock starts."""
    return [Sheet(page.name, sorted(_cells(page), key=lambda c: c[:2])) for page in book.pages]


def _cells(page: Page) -> Iterator[Cell]:
    """Row, column (from 0), formula, value."""
    for band in page.bands:
        for offset in range(band.rows):
            row = band.first + offset
            for strip in band.strips:
                formula = strip.formula
                if formula is not None:
                    formula = "=" + at_row(formula, row)
                yield row - 1, strip.column - 1, formula, strip.values[offset]


class _Bare(Worksheet):  # type: ignore[misc]
    """A sheet that takes formulas as they are."""

    def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:
        return formula.removeprefix("=")


def with_xlsxwriter(
    book: list[Sheet], *, bare: bool = False, constant_memory: bool = False
) -> bytes:
    """Write the cells with XlsxWriter: formulas with their values, all in one format."""
    out = io.BytesIO()
    options = {"constant_memory": True} if constant_memory else {"in_memory": True}
    made = xlsxwriter.Workbook(out, options)
    plain = made.add_format({"num_format": "0.00"})
    for name, cells in book:
        sheet = made.add_worksheet(name, _Bare if bare else None)
        for row, column, formula, value in cells:
            if formula is not None:
                sheet.write_formula(row, column, formula, plain, "" if value is None else value)
            elif value is None:
                sheet.write_blank(row, column, None, plain)
            elif isinstance(value, str):
                sheet.write_string(row, column, value, plain)
            else:
                sheet.write_number(row, column, float(value), plain)
    made.close()
    return out.getvalue()


def with_openpyxl(book: list[Sheet]) -> bytes:
    """Write the cells with openpyxl, unstyled; it writes no values of formulas."""
    made = openpyxl.Workbook(write_only=True)
    for name, cells in book:
        sheet = made.create_sheet(name)
        line: list[str | Value] = []
        at = 0
        for row, column, formula, value in cells:
            while at < row:
                sheet.append(line)
                line, at = [], at + 1
            line += [None] * (column - len(line))
            line.append(formula if formula is not None else value)
        sheet.append(line)
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()
