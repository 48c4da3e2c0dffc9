"""What a YAML file comes to: texts, lists and mappings, each with its place.

Nothing is resolved here: ``34:30``, ``no`` and ``0123`` stay texts, and the kind of the field
that a text stands in decides how it is read.
"""

from __future__ import annotations

from reportgen.read.problem import Place

_NULL = frozenset(("", "~", "null", "Null", "NULL"))


class Node:
    """A piece of a file, from its first character on."""

    __slots__ = ("column", "file", "length", "line")

    shape = "a value"

    def __init__(self, file: str, line: int, column: int, length: int = 1) -> None:
        self.file = file
        self.line = line
        self.column = column
        self.length = length

    @property
    def place(self) -> Place:
        """Where it begins."""
        return Place(self.file, self.line, self.column, self.length)


class Scalar(Node):
    """A single value, as text. ``written`` is what the file says, where ``text`` was made of it."""

    __slots__ = ("quoted", "text", "written")

    shape = "a single value"

    def __init__(
        self,
        text: str,
        file: str,
        line: int,
        column: int,
        length: int = 1,
        quoted: bool = False,
        written: str | None = None,
    ) -> None:
        self.text = text
        self.file = file
        self.line = line
        self.column = column
        self.length = length
        self.quoted = quoted
        self.written = text if written is None else written

    @property
    def empty(self) -> bool:
        """Whether it stands for nothing: an empty or null value (YAML 1.2.2, 10.3.2)."""
        return not self.quoted and self.text in _NULL

    def piece(self, start: int, end: int, text: str | None = None) -> Scalar:
        """A part of a one-line plain text, with the part's own place."""
        part = self.text[start:end]
        exact = not self.quoted and self.length == len(self.text)
        column, length = (self.column + start, end - start) if exact else (self.column, self.length)
        return Scalar(
            part if text is None else text, self.file, self.line, column, length, False, part
        )


class Implied(Scalar):
    """A value that nobody wrote: the short form stands for it. ``written`` says why."""

    __slots__ = ()


class Sequence(Node):
    """A list."""

    __slots__ = ("items",)

    shape = "a list"

    def __init__(self, file: str, line: int, column: int, items: list[Node]) -> None:
        super().__init__(file, line, column)
        self.items = items


class Mapping(Node):
    """Keys with their values, in the order of the file; no key stands in it twice."""

    __slots__ = ("entries",)

    shape = "a mapping"

    def __init__(
        self, file: str, line: int, column: int, entries: list[tuple[Scalar, Node]]
    ) -> None:
        super().__init__(file, line, column)
        self.entries = entries

    def get(self, key: str) -> Node | None:
        """The value of a key; None where it is missing or left empty."""
        for name, value in self.entries:
            if name.text == key:
                return None if isinstance(value, Scalar) and value.empty else value
        return None
