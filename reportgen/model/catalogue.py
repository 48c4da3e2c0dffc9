"""The product data by itself, without a season's records: every recipe as it was written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from reportgen.model.bind import Binder
from reportgen.model.draft import Gathering
from reportgen.model.recipes import Recipes
from reportgen.model.season_head import SeasonHead, read_head
from reportgen.read import files
from reportgen.read.folder import find
from reportgen.read.nodes import Mapping, Node, Scalar, Sequence
from reportgen.read.problem import Place, Problem

_SPREAD = ("low", "high")


@dataclass(frozen=True)
class Entry:
    """A value of a recipe as written, where it stands, and what it rests on."""

    text: str
    place: Place
    spread: tuple[str, ...] = ()
    """The lowest and the highest to expect, where they are known."""
    source: str = ""
    """The id of its source."""
    note: str = ""


@dataclass(frozen=True)
class Recipe:
    """All that is known of a product before it is made, by the recipe's keys."""

    id: str
    values: dict[str, Entry] = field(default_factory=dict)
    containers: dict[str, Entry] = field(default_factory=dict)
    cautions: tuple[Entry, ...] = ()

    def text(self, key: str) -> str:
        """A value as written; empty where the recipe has none."""
        return self.values[key].text if key in self.values else ""


@dataclass(frozen=True)
class Catalogue:
    """Recipes by id, and what the sources files say of each source."""

    recipes: dict[str, Recipe]
    sources: dict[str, dict[str, str]]


def catalogue(shipped: Path, season: Path | None) -> tuple[Catalogue | None, list[Problem]]:
    """Every recipe that ships, and those of a season above them, key by key.

    Never raises for bad input; there is no catalogue where a problem is an error.
    """
    problems: list[Problem] = []
    head, folder, own = SeasonHead(), shipped, None
    if season is not None:
        found, problems = find(season)
        if found.season is None:
            return None, problems
        node, wrong = files.read(found.season, found.name(found.season), found.root)
        problems += wrong
        head = read_head(node, found.name(found.season), problems)
        folder, own = found.folder, found.recipes
    gathering = Gathering(head.slots, folder, head.zone, problems)
    recipes = Recipes(Binder(gathering), shipped, own)
    recipes.check_own()
    made = {}
    for product in recipes.known:
        named = recipes.draft(product).text("name")
        made[product] = _recipe(product, named, dict(_entries(recipes, product)))
    if any(each.severity == "error" for each in problems):
        return None, list(dict.fromkeys(problems))
    return Catalogue(made, recipes.sources()), list(dict.fromkeys(problems))


def _entries(recipes: Recipes, product: str) -> Iterator[tuple[str, Node]]:
    """What ships, then what the season puts in its place; containers add up."""
    shipped, own = recipes.written(product)
    for part in (shipped, own):
        for key, value in part.entries if part else ():
            held = shipped.get("containers") if shipped and part is own else None
            if key.text == "containers" and isinstance(held, Mapping):
                given = value.entries if isinstance(value, Mapping) else []
                names = {name.text for name, _ in given}
                kept = [(name, each) for name, each in held.entries if name.text not in names]
                value = Mapping(value.file, value.line, value.column, [*kept, *given])
            yield key.text, value


def _recipe(product: str, name: str, entries: dict[str, Node]) -> Recipe:
    containers = entries.pop("containers", None)
    cautions = entries.pop("cautions", None)
    first = next(iter(entries.values()), None)
    values = {"name": Entry(name, first.place if first else Place(""))}
    values |= {key: _entry(value) for key, value in entries.items()}
    return Recipe(
        product,
        values,
        {key.text: _entry(value) for key, value in containers.entries}
        if isinstance(containers, Mapping)
        else {},
        tuple(_entry(each) for each in cautions.items) if isinstance(cautions, Sequence) else (),
    )


def _entry(node: Node) -> Entry:
    match node:
        case Mapping():
            text = _text(node, "value") or _text(node, "text")
            spread = tuple(_text(node, key) for key in _SPREAD)
            note = _text(node, "note") or _text(node, "basis")
            return Entry(
                text, node.place, spread if all(spread) else (), _text(node, "source"), note
            )
        case Sequence():
            words = [each.text for each in node.items if isinstance(each, Scalar)]
            return Entry(", ".join(words), node.place)
        case Scalar():
            return Entry("" if node.empty else node.text, node.place)
    return Entry("", node.place)


def _text(node: Mapping, key: str) -> str:
    held = node.get(key)
    return " ".join(held.text.split()) if isinstance(held, Scalar) else ""
