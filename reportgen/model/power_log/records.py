"""The records that nobody writes: a run's energy by period and its power, read from its log."""

from __future__ import annotations

from dataclasses import dataclass, replace

from reportgen.algebra.inputs import Input
from reportgen.model.fields import Day, Field, Quantity, Record, Ref, Text
from reportgen.units import ENERGY, HOUR, POWER

GAP_HOURS = 0.25
"""Time without a reading that is worth a word: a plug reports every few minutes at most."""


@dataclass(frozen=True)
class Shown(Field):
    """A field that the program fills in and nobody types over."""

    of: Field

    def _inputs(self) -> tuple[Input, ...]:
        return tuple(replace(each, fixed=True) for each in self.of.inputs)


def _shown(field: Field) -> Shown:
    return Shown(field.name, field.doc, of=field)


run_energy = Record(
    "run_energy",
    "A run's energy in each period of the tariff, from its log; and what a change of the "
    "clocks adds to the period or takes from it.",
    (
        Ref("run", "The run.", table="runs"),
        Ref("period", "The period of the tariff; left out where none holds.", table="periods"),
        _shown(Quantity("hours", "Hours of the run in it, when its log was read.", HOUR)),
        Quantity("kwh", "Energy of the run in it, from the log.", ENERGY, head="energy"),
        Quantity(
            "unlogged",
            "Hours in it without a reading: gaps, and what the log leaves out.",
            HOUR,
            head="hours without a reading",
        ),
        Quantity(
            "clock_change",
            "Hours that a change of the clocks within the run adds to it, or takes.",
            HOUR,
            signed=True,
            head="clock change",
        ),
        Day("changed", "When the clocks are changed.", clock=True, head="clocks changed"),
        _shown(Text("remark", "What was odd about the run's log, and put right on reading.")),
    ),
    key="position",
)

power = Record(
    "power",
    "A run's power over time, each row the mean of a short while; read from its log.",
    (
        _shown(Ref("run", "The run.", table="runs")),
        _shown(Quantity("since", "Hours since the start.", HOUR, head="since the start")),
        _shown(Quantity("watt", "Mean power around that time.", POWER, head="mean power")),
    ),
    key="position",
)
