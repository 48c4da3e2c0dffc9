"""Strict YAML: one document of texts, lists and mappings, and nothing else of the language.

Anchors and aliases (the alias bomb), tags, merge keys and further documents are refused, each in
a plain word; so are keys given twice and nesting deeper than any season needs. The parser's events
are taken as they come, without its resolver, so no value is guessed at.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import yaml

from reportgen.read.nodes import Mapping, Node, Scalar, Sequence
from reportgen.read.problem import Place, Problem
from reportgen.read.syntax import explain

_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

_BULLET = re.compile(r"(?m)^(\s*)[•◦▪‣·–—](?=\s)")
_QUOTES = {"“": "”", "„": "“”", "‘": "’", "«": "»"}
_MARKS = frozenset((*_QUOTES, "•"))
"""What a text begins with that a word processor or a note book has put in front."""

DEEPEST = 12
"""Levels of nesting that are read; no season needs more than 6."""


class Stop(Exception):
    """The file cannot be read further; carries the problem."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.what)
        self.problem = problem


def parse(text: str, file: str) -> tuple[Node | None, list[Problem]]:
    """The file's one document, and what is wrong with it.

    None with a problem: it cannot be read; None without: it holds nothing.
    """
    problems: list[Problem] = []
    plain = _BULLET.sub(r"\1-", text)
    try:
        return _joined(_document(yaml.parse(plain, Loader=_Loader), file, problems)), problems
    except Stop as stop:
        return None, [*problems, stop.problem]
    except (yaml.YAMLError, RecursionError) as error:
        return None, [*problems, explain(error, text, file)]


def _document(events: Iterator[Any], file: str, problems: list[Problem]) -> Node | None:
    """Build the nodes from the parser's events, on a stack of what is open."""
    root = Sequence(file, 1, 1, [])
    inside: Sequence | Mapping = root
    key: Scalar | None = None
    stack: list[tuple[Sequence | Mapping, Scalar | None]] = []
    for event in events:
        kind = type(event)
        node: Node
        if kind is yaml.ScalarEvent:
            start, end = event.start_mark, event.end_mark
            length = end.column - start.column if end.line == start.line else 0
            value, quoted = event.value, bool(event.style)
            if value and not quoted and value[0] in _MARKS:
                value, quoted = _unmarked(value)
            node = Scalar(value, file, start.line + 1, start.column + 1, length or 1, quoted)
        elif kind is yaml.MappingStartEvent:
            node = Mapping(file, event.start_mark.line + 1, event.start_mark.column + 1, [])
        elif kind is yaml.SequenceStartEvent:
            node = Sequence(file, event.start_mark.line + 1, event.start_mark.column + 1, [])
        elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
            if kind is yaml.MappingEndEvent:
                entries = inside.entries  # type: ignore[union-attr]
                if len({name.text for name, _ in entries}) < len(entries):
                    problems.extend(_given_twice(inside))
            inside, key = stack.pop()
            continue
        else:
            _refuse(event, kind, file, bool(root.items))
            continue
        if event.anchor is not None or event.tag is not None:
            _refuse(event, kind, file, False)

        if isinstance(inside, Sequence):
            inside.items.append(node)
        elif key is None:
            key = _key(node)
            continue
        else:
            inside.entries.append((key, node))
            key = None
        if kind is not yaml.ScalarEvent:
            if len(stack) == DEEPEST:
                raise Stop(_too_deep(node.place))
            stack.append((inside, key))
            inside, key = node, None  # type: ignore[assignment]
    return root.items[0] if root.items else None


def _unmarked(text: str) -> tuple[str, bool]:
    """A text without curly quotes around it or a bullet in front, and whether it had quotes."""
    if text[0] == "•":
        return text[1:].strip(), False
    if len(text) > 1 and text[-1] in _QUOTES[text[0]]:
        return text[1:-1], True
    return text, False


def _joined(node: Node | None) -> Node | None:
    """A file's mapping, also where each key was written as an item of a list: ``- wet: 4 lb``."""
    if not isinstance(node, Sequence) or not node.items:
        return node
    entries = [entry for item in node.items if isinstance(item, Mapping) for entry in item.entries]
    if len({key.text for key, _ in entries}) < len(entries) or not all(
        isinstance(item, Mapping) for item in node.items
    ):
        return node
    return Mapping(node.file, node.line, node.column, entries)


def _refuse(event: Any, kind: type, file: str, again: bool) -> None:
    """Refuse what the language has and a season has no use for."""
    mark = event.start_mark
    place = Place(file, mark.line + 1, mark.column + 1)
    if kind is yaml.DocumentStartEvent and again:
        raise Stop(
            Problem(
                place,
                "a second document begins here",
                "one document in a file",
                "put what follows into a file of its own, or delete the line ---",
            )
        )
    anchor = getattr(event, "anchor", None)
    if anchor is not None:
        sign = "*" if kind is yaml.AliasEvent else "&"
        raise Stop(
            Problem(
                place._replace(length=len(anchor) + 1),
                f"{sign}{anchor} is a YAML anchor or alias, and neither is read here",
                "each value written out",
                "write the value itself, or put a text that begins with & or * in quotes",
            )
        )
    if getattr(event, "tag", None) is not None:
        raise Stop(
            Problem(
                place,
                f"{event.tag.replace('tag:yaml.org,2002:', '!!')} is a YAML tag, "
                "and tags are not read here",
                "a plain value",
                "delete it, or put a text that begins with ! in quotes",
            )
        )


def _key(node: Node) -> Scalar:
    if not isinstance(node, Scalar):
        raise Stop(
            Problem(
                node.place,
                f"{node.shape} stands where a key is wanted",
                "a single word before the colon",
                "write a word, or put a text that begins with { or [ in quotes",
            )
        )
    if node.text == "<<" and not node.quoted:
        raise Stop(
            Problem(
                node.place,
                "<< is a YAML merge key, which is not read here",
                "each key written out",
                "write the keys themselves",
            )
        )
    return node


def _too_deep(place: Place) -> Problem:
    return Problem(
        place,
        "lists and mappings are nested too deeply",
        f"at most {DEEPEST} levels",
        "look for a bracket that is not closed, or a line that is indented too far",
    )


def _given_twice(node: Node) -> Iterator[Problem]:
    assert isinstance(node, Mapping)
    first: dict[str, Scalar] = {}
    for key, _ in node.entries:
        if key.text in first:
            yield Problem(
                key.place,
                f"the key '{key.text[:40]}' is given twice; it stands on line "
                f"{first[key.text].line} too",
                "each key once",
                "delete one of the two",
            )
        else:
            first[key.text] = key
    node.entries = [(key, value) for key, value in node.entries if first[key.text] is key]
