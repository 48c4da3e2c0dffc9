"""The files of the season that follows."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from reportgen.algebra.numbers import Numbers
from reportgen.model.records import ONLY_SEASON
from reportgen.model.season import Season
from reportgen.model.season_head import KEYS
from reportgen.next.closing import Closing, Item, closing
from reportgen.next.settings import as_written, block, lines_of
from reportgen.pen.scalars import Written, flow, scalar
from reportgen.read.files import text_of
from reportgen.read.folder import find, listed
from reportgen.read.nodes import Mapping
from reportgen.read.yaml import parse
from reportgen.units.days import date_of

SEASON, LEFT = "season.yaml", "batches/from-last-season.yaml"
_OWN = ("season", "as_of", "dryers", "carried_over", "plan", "closed")
"""Keys that the next season has otherwise, or not at all."""
_SCHEMA = "# yaml-language-server: $schema={}\n"


def opening(path: Path, season: Season, numbers: Numbers) -> tuple[dict[str, bytes], list[str]]:
    """The files of the season that follows the one at ``path``, by name, and what is to be said of
    them."""
    found, _ = find(path)
    assert found.season is not None
    text, _ = text_of(found.season, found.season.name)
    node, _ = parse(text, SEASON)
    assert isinstance(node, Mapping)
    closed = closing(season, numbers)
    files = {SEASON: _text(_season(node, text, season, numbers, closed)).encode()}
    if closed.lots or closed.packs:
        files[LEFT] = _text(_left(season, closed)).encode()
    for each in listed(found.recipes) if found.recipes else ():
        files[f"recipes/{each.name}"] = each.read_bytes()
    return files, closed.notes


def next_name(name: str) -> str:
    """The name of the season that follows: a year in it is raised by one."""
    years = re.findall(r"(?<!\d)(?:19|20)\d\d(?!\d)", name)
    if len(years) != 1:
        return f"{name}, next season"
    return name.replace(years[0], str(int(years[0]) + 1))


def _text(lines: Iterator[str]) -> str:
    return "\n".join(lines) + "\n"


def _season(
    node: Mapping, text: str, season: Season, numbers: Numbers, closed: Closing
) -> Iterator[str]:
    written = lines_of(node, text)
    day = numbers.value("season", "as_of")
    assert isinstance(day, float | int)
    yield _SCHEMA.format("schema/season.json").rstrip()
    yield f"# It begins from {_one_line(season.name)}, as that stood on {date_of(day)}: what was"
    yield "# left is below and in batches/. Change what is no longer so: prices, rates, the plan."
    yield f"season: {scalar(next_name(season.name))}"
    for key, value in node.entries:
        if key.text == "dryers":
            yield ""
            yield from _dryers(as_written(value), closed)
        elif key.text in (*KEYS, *ONLY_SEASON) and key.text not in _OWN:
            if key.text in ONLY_SEASON:
                yield ""
            yield from written[key.text]
    if closed.bulk:
        yield "\n# Bulk left from last season, at what it cost then."
        yield from _list("carried_over", closed.bulk)
    yield "\n# Look again at what shops ask; those of last season grow stale by their dates."
    yield from _list("offers", closed.offers)
    yield ""
    yield from (f"# {line}" for line in closed.notes)
    yield "# What is to be on the shelf; last season's plan as an example."
    yield "plan: []"
    yield from (f"# {line}".rstrip() for line in written.get("plan", ()))
    if "closed" in written:
        yield "# Days on which a dryer does not run; last season's as an example."
        yield from (f"# {line}".rstrip() for line in written["closed"])


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _dryers(value: Written, closed: Closing) -> Iterator[str]:
    assert isinstance(value, list)
    yield "# runs_before and saved_before hold what earlier seasons did, the last included."
    yield "dryers:"
    for dryer in value:
        assert isinstance(dryer, dict)
        brought = closed.dryers[str(dryer["id"])]
        kept = {k: v for k, v in dryer.items() if k not in ("runs_before", "saved_before")}
        end = kept.pop("upkeep", None)
        new: Item = {**kept, "runs_before": brought.runs}
        if brought.saved is not None:
            new["saved_before"] = brought.saved
        if end is not None:
            new["upkeep"] = end
        lines = block(
            "dryer", new, {"runs_before" if brought.saved is None else "saved_before": brought.how}
        )
        if len(lines) == 1:
            lines = ["", *(f"  {each}" for each in lines)]
        yield from (f"  {'- ' if n == 0 else '  '}{line[2:]}" for n, line in enumerate(lines[1:]))


def _list(key: str, items: list[Item]) -> Iterator[str]:
    yield f"{key}:" if items else f"{key}: []"
    yield from (f"  - {flow(item)}" for item in items)


def _left(season: Season, closed: Closing) -> Iterator[str]:
    yield _SCHEMA.format("../schema/batch.json").rstrip()
    yield f"# Left from {_one_line(season.name)}: what it cost then is in `carried`, and in no"
    yield "# money of this season. `from` leads back to the runs and lots in its files."
    if closed.lots:
        yield "# Prepared and still to be dried; running and full are for all of it."
        yield from _list("lots", closed.lots)
    if closed.packs:
        yield "# On the shelf; running and full are for one."
        yield from _list("packs", closed.packs)
