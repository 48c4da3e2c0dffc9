"""The settings of a season's file: each key's own lines, comments included, as they stand."""

from __future__ import annotations

from collections.abc import Iterator

from reportgen.pen.scalars import Written, flow, scalar
from reportgen.read.nodes import Mapping, Node, Scalar, Sequence

_WIDTH = 100
_STEP = "  "


def lines_of(node: Mapping, text: str) -> dict[str, list[str]]:
    """The lines of each key of a file: those above it that are comments, and all below it up to the
    next key's. A file that is one flow mapping has its keys written anew."""
    written = [line.rstrip() for line in text.splitlines()]
    starts = [key.line - 1 for key, _ in node.entries]
    if any(key.column != 1 for key, _ in node.entries) or len({*starts}) < len(starts):
        return {key.text: block(key.text, as_written(value)) for key, value in node.entries}
    found: dict[str, list[str]] = {}
    ends = [*starts[1:], len(written)]
    for number, ((key, _), start, end) in enumerate(zip(node.entries, starts, ends, strict=True)):
        first = start
        while number and first and written[first - 1].startswith("#"):
            first -= 1
        while end > start + 1 and _beside(written[end - 1]):
            end -= 1
        found[key.text] = written[first:end]
    return found


def _beside(line: str) -> bool:
    """A line that belongs to no value, or to the key below it."""
    return not line or line.startswith(("#", "---", "..."))


def as_written(node: Node) -> Written:
    """A node as a value to be written; what is left empty is left out."""
    match node:
        case Scalar():
            return node.text
        case Sequence():
            return [as_written(item) for item in node.items if not _empty(item)]
        case Mapping():
            return {key.text: as_written(held) for key, held in node.entries if not _empty(held)}
    raise TypeError(node.shape)


def _empty(node: Node) -> bool:
    return isinstance(node, Scalar) and node.empty


def block(key: str, value: Written, comments: dict[str, str] | None = None) -> list[str]:
    """A key and its value, on one line where it fits; ``comments`` stand behind keys below it."""
    return list(_lines(scalar(key), value, "", comments or {}))


def _lines(key: str, value: Written, indent: str, comments: dict[str, str]) -> Iterator[str]:
    said = comments.get(key, "")
    line = f"{indent}{key}: {flow(value)}{f'  # {said}' if said else ''}"
    listed = not isinstance(value, str) and indent == ""
    if isinstance(value, str) or not value or (len(line) <= _WIDTH and not listed):
        yield line
    elif isinstance(value, dict):
        yield f"{indent}{key}:"
        for name, held in value.items():
            yield from _lines(scalar(name), held, indent + _STEP, comments)
    else:
        yield f"{indent}{key}:"
        for item in value:
            yield from _item(item, indent + _STEP, comments)


def _item(item: Written, indent: str, comments: dict[str, str]) -> Iterator[str]:
    line = f"{indent}- {flow(item)}"
    if len(line) <= _WIDTH or not isinstance(item, dict):
        yield line
        return
    inner = [
        line
        for name, held in item.items()
        for line in _lines(scalar(name), held, indent + _STEP, comments)
    ]
    yield f"{indent}- {inner[0].lstrip()}"
    yield from inner[1:]
