"""A value as YAML writes it: plain where that reads back as the same text, else in quotes."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence

from reportgen.read.nodes import Mapping as Keyed
from reportgen.read.nodes import Node, Scalar
from reportgen.read.nodes import Sequence as Held
from reportgen.read.yaml import parse

_PLAIN = re.compile(r"[\w~][\w ~.%/$()+;_-]*(?::[\w ~.%/$()+;_-]+)*")
"""Characters that no reader takes for anything else; a colon only within a word, as in 18:30."""

Written = str | Sequence["Written"] | Mapping[str, "Written"]
"""A value to be written: a text, a list or a mapping of such."""


def flow(value: Written) -> str:
    """A value on one line, as it may stand anywhere."""
    if isinstance(value, str):
        return scalar(value)
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{scalar(k)}: {flow(v)}" for k, v in value.items()) + "}"
    return "[" + ", ".join(map(flow, value)) + "]"


def scalar(text: str) -> str:
    """A text on one line: the first way of writing it that reads back as itself."""
    single = "'" + text.replace("'", "''") + "'"
    double = json.dumps(text, ensure_ascii=False)
    plain = [text] if _PLAIN.fullmatch(text) and ": " not in text else []
    for form in (*plain, double, single):
        if _reads_as(form, text):
            return form
    return json.dumps(text)


def quoted(text: str, quote: str) -> str:
    """A text in quotes of a kind, where it can stand in them."""
    form = (
        "'" + text.replace("'", "''") + "'"
        if quote == "'"
        else json.dumps(text, ensure_ascii=False)
    )
    return form if _reads_as(form, text) else scalar(text)


def _reads_as(form: str, text: str) -> bool:
    """Whether a form stands for the text in a list, in a mapping and by itself, with a comment
    behind it; nothing is resolved, so ``no`` and ``0123`` are texts as they stand."""
    if not text or "\n" in form or form != form.strip():
        return form != text and _parsed(f"[{form}]") == [text]
    return (
        _parsed(f"[{form}, {form}]") == [text, text]
        and _parsed(f"{{a: {form}, b: {form}}}") == ["a", text, "b", text]
        and _parsed(f"a: {form}  # b") == ["a", text]
    )


def _parsed(source: str) -> list[str] | None:
    """The texts of a piece of YAML, as a season's files are read; None where it is refused."""
    node, problems = parse(source, "")
    return None if problems else list(_texts(node))


def _texts(node: Node | None) -> Iterator[str]:
    match node:
        case Scalar():
            yield "" if node.empty else node.text
        case Held():
            for item in node.items:
                yield from _texts(item)
        case Keyed():
            for key, value in node.entries:
                yield key.text
                yield from _texts(value)
