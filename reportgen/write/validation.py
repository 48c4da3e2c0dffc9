"""What may be typed into cells."""

from __future__ import annotations

from typing import Any

from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from reportgen.layout.page import Page, Validation
from reportgen.write.limits import Unwritable, clipped

_TITLE, _PROMPT, _ERROR, _CHOICES = 32, 255, 224, 255
"""Characters that the format allows (the error's is the least of what versions allow)."""
_ANY = "-1E+300"


def add_validations(sheet: Worksheet, page: Page) -> None:
    """Put the page's validations on the sheet."""
    for validation in page.validations:
        sheet.add_data_validation(_validation(validation))


def _validation(wanted: Validation) -> DataValidation:
    rule = DataValidation(
        sqref=wanted.cells,
        allow_blank=True,
        showErrorMessage=True,
        showInputMessage=bool(wanted.prompt),
        errorTitle=clipped(wanted.title, _TITLE) or None,
        error=clipped(wanted.prompt, _ERROR) or None,
        promptTitle=clipped(wanted.title, _TITLE) or None,
        prompt=clipped(wanted.prompt, _PROMPT) or None,
        **_rule(wanted),
    )
    return rule


def _rule(wanted: Validation) -> dict[str, Any]:
    kind, low, high = wanted.kind, wanted.low, wanted.high
    if kind == "list":
        if not low:
            raise Unwritable(f"{wanted.cells}: a list of choices without its choices")
        if low.startswith('"') and len(low) > _CHOICES:
            raise Unwritable(f"{wanted.cells}: choices of over {_CHOICES} characters need a range")
        return {"type": "list", "formula1": low}
    if low is not None and high is not None:
        if wanted.above:
            first = wanted.cells.split(":")[0].split(" ")[0]
            both = f"AND(ISNUMBER({first}),{first}>{low},{first}<={high})"
            return {"type": "custom", "formula1": both}
        return {"type": kind, "operator": "between", "formula1": low, "formula2": high}
    if high is not None:
        return {"type": kind, "operator": "lessThanOrEqual", "formula1": high}
    operator = "greaterThan" if wanted.above else "greaterThanOrEqual"
    least = low if low is not None else ("1" if kind == "date" else _ANY)
    return {"type": kind, "operator": operator, "formula1": least}
