"""What stands where in a file: scalars, lists and mappings with their first and last character."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_COMMENT = re.compile(r"(?:^|(?<=[\s]))#[^\r\n]*", re.MULTILINE)
_NODES = (yaml.ScalarEvent, yaml.SequenceStartEvent, yaml.MappingStartEvent)
_ENDS = (yaml.SequenceEndEvent, yaml.MappingEndEvent)
_BREAK = re.compile(r"\r\n|\n|\r")
BOM = "\ufeff"


@dataclass(eq=False)
class Span:
    """A value from its first character to the one after its last."""

    start: int
    end: int


@dataclass(eq=False)
class Scalar(Span):
    """A single value; ``text`` is what it says, without quotes."""

    text: str


@dataclass(eq=False)
class Listing(Span):
    """A list. ``flow``: in brackets, else a dash a line."""

    flow: bool
    items: list[Span] = field(default_factory=list)


@dataclass(eq=False)
class Mapping(Span):
    """Keys and values. ``flow``: in braces, else a key a line."""

    flow: bool
    entries: list[tuple[Scalar, Span]] = field(default_factory=list)

    def find(self, key: str) -> tuple[Scalar, Span] | None:
        """A key with its value; None where it does not stand there."""
        return next((entry for entry in self.entries if entry[0].text == key), None)


class Marked:
    """A text with its marks. The text must be YAML that :func:`reportgen.read.yaml.parse` takes:
    one document, no anchors, no tags."""

    def __init__(self, text: str) -> None:
        self.text = text
        self._breaks = [each.span() for each in _BREAK.finditer(text)]
        self.newline = text[slice(*self._breaks[0])] if self._breaks else "\n"
        self._first = len(BOM) if text.startswith(BOM) else 0
        self._scalars: list[tuple[int, int]] = []
        self.root = self._read(self._first)

    def _read(self, shift: int) -> Span | None:
        """The document, built from the parser's events on a stack of what is open."""
        root = Listing(0, 0, True)
        stack: list[Listing | Mapping] = [root]
        keys: list[Scalar | None] = [None]
        events: Any = yaml.parse(self.text[shift:], Loader=_Loader)
        for event in events:
            kind = type(event)
            if kind in _ENDS:
                done = stack.pop()
                keys.pop()
                done.end = event.end_mark.index + shift if done.flow else _last(done)
                continue
            if kind not in _NODES:
                continue
            start, end = event.start_mark.index + shift, event.end_mark.index + shift
            made: Span
            if kind is yaml.ScalarEvent:
                made = Scalar(start, _trimmed(self.text, start, end, event.style), event.value)
                self._scalars.append((made.start, made.end))
            elif kind is yaml.SequenceStartEvent:
                made = Listing(start, end, bool(event.flow_style))
            else:
                made = Mapping(start, end, bool(event.flow_style))
            open_ = stack[-1]
            if isinstance(open_, Listing):
                open_.items.append(made)
            elif keys[-1] is None:
                assert isinstance(made, Scalar)
                keys[-1] = made
            else:
                open_.entries.append((keys[-1], made))
                keys[-1] = None
            if isinstance(made, Listing | Mapping):
                stack.append(made)
                keys.append(None)
        return root.items[0] if root.items else None

    def line_start(self, at: int) -> int:
        """Where the line begins that holds the character."""
        before = bisect_right(self._breaks, at, key=lambda each: each[1])
        return self._breaks[before - 1][1] if before else self._first

    def line_end(self, at: int) -> int:
        """Where the line ends that holds the character, its line break not included."""
        after = bisect_left(self._breaks, at, key=lambda each: each[0])
        return self._breaks[after][0] if after < len(self._breaks) else len(self.text)

    def offset(self, line: int, column: int) -> int:
        """The character at a line and a column, both from 1, as the reader's places count them."""
        start = self._breaks[line - 2][1] if line > 1 else self._first
        return start + column - 1

    def next_line(self, at: int) -> int:
        """Where the line after it begins."""
        after = bisect_left(self._breaks, at, key=lambda each: each[0])
        return self._breaks[after][1] if after < len(self._breaks) else len(self.text)

    def column(self, at: int) -> int:
        """How far from the beginning of its line a character stands, from 0."""
        return at - self.line_start(at)

    def comments(self, start: int, end: int) -> Iterator[tuple[int, str]]:
        """The comments that begin between two characters, each with its place."""
        for found in _COMMENT.finditer(self.text, start, end):
            if not any(a <= found.start() < b for a, b in self._scalars):
                yield found.start(), found.group().rstrip()


def _last(open_: Listing | Mapping) -> int:
    """A block's last character: that of the last thing in it."""
    if isinstance(open_, Listing):
        return open_.items[-1].end if open_.items else open_.end
    return open_.entries[-1][1].end if open_.entries else open_.end


def _trimmed(text: str, start: int, end: int, style: str | None) -> int:
    """A block scalar's mark is where the next thing begins; its text ends before that."""
    if style not in ("|", ">"):
        return end
    return start + len(text[start:end].rstrip())
