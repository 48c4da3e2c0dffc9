"""Which packs get labels, how many, and which are refused and why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reportgen.algebra.numbers import Numbers
from reportgen.labels.weight import declare
from reportgen.model.season import Season
from reportgen.read.problem import Problem

NOT_SHOWN, DOUBTFUL, NOT_NAMED = "not shown", "doubtful", "origin not named"
"""What ``packs.dryness`` says of packs that are not dry for certain."""


@dataclass(frozen=True)
class Chosen:
    """A pack's row, how many labels it gets, and what is known of its dryness."""

    row: int
    count: int
    dryness: str


class Unknown(ValueError):
    """A pack that was asked for is not in the season."""

    def __init__(self, pack: str, known: Sequence[str]) -> None:
        super().__init__(pack)
        self.pack = pack
        self.known = known


def choose(
    season: Season,
    numbers: Numbers,
    packs: Sequence[str] = (),
    count: int | None = None,
    doubtful: bool = False,
) -> tuple[list[Chosen], list[Problem]]:
    """The packs to label, and what stands in the way of the others.

    ``packs``: ids, in any case; none means all that are on hand. ``count``: labels for each, in
    place of what is on hand. Raises :class:`Unknown`.
    """
    keys = [str(key) for key in numbers.cells["packs"]["key"]]
    folded = [key.casefold() for key in keys]
    for pack in packs:
        if pack.casefold() not in folded:
            raise Unknown(pack, keys)
    wanted = {pack.casefold() for pack in packs}
    chosen, problems = [], []
    for row, key in enumerate(folded):
        if wanted and key not in wanted:
            continue
        on_hand = numbers.value("packs", "on_hand", row)
        left = int(on_hand) if isinstance(on_hand, int | float) else None
        number = left if count is None else count
        dryness = str(numbers.value("packs", "dryness", row) or NOT_SHOWN)
        if number is not None and number <= 0 and not wanted:
            continue
        wrong = _wrong(season, numbers, row, number, dryness, doubtful)
        if wrong is not None:
            problems.append(wrong)
        elif number is not None:
            chosen.append(Chosen(row, number, dryness))
    return chosen, problems


def loads_of(numbers: Numbers, row: int) -> list[int]:
    """The rows of the loads that a pack came from."""
    trace = numbers.book.tables["trace"]
    packs, loads = numbers.found(trace, "pack"), numbers.found(trace, "load")
    pairs = zip(packs, loads, strict=True)
    return [load for pack, load in pairs if pack == row and load is not None]


def _wrong(
    season: Season,
    numbers: Numbers,
    row: int,
    number: int | None,
    dryness: str,
    doubtful: bool,
) -> Problem | None:
    """Why a pack gets no label."""
    place = season.tables["packs"].places[row]
    key = numbers.value("packs", "key", row)
    net = numbers.value("packs", "net", row)

    def problem(what: str, do: str) -> Problem:
        return Problem(place, f"no label for pack {key}: {what}", do=do)

    if number is None:
        return problem("how many there are is not known", "write its count, or give --count")
    if number <= 0:
        return problem("none is on hand", "correct its uses, or give --count")
    if not isinstance(net, int | float):
        return problem("its net weight is not known", "write net")
    if declare(net, season.dried).nothing:
        return problem("its net weight is too small to be declared", "correct net")
    if dryness == DOUBTFUL and not doubtful:
        return problem(
            f"it may not be dry ({_doubts(numbers, row)})",
            "do not keep it sealed: open it, dry it again and show that it is dry. Moist food "
            "without oxygen can carry botulism, which no look or smell reveals; --doubtful prints "
            "labels that say so",
        )
    return None


def _doubts(numbers: Numbers, row: int) -> str:
    """The loads that are in doubt, each with the reason."""
    found = dict.fromkeys(
        f"load {numbers.value('loads', 'key', load)}: "
        f"{numbers.value('loads', 'dryness_reason', load)}"
        for load in loads_of(numbers, row)
        if numbers.value("loads", "dryness_verdict", load) == DOUBTFUL
    )
    return "; ".join(found) or "a part of its mix"
