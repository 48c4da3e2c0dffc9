"""What may be typed into cells."""

from __future__ import annotations

from reportgen.layout.page import Page, Validation
from reportgen.write.escaping import element, escape
from reportgen.write.limits import Unwritable, clipped

_TITLE, _PROMPT, _ERROR, _CHOICES = 32, 255, 224, 255
"""Characters that the format allows (the error's is the least of what versions allow)."""
_ANY = "-1E+300"


def validations(page: Page) -> str:
    """The element that says what may be typed on a page; empty where it does not say."""
    rules = [_validation(each) for each in page.validations]
    return element("dataValidations", "".join(rules), count=len(rules)) if rules else ""


def _validation(wanted: Validation) -> str:
    kind, operator, *formulas = _rule(wanted)
    numbered = enumerate(formulas, 1)
    return element(
        "dataValidation",
        "".join(element(f"formula{at}", escape(formula or "")) for at, formula in numbered),
        sqref=wanted.cells,
        showDropDown=0,  # 1 would hide it
        showInputMessage=1 if wanted.prompt else 0,
        showErrorMessage=1,
        allowBlank=1,
        errorTitle=clipped(wanted.title, _TITLE) or None,
        error=clipped(wanted.prompt, _ERROR) or None,
        promptTitle=clipped(wanted.title, _TITLE) or None,
        prompt=clipped(wanted.prompt, _PROMPT) or None,
        type=kind,
        operator=operator,
    )


def _rule(wanted: Validation) -> tuple[str | None, ...]:
    """Its kind, its operator, and one formula or two."""
    kind, low, high = wanted.kind, wanted.low, wanted.high
    if kind == "list":
        if not low:
            raise Unwritable(f"{wanted.cells}: a list of choices without its choices")
        if low.startswith('"') and len(low) > _CHOICES:
            raise Unwritable(f"{wanted.cells}: choices of over {_CHOICES} characters need a range")
        return kind, None, low
    if low is not None and high is not None:
        if wanted.above:
            first = wanted.cells.split(":")[0].split(" ")[0]
            return "custom", None, f"AND(ISNUMBER({first}),{first}>{low},{first}<={high})"
        return kind, "between", low, high
    if high is not None:
        return kind, "lessThanOrEqual", high
    operator = "greaterThan" if wanted.above else "greaterThanOrEqual"
    return kind, operator, low if low is not None else ("1" if kind == "date" else _ANY)
