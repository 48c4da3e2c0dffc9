"""The one place that makes a message of a problem."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Sequence

from reportgen.marks import MARKS, seen
from reportgen.read.problem import Problem

_WIDEST = 100


def text(problem: Problem, lines_of: Callable[[str], Sequence[str]]) -> str:
    """``file:line: what is wrong; expected ...; what to do``, the line itself and a caret under it.

    ``lines_of`` gives the lines of a file by the name that the problem's place has.
    """
    place = problem.place
    where = f"{place.file}:{place.line}" if place.line else place.file
    parts = [problem.what]
    if problem.expected:
        parts.append(f"expected {problem.expected}")
    if problem.do:
        parts.append(problem.do)
    mark = "caution: " if problem.severity == "caution" else ""
    message = seen(_plain(f"{where}: {mark}{'; '.join(parts)}"))
    if not place.line:
        return message
    lines = lines_of(place.file)
    if place.line > len(lines):
        return message
    shown, caret = _cut(lines[place.line - 1], place.column, place.length)
    return f"{message}\n    {seen(shown)}\n    {caret}".rstrip() if shown.strip() else message


def _cut(line: str, column: int, length: int) -> tuple[str, str]:
    """The line, or the part of a long one around the caret, and the caret line."""
    start = min(column - 1, len(line))
    first = max(0, min(start - 20, len(line) - _WIDEST))
    before = "..." if first else ""
    after = "..." if first + _WIDEST < len(line) else ""
    # Cut first: a line may be as long as the file.
    line = f"{before}{_plain(line[first : first + _WIDEST])}{after}"
    start += len(before) - first
    length = max(1, min(length, len(line) - start))
    shift = sum(_width(each) for each in line[:start])
    under = sum(_width(each) for each in line[start : start + length]) or 1
    return line.rstrip(), " " * shift + "^" * under


def _width(character: str) -> int:
    if unicodedata.combining(character):
        return 0
    if character in MARKS:
        return len(seen(character))
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _plain(text: str) -> str:
    """Without control characters, which could play tricks on a terminal."""
    return "".join(
        each if each.isprintable() or unicodedata.combining(each) or each in MARKS else " "
        for each in text
    )
