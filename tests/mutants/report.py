"""What is told of the faults that were tried."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Mapping
from pathlib import Path

import yaml

from mutants.made import Fault
from mutants.tried import Trial

EQUAL = Path(__file__).with_name("equal.yaml")


def equal() -> dict[str, str]:
    """The faults that are said to change nothing, and why."""
    written: list[Mapping[str, object]] = yaml.safe_load(EQUAL.read_text(encoding="utf-8")) or []
    found: dict[str, str] = {}
    for group in written:
        for each in group["faults"]:  # type: ignore[attr-defined]
            found[str(each)] = str(group["why"])
    return found


class Report:
    """Prints who caught each fault as it is tried, and at the end how many by table."""

    def __init__(self, made: Iterable[Fault]) -> None:
        self._equal = equal()
        self._amiss = sorted(self._equal.keys() - {each.id for each in made})
        self._count = {kind: Counter[str]() for kind in ("caught", "equal", "left")}

    def tell(self, trial: Trial) -> None:
        """Print one."""
        fault = trial.fault
        if trial.by is not None:
            kind, why = "caught", f"by {trial.by}"
            if fault.id in self._equal:
                self._amiss.append(fault.id)
        elif fault.id in self._equal:
            kind, why = "equal", self._equal[fault.id]
        else:
            kind, why = "left", f"NOT CAUGHT; shows in {trial.shows_in or 'no'} tests"
        self._count[kind][fault.table] += 1
        # pytest keeps what is printed meanwhile to itself.
        print(f"{kind:<8}{fault.id}\n        {why}", flush=True, file=sys.__stdout__)

    def end(self) -> bool:
        """Print the table; whether none went unnoticed, and the list of equal ones is right."""
        for each in self._amiss:
            print(f"equal.yaml names what is not made any more, or is caught: {each}")
        caught, same, left = self._count.values()
        print(f"\n{'table':<14}{'made':>6}{'caught':>8}{'equal':>7}{'left':>6}")
        for table in sorted(caught | same | left):
            _row(table, caught[table], same[table], left[table])
        _row("all", caught.total(), same.total(), left.total())
        return not left and not self._amiss


def _row(name: str, caught: int, same: int, left: int) -> None:
    print(f"{name:<14}{caught + same + left:>6}{caught:>8}{same:>7}{left:>6}")
