"""Rules in words, as a reader finds them in a comment or on the sheet of methods."""

from __future__ import annotations

from typing import Any

import pytest

from algebra.toy import Given, book, define, text
from reportgen.algebra.functions import (
    count,
    estimate,
    first_known,
    greatest,
    join,
    known,
    lowest,
    median,
    missing,
    round_up,
    size,
    square_root,
    total,
    total_known,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, TEXT, Kind, Table, constant
from reportgen.algebra.words import Words
from reportgen.units import DRIED, FRESH, MONEY, ONE, Unit

TARE = constant("tare", 0.25, FRESH, "Tare of a tray", "definition")

TRIPS: list[tuple[str, Kind | Unit, Any, str]] = [
    ("a", FRESH, lambda wet, dry: wet - dry, "wet − dry"),
    ("b", ONE, lambda wet, dry: (wet - dry) / wet, "(wet − dry) ÷ wet"),
    ("c", FRESH, lambda wet, dry: wet - (dry - wet), "wet − (dry − wet)"),
    ("d", MONEY, lambda wet, boat: wet * boat.by_weight, "wet × the boat's by weight"),
    ("e", FRESH, lambda wet, dry: first_known(wet, estimate(dry)), "wet; else dry (an estimate)"),
    ("f", FRESH, lambda late, wet, dry: where(late, wet, dry), "wet where late; else dry"),
    ("g", FLAG, lambda wet, dry: wet > dry, "wet is above dry"),
    ("h", FLAG, lambda wet, late: ~known(wet) & late, "not (wet is known), and late"),
    ("i", FRESH, lambda wet: greatest(wet - TARE, 0),
     "the greatest of (wet − tare of a tray (0.25 lb), 0)"),
    ("j", FRESH, lambda wet, dry: round_up(wet + dry, dry),
     "(wet + dry) rounded up to a multiple of dry"),
    ("k", COUNT, lambda wet, dry: round_up(wet / dry, 1),
     "(wet ÷ dry) rounded up to a whole number"),
    ("l", TEXT, lambda boat: join(boat, "/", "x"), "“[boat]/x”"),
    ("m", ONE, lambda wet, dry: square_root(size(wet - dry) / wet),
     "the square root of (the size of (wet − dry) ÷ wet)"),
    ("n", FRESH, lambda late, wet: where(late, unknown(), wet), "unknown where late; else wet"),
    ("o", FLAG, lambda boat: boat == "", "boat is “”"),
    ("p", MONEY, lambda port, wet: port.fee * wet, "the port: fee × wet"),
]  # fmt: skip
BOATS: list[tuple[str, Kind | Unit, Any, str]] = [
    ("q", FRESH, lambda trips: total(trips.wet), "the total wet of its trips"),
    ("r", FRESH, lambda trips: total(trips.wet, trips.late),
     "the total wet of its trips marked late"),
    ("s", FRESH, lambda trips: total_known(trips.wet),
     "the total wet of its trips, as far as known"),
    ("t", COUNT, lambda trips: count(trips), "the number of its trips"),
    ("u", COUNT, lambda trips: missing(trips.wet), "the number of its trips without wet"),
    ("v", FRESH, lambda trips: median(trips.a), "the mean a of its trips marked a: in the middle"),
    ("w", FRESH, lambda trips: lowest(trips.a), "the mean a of its trips marked a: lowest"),
]  # fmt: skip


def _book() -> tuple[Words, dict[str, Any]]:
    port = Table.of("port", "the port", [Given("fee", MONEY / FRESH)], single=True)
    boats = Table.of("boats", "boat", [Given("by_weight", MONEY / DRIED)])
    trips = Table.of(
        "trips",
        "trip",
        [text("boat", "boats"), Given("wet", FRESH), Given("dry", DRIED),
         Given("late", type="flag", zero=True)],
    )  # fmt: skip
    for table, rules in ((trips, TRIPS), (boats, BOATS)):
        for name, kind, body, _ in rules:
            define(table, name, kind, body)
    made = book(port, boats, trips)
    return Words(made, {"fresh": "lb"}), {d.name: d for d in made}


@pytest.mark.parametrize(("name", "rule"), [(name, rule) for name, _, _, rule in TRIPS + BOATS])
def test_a_rule_reads_as_it_is_meant(name: str, rule: str) -> None:
    words, definitions = _book()
    assert words.rule(definitions[name]) == rule
