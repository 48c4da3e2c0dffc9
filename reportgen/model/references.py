"""Ids across files: each given once, and every reference to one that is there."""

from __future__ import annotations

from collections.abc import Iterable

from reportgen.model.batches import PURPOSES
from reportgen.model.draft import Draft, Gathering
from reportgen.model.recipes import Recipes
from reportgen.model.records import RECORDS
from reportgen.read.near import near, one_of, short
from reportgen.read.problem import Place

_TOGETHER = ("lots", "runs", "packs", "offers")
"""Tables whose ids are unique among them all, so that a label or a note can name one alone."""


def check_unique(gathering: Gathering) -> None:
    """Note ids that are given twice; a spreadsheet does not tell ``A-1`` from ``a-1``."""
    _unique(gathering, [draft for table in _TOGETHER for draft in gathering.of(table)])
    for record in RECORDS.values():
        if record.name not in (*_TOGETHER, "products") and record.key in ("id", "derived"):
            _unique(gathering, gathering.of(record.name))


def _unique(gathering: Gathering, drafts: Iterable[Draft]) -> None:
    first: dict[str, Draft] = {}
    for draft in drafts:
        if not draft.key:
            continue
        other = first.setdefault(draft.key.casefold(), draft)
        if other is draft:
            continue
        place = draft.place
        where = f"{other.file}:{other.place.line}"
        if draft.record.name == "loads" and not draft.text("id"):
            gathering.problem(
                place,
                f"the lot {draft.text('lot')} is in this run twice, first on line "
                f"{other.place.line}",
                "an id for a second load of a lot in one run",
                f"add id: {draft.text('lot')}-b, or put the weights together",
            )
        elif draft.key == other.key:
            what = "" if draft.record is other.record else f", by a {other.record.one}"
            gathering.problem(
                place,
                f"the id '{draft.key}' is in use already{what}: {where}",
                f"an id of its own for each {draft.record.one}",
                "choose another; where it was made from the file's name, add id: or rename "
                "the file",
            )
        else:
            gathering.problem(
                place,
                f"the ids '{draft.key}' and '{other.key}' ({where}) differ only in capitals, "
                "which a spreadsheet takes for the same",
                "ids that differ in letters or digits",
                "choose another",
            )


def check_references(gathering: Gathering, recipes: Recipes) -> None:
    """Note references to what is not there, with the near match."""
    known: dict[str, set[str]] = {
        table: {draft.key for draft in gathering.of(table) if draft.key} for table in RECORDS
    }
    known["products"] = set(recipes.known)
    for record in RECORDS.values():
        for column in record.inputs:
            if column.ref is None or (gathering.unsure and column.ref != "products"):
                continue
            there = known[column.ref]
            for draft in gathering.of(record.name):
                value = draft.values.get(column.name)
                if value is None or value in there:
                    continue
                if column.ref == "channels":
                    words = PURPOSES if record.name == "uses" else ()
                    place = draft.place_of(column.name)
                    _no_channel(gathering, place, str(value), [*words, *sorted(there)])
                else:
                    _missing(gathering, draft.place_of(column.name), column.ref, str(value), there)


def _no_channel(gathering: Gathering, place: Place, value: str, words: list[str]) -> None:
    match = near(value, words)
    gathering.problem(
        place,
        f"'{short(value)}' is not one of the words that can stand here",
        one_of(words),
        f"did you mean {match}?" if match else "write one of them, or add it to channels",
    )


def _missing(gathering: Gathering, place: Place, table: str, value: str, there: set[str]) -> None:
    if any("id" in draft.broken for draft in gathering.of(table)):
        return
    one = RECORDS[table].one
    match = near(value, sorted(there))
    if match:
        do = f"did you mean {match}?"
    elif table == "products":
        own = f"add recipes/{short(value)}.yaml to the season"
        do = f"choose one of those that reportgen recipes lists, or {own}"
    else:
        do = f"add it to {table}, or name another"
    gathering.problem(
        place,
        f"there is no {one} '{short(value)}'",
        one_of(sorted(there), 8) if there else f"the id of a {one}; the season has none yet",
        do,
    )


def check_nominal(gathering: Gathering) -> None:
    """Note containers whose weight is needed, and which no recipe knows.

    They are those of lots that were not weighed, and those that a plan is to buy by.
    """
    weights: dict[str, list[str]] = {draft.key: [] for draft in gathering.of("products")}
    for draft in gathering.of("nominal_weights"):
        assert draft.owner is not None
        weights[draft.owner.key].append(draft.text("container"))
    for lot in gathering.of("lots"):
        if not lot.has("weighed"):
            _nominal(gathering, lot, "container", weights, "weigh the lot and add weighed:")
    for row in gathering.of("plan"):
        _nominal(gathering, row, "buy", weights, "name another, or leave it out")
        _nominal(gathering, row, "at_most_of", weights, "name another, or write a weight")


_OR_ELSE = {"container": ", or the lot's weight", "at_most_of": ", or a weight"}


def _nominal(
    gathering: Gathering, draft: Draft, column: str, weights: dict[str, list[str]], advice: str
) -> None:
    container, product = draft.text(column), draft.text("product")
    known = weights.get(product)
    if not container or known is None or container in known:
        return
    match = near(container, known)
    gathering.problem(
        draft.place_of(column),
        f"the recipe {product} does not say what the container '{container}' weighs",
        (one_of(known) or "a container that the recipe names") + _OR_ELSE.get(column, ""),
        f"did you mean {match}?" if match else advice,
    )
