"""The fixed texts of the hand-outs in one language: one catalogue file a language."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from reportgen.handout.content import Figure, Sentence
from reportgen.read.files import read
from reportgen.read.nodes import Mapping, Node, Scalar

ENGLISH = "en"
_HOLE = re.compile(r"\{(\w+)\}")


class Texts:
    """The texts by their dotted path in the catalogue: ``page.skip``.

    ``folder`` holds ``en.yaml`` and its translations. A language without a file gets the English
    texts, and says so in :attr:`language`.
    """

    def __init__(self, folder: Path, language: str) -> None:
        path = folder / f"{language}.yaml"
        self.language = language if path.is_file() else ENGLISH
        self.all = _texts(folder / f"{self.language}.yaml")

    def __getitem__(self, path: str) -> str:
        return self.all[path]

    def label(self, table: str, name: str) -> str:
        """What a quantity is called."""
        return self.all[f"labels.{table}.{name}"]

    def said(self, text: str) -> tuple[str, str]:
        """One of the fixed texts of the definitions in this language, and the language it is in:
        English where nobody has translated it; empty where it is that of the hand-out."""
        found = self.all.get(f"said.{text}")
        if found is not None:
            return found, ""
        return text, "" if self.language == ENGLISH else ENGLISH

    def fill(self, path: str, **figures: Figure) -> Sentence:
        """A sentence with figures in its holes."""
        pieces = _HOLE.split(self.all[path])
        return tuple(
            figures[piece] if number % 2 else piece
            for number, piece in enumerate(pieces)
            if number % 2 or piece
        )


def _texts(path: Path) -> dict[str, str]:
    node, problems = read(path, path.name)
    assert node is not None and not problems, problems
    return dict(_flat(node, ""))


def _flat(node: Node, path: str) -> Iterator[tuple[str, str]]:
    assert isinstance(node, Mapping), f"{path} in the catalogue holds no texts"
    for key, value in node.entries:
        here = f"{path}{key.text}"
        if isinstance(value, Scalar):
            yield here, " ".join(value.text.split())
        else:
            yield from _flat(value, f"{here}.")
