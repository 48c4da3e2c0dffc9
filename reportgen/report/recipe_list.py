"""The product data to read: a list of all recipes, or one with every value and its source."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from reportgen.model.catalogue import Catalogue, Entry, Recipe
from reportgen.model.recipes import SHIPPED

_WIDTH = 98
_LABEL = 20
_HEADS = ("ID", "NAME", "KIND", "WATER", "WATER FROM")
_AMOUNTS = (
    "water", "target_moisture", "prep_yield", "skeletal_density", "run_time", "tray_loading",
    "best_by",
)  # fmt: skip
"""Keys whose values come from somewhere."""
_NOT_STATED = "not stated"
_YES_NO = {"true": "yes", "false": "no"}


def listed(found: Catalogue) -> Iterator[str]:
    """A line for each recipe: id, name, kind, water as prepared, and who published that."""
    rows = [_HEADS, *(_row(found, recipe) for recipe in found.recipes.values())]
    widths = [max(len(row[n]) for row in rows) for n in range(len(_HEADS))]
    for row in rows:
        cells = (text.ljust(width) for text, width in zip(row, widths, strict=True))
        yield "  ".join(cells).rstrip()
    yield ""
    yield f"{len(found.recipes)} products. One of them with every value: reportgen recipes ID"


def _row(found: Catalogue, recipe: Recipe) -> tuple[str, ...]:
    water = recipe.values.get("water")
    source = water.source if water else ""
    words = found.sources.get(source, {})
    origin = ", ".join(words[key] for key in ("publisher", "year") if key in words) or source
    if source == "practice":
        origin = "common practice"
    return (
        recipe.id, recipe.text("name"), recipe.text("kind"), recipe.text("water"), origin,
    )  # fmt: skip


def whole(found: Catalogue, recipe: Recipe) -> Iterator[str]:
    """Everything that is known of one product; the sources stand at the end, numbered."""
    numbers: dict[str, int] = {}

    def sourced(entry: Entry) -> str:
        number = numbers.setdefault(entry.source, len(numbers) + 1) if entry.source else 0
        spread = f", from {' to '.join(entry.spread)}" if entry.spread else ""
        own = "" if _ships(entry) else f" ({entry.place.file}:{entry.place.line})"
        return f"{entry.text}{spread}{f' [{number}]' if number else ''}{own}"

    kind = f" ({recipe.text('kind')})" if recipe.text("kind") else ""
    yield f"{recipe.id}: {recipe.text('name')}{kind}"
    amounts = [(_label(key), recipe.values[key]) for key in _AMOUNTS if key in recipe.values]
    amounts += [(f"one {name}", entry) for name, entry in recipe.containers.items()]
    if amounts:
        yield ""
    for label, entry in amounts:
        yield from _line(label, sourced(entry))
        if entry.note:
            yield from _line("", entry.note)
    said = {key for key in recipe.values if key not in (*_AMOUNTS, "name", "kind")}
    words = [(key, entry) for key, entry in recipe.values.items() if key in said and entry.text]
    if words:
        yield ""
    for key, entry in words:
        yield from _line(_label(key), _YES_NO.get(entry.text, entry.text))
    if recipe.cautions:
        yield "\nCautions"
    for entry in recipe.cautions:
        yield from _wrapped(sourced(entry), "  - ", "    ")
    if numbers:
        yield "\nSources"
    for source, number in numbers.items():
        mark = f"  [{number}] "
        yield from _wrapped(_spelt(found, source), mark, " " * len(mark))


def _ships(entry: Entry) -> bool:
    return entry.place.file.startswith(SHIPPED)


def _label(key: str) -> str:
    return key.replace("_", " ")


def _spelt(found: Catalogue, source: str) -> str:
    """A source in words; one that was not seen for the value says so."""
    known = found.sources.get(source)
    if known is None:
        return f"{source}: no sources file says what this is"
    if source == "practice":
        return f"{known.get('title', source)}: {known.get('publisher', '')}"
    words = [known.get(key, "") for key in ("title", "publisher", "year", "where")]
    words = [word for word in words if word and word != _NOT_STATED]
    memory = " (from memory, not seen)" if known.get("seen") == "memory" else ""
    return ", ".join(words) + memory


def _line(label: str, text: str) -> Iterator[str]:
    yield from _wrapped(text, f"{label:<{_LABEL}}", " " * _LABEL)


def _wrapped(text: str, first: str, rest: str) -> list[str]:
    return textwrap.wrap(
        " ".join(text.split()), _WIDTH, initial_indent=first, subsequent_indent=rest,
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip
