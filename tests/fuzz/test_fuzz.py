"""The fuzzer in the gate: the same inputs every time, for less than a minute.

``python tests/fuzz/by_hand.py SECONDS`` goes on for as long as one likes, led by coverage.
"""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest
from memory import forget, peak
from thorough import some

from fuzz.corpus import corpus
from fuzz.judge import Fault, commands, judge
from fuzz.mutate import mutated

BEGIN = corpus()
FOUND = sorted((Path(__file__).parent / "found").glob("*.txt"))
"""Inputs that once brought it down."""
ROUNDS, EACH = some(of=12, at_every_change=6), 25

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("seed", range(ROUNDS))
def test_no_input_brings_it_down(seed: int) -> None:
    rng = Random(seed)
    codes: set[int] = set()
    before = forget()
    for number in range(EACH):
        text = mutated(rng.choice(BEGIN[:3] * 40 + BEGIN), rng, BEGIN)
        try:
            codes.update(judge(text, commands(rng, built=number % 6 == 0)))
        except Fault as fault:
            raise AssertionError(f"{fault}\n{text}") from fault
    assert codes >= {0, 1}  # some of it is read, and some refused
    assert peak() - before < 500


@pytest.mark.parametrize("found", FOUND, ids=lambda path: path.stem)
def test_what_once_brought_it_down(found: Path) -> None:
    judge(found.read_text("utf-8"), commands(Random(0), built=True))
    judge(found.read_text("utf-8"), [["check", "S"], ["build", "S", "-o", "out.xlsx"]])


def test_a_fault_is_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    """The judge itself can fail."""

    def broken(*_: object) -> None:
        raise KeyError("shed")

    monkeypatch.setattr("reportgen.program.read", broken)
    with pytest.raises(Fault, match="KeyError"):
        judge(BEGIN[0], [["check", "S"]])
