"""What may be typed into an input cell, and what is said about it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from reportgen.algebra.inputs import Input
from reportgen.algebra.phrases import Phrase, in_words, joined, phrase
from reportgen.layout.page import Condition, Validation
from reportgen.layout.spots import Seen, letters

_LARGEST = "1000000000"


def validation(found: Input, cells: str, slots: Mapping[str, str], seen: Seen) -> Validation | None:
    """The rule for an input's cells; None where any text will do."""
    title, doc = found.name.replace("_", " "), Phrase.of(found.doc)
    match found.type:
        case "date":
            prompt = phrase("{doc} A date, as 2026-09-05.", doc=doc)
            return Validation(cells, "date", "1", "2958465", title=title, prompt=prompt)
        case "flag":
            prompt = phrase("{doc} 1 for yes; 0 or nothing for no.", doc=doc)
            return Validation(cells, "whole", "0", "1", title=title, prompt=prompt)
        case "text":
            if found.choices:
                words = joined("{a}, {b}", [Phrase(each) for each in found.choices])
                prompt = phrase("{doc} One of: {words}.", doc=doc, words=words)
                listed = ",".join(found.choices)
                return Validation(cells, "list", f'"{listed}"', title=title, prompt=prompt)
            if found.ref:
                prompt = phrase("{doc} An id from its list.", doc=doc)
                span = seen.span(found.ref, "key")
                return Validation(cells, "list", span, title=title, prompt=prompt)
            return None
    low = f"-{_LARGEST}" if found.least is None else f"{found.least:g}"
    high = _LARGEST if found.most is None else f"{found.most:g}"
    if found.whole:
        prompt = phrase("{doc} A whole number.", doc=doc)
    elif found.share:
        prompt = phrase("{doc} A number, a share, as 12%.", doc=doc)
    else:
        unit = in_words(found.unit, slots) or Phrase("no unit")
        prompt = phrase("{doc} A number, in {unit}.", doc=doc, unit=unit)
    kind = "whole" if found.whole else "decimal"
    return Validation(cells, kind, low, high, found.above, title, prompt)  # type: ignore[arg-type]


def strays(found: Input, cells: str) -> list[Condition]:
    """Marks a text where a number belongs, which can be pasted over any rule and would be read as
    nothing: a text is above an empty one, a number is not."""
    if not found.typed:
        return []
    return [Condition(cells, f'{cells.partition(":")[0]}>""', "bad")]


def unnamed(key: int, inputs: Sequence[int], first: int, last: int) -> list[Condition]:
    """Marks a row in which something was typed, and no id: nothing counts it. ``inputs``: columns;
    those that stand next to the id are looked at, and turn red with it."""
    beside = [column for at, column in enumerate(inputs, key + 1) if column == at]
    if not beside:
        return []
    near, far, own = letters(beside[0]), letters(beside[-1]), letters(key)
    some = f"COUNTA(${near}{first}:${far}{first})>0" if near != far else f'${near}{first}<>""'
    formula = f'(${own}{first}="")*({some})'
    return [Condition(f"{own}{first}:{far}{last}", formula, "bad")]
