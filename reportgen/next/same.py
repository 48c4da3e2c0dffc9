"""What a season opens with, held against what the last closed with."""

from __future__ import annotations

from collections.abc import Iterator

from reportgen.algebra.numbers import Numbers
from reportgen.model.season import Value
from reportgen.next.closing import Row, rows

_PACKS = {
    "on_hand": "count",
    "net": "net",
    "running_each": "running_each",
    "full_each": "full_each",
    "dryness": "dryness",
}
_LOTS = {
    "waiting": "prepped",
    "waiting_cost": "carried_running",
    "waiting_full": "carried_full",
    "water": "water",
}
_BULK = {"unpacked": "dried", "running_bulk": "running", "full_bulk": "full"}
_MIX = ("left", "running_by_weight", "full_by_weight")
"""What a mix has in place of these: what is left of it is bulk of its product."""


def differences(last: Numbers, following: Numbers) -> list[str]:
    """What is not the same, to the last digit, in weight or in money."""
    return [
        f"{what}: {closed} at the end, {opened} at the beginning"
        for what, closed, opened in compared(last, following)
        if closed != opened
    ]


def compared(last: Numbers, following: Numbers) -> Iterator[tuple[str, Value, Value]]:
    """Each figure that goes over: what it is, at the end, and at the beginning."""
    packs = [row for row in rows(last, "packs") if _above(row["on_hand"])]
    yield from _each("packs", packs, list(rows(following, "packs")), _PACKS)
    lots = [row for row in rows(last, "lots") if row["some_waiting"]]
    yield from _each("lots", lots, list(rows(following, "lots")), _LOTS)
    bulk = [{name: row[name] for name in ("key", *_BULK)}
            for row in rows(last, "products") if row["left_in_bulk"]]  # fmt: skip
    bulk += [
        {"key": row["product"], **dict(zip(_BULK, (row[name] for name in _MIX), strict=True))}
        for row in rows(last, "mixes")
        if row["some_left"]
    ]
    opened = [{**row, "key": row["product"]} for row in rows(following, "carried_over")]
    yield from _each("bulk", _numbered(bulk), _numbered(opened), _BULK)
    dryers = list(rows(last, "dryers"))
    names = {"runs_done": "runs_before", "saved_in_all": "saved_before"}
    known = [{**row, "saved_in_all": _saved(row)} for row in dryers]
    yield from _each("dryers", known, list(rows(following, "dryers")), names)


def _numbered(bulk: list[Row]) -> list[Row]:
    """Bulk of one product may be there more than once: from its runs, and of mixes."""
    return [{**row, "key": f"{n}, {row['key']}"} for n, row in enumerate(bulk, 1)]


def _above(value: Value) -> bool:
    return isinstance(value, float | int) and value > 0


def _saved(row: Row) -> Value:
    return row["saved_before"] if row["saved_in_all"] is None else row["saved_in_all"]


def _each(
    what: str, closed: list[Row], opened: list[Row], names: dict[str, str]
) -> Iterator[tuple[str, Value, Value]]:
    there = {row["key"]: row for row in opened}
    yield f"{what}, how many", len(closed), len(opened)
    for row in closed:
        other = there.get(row["key"], {})
        for end, begin in names.items():
            yield f"{end} of {what} {row['key']}", row[end], other.get(begin)
