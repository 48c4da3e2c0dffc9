"""What cannot be in a plan: days that run backwards, closed days that are counted twice."""

from __future__ import annotations

from reportgen.model.draft import Draft, Gathering

_MOST = 1_000_000
"""Packs of a plan, past which they were not meant so."""


def check_plan(gathering: Gathering) -> None:
    """Note what contradicts itself in the plan and in the closed days."""
    for row in gathering.of("plan"):
        if (row.number("count") or 0) > _MOST:
            gathering.problem(
                row.place_of("count"),
                "nobody packs so many",
                f"at most {_MOST:,}",
                "check the count",
            )
        start, until = row.number("start"), row.number("until")
        if start is not None and until is not None and until < start:
            gathering.problem(
                row.place_of("until"),
                "the produce is gone before the row starts",
                f"{_written(row, 'start')} or a later day",
                "check start and until",
            )
    _closed(gathering)


def _closed(gathering: Gathering) -> None:
    """Of one dryer, no day is closed twice: hours would be taken off twice."""
    of_dryer: dict[str, list[Draft]] = {}
    for each in gathering.of("closed"):
        first, last = each.number("from_day"), each.number("to_day")
        if first is None or last is None:
            continue
        if last < first:
            gathering.problem(
                each.place_of("to_day"),
                "the closed days end before they begin",
                f"{_written(each, 'from_day')} or a later day",
                "check from and to",
            )
            continue
        others = of_dryer.setdefault(each.text("dryer").casefold(), [])
        for other in others:
            if first <= (other.number("to_day") or 0) and (other.number("from_day") or 0) <= last:
                place = other.place
                gathering.problem(
                    each.place_of("from_day"),
                    f"some of these days are closed already ({place.file}:{place.line})",
                    "each day once for a dryer",
                    "make one of the two, from the first day to the last",
                )
                break
        others.append(each)


def _written(draft: Draft, name: str) -> str:
    return draft.origins[name].text
