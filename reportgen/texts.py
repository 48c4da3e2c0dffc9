"""The catalogue of texts: every fixed text of workbooks, hand-outs and labels, a file a language.

Hand-outs and labels name their texts by a path: ``page.skip``. Workbooks and definitions are
written in English, and their English is the key: a translation keeps it under ``said``. A text that
the English catalogue holds as well is translated there, and nowhere else.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import TypeVar

from reportgen.algebra.phrases import HOLE, Say, is_neutral, spoken
from reportgen.read.files import read
from reportgen.read.nodes import Mapping, Node, Scalar

ENGLISH = "en"
SAID = "said"
"""The part of a translation whose keys are the English texts themselves."""
_LANGUAGE = re.compile(r"[a-z]{2,3}(?![a-z])")

Part = TypeVar("Part")


class Texts:
    """The texts in one language, by their dotted path in the catalogue or by their English.

    ``folder`` holds ``en.yaml`` and its translations; ``locale`` is a language, or a language and
    a place. A language without a file gets the English texts, and says so in :attr:`language`.
    """

    def __init__(self, folder: Path, locale: str) -> None:
        found = _LANGUAGE.match(locale.lower())
        wanted = found[0] if found else ENGLISH
        self.language = wanted if (folder / f"{wanted}.yaml").is_file() else ENGLISH
        self.all = _texts(folder / f"{self.language}.yaml")
        self._by_english: dict[str, str] = {}
        self.say: Say = str
        """A fixed text, or the pattern of one, in this language; in English where nobody has
        translated it."""
        if self.language != ENGLISH:
            self.say = lambda text: self._by_english.get(text, text)
            english = _texts(folder / f"{ENGLISH}.yaml")
            self._by_english = {text: self.all[path] for path, text in english.items()}
            said = f"{SAID}."
            self._by_english |= {
                path.removeprefix(said): text
                for path, text in self.all.items()
                if path.startswith(said)
            }

    def __getitem__(self, path: str) -> str:
        return self.all[path]

    def knows(self, text: str) -> bool:
        """Whether a fixed text can be said in this language."""
        return self.language == ENGLISH or is_neutral(text) or text in self._by_english

    def spoken(self, text: str) -> str:
        """A phrase in this language; a plain text is somebody's own and stays."""
        return text if self.language == ENGLISH else spoken(text, self.say)

    def said(self, text: str) -> tuple[str, str]:
        """A fixed text in this language, and the language it is in: English where nobody has
        translated it; empty where it is that of the hand-out."""
        return self.say(text), "" if self.knows(text) else ENGLISH

    def fill(self, path: str, **parts: Part) -> tuple[str | Part, ...]:
        """A sentence with parts of any kind in its holes."""
        pieces = HOLE.split(self.all[path])
        return tuple(
            parts[piece] if number % 2 else piece
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
            yield here, value.text
        else:
            yield from _flat(value, f"{here}.")
