"""What may be typed into an input cell, and what is said about it."""

from __future__ import annotations

from collections.abc import Mapping

from reportgen.model.fields import Input
from reportgen.sheets.page import Validation
from reportgen.sheets.spots import Seen

_LARGEST = "1000000000"


def validation(found: Input, cells: str, slots: Mapping[str, str], seen: Seen) -> Validation | None:
    """The rule for an input's cells; None where any text will do."""
    title = found.name.replace("_", " ")[:32]
    match found.type:
        case "date":
            prompt = f"{found.doc} A date, as 2026-09-05."
            return Validation(cells, "date", "1", "2958465", title=title, prompt=prompt)
        case "flag":
            prompt = f"{found.doc} 1 for yes; 0 or nothing for no."
            return Validation(cells, "whole", "0", "1", title=title, prompt=prompt)
        case "text":
            if found.choices:
                words = ",".join(found.choices)
                prompt = f"{found.doc} One of: {', '.join(found.choices)}."
                return Validation(cells, "list", f'"{words}"', title=title, prompt=prompt)
            if found.ref:
                prompt = f"{found.doc} An id from its list."
                span = seen.span(found.ref, "key")
                return Validation(cells, "list", span, title=title, prompt=prompt)
            return None
    low = "0" if found.least is None else f"{found.least:g}"
    high = _LARGEST if found.most is None else f"{found.most:g}"
    unit = "a share, as 12%" if found.share else f"in {unit_text_of(found, slots)}"
    prompt = f"{found.doc} {'A whole number' if found.whole else 'A number'}, {unit}."
    if found.whole:
        prompt = f"{found.doc} A whole number."
    kind = "whole" if found.whole else "decimal"
    return Validation(cells, kind, low, high, found.above, title, prompt)  # type: ignore[arg-type]


def unit_text_of(found: Input, slots: Mapping[str, str]) -> str:
    """The unit of an input, for its prompt."""
    return found.unit.text(slots) or "no unit"
