"""Faults are what they say: each can be made, and what is said to be equal is among them."""

from __future__ import annotations

from pathlib import Path

import pytest

from mutants.by_hand import FAULTS
from mutants.made import every_fault, other_values
from mutants.report import equal
from reportgen.trade import BOOK

pytestmark = pytest.mark.slow

ROOT = Path(__file__).resolve().parents[2]


def test_each_fault_by_hand_has_its_place() -> None:
    """Where the program has moved on, its text in ``by_hand.py`` follows."""
    for fault in FAULTS:
        text = (ROOT / fault.file).read_text(encoding="utf-8")
        assert text.count(fault.old) == 1 and fault.old != fault.new, fault.name
        assert all((ROOT / each).exists() for each in fault.tests.split()), fault.name


def test_the_machine_makes_many_of_every_table() -> None:
    made, refused = every_fault(BOOK)
    assert len(made) > 2000 and refused > 100
    assert {each.table for each in made} == {each.table.name for each in BOOK}
    assert len({each.id for each in made}) == len(made)


def test_what_is_said_to_be_equal_is_made() -> None:
    made = {each.id for each in (*every_fault(BOOK)[0], *other_values(BOOK))}
    assert equal().keys() <= made
