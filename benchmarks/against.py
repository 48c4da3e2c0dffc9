"""The same cells, formulas and values written by XlsxWriter and, unstyled, by openpyxl."""

from __future__ import annotations

import io
from collections.abc import Iterator

import openpyxl
import xlsxwriter

from reportgen.algebra.places import ROW
from reportgen.sheets.page import Page, Value, Workbook

Cell = tuple[int, int, str | None, Value]


def cells(page: Page) -> Iterator[Cell]:
    """Row, column (from 0), formula, value, row by row within a band."""
    for band in page.bands:
        for offset in range(band.rows):
            row = band.first + offset
            for strip in band.strips:
                formula = strip.formula
                if formula is not None:
                    formula = "=" + formula.replace(ROW, str(row))
                yield row - 1, strip.column - 1, formula, strip.values[offset]


def with_xlsxwriter(book: Workbook) -> bytes:
    """Write the workbook's cells with XlsxWriter: formulas with their values, one format."""
    out = io.BytesIO()
    made = xlsxwriter.Workbook(out, {"in_memory": True, "strings_to_formulas": False})
    plain = made.add_format({"num_format": "0.00"})
    for page in book.pages:
        sheet = made.add_worksheet(page.name)
        for row, column, formula, value in cells(page):
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


def with_openpyxl(book: Workbook) -> bytes:
    """Write the workbook's cells with openpyxl, unstyled, without values of formulas."""
    made = openpyxl.Workbook()
    made.remove(made.active)
    for page in book.pages:
        sheet = made.create_sheet(page.name)
        for row, column, formula, value in cells(page):
            if formula is not None or value is not None:
                sheet.cell(row + 1, column + 1, formula if formula is not None else value)
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()
