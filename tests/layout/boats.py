"""A toy trade, whole: boats, their trips and a pier, with definitions, checks and sheets."""

from __future__ import annotations

from collections.abc import Mapping

from reportgen.algebra.book import Book
from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, first_known, join, total, total_known, where
from reportgen.algebra.inputs import Input
from reportgen.algebra.numbers import Cells, Numbers
from reportgen.algebra.tables import COUNT, FLAG, SHARE, TEXT, Table, constant
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.layout.blocks import (
    ChartBlock,
    ChartSpec,
    ConstantsBlock,
    Contents,
    Group,
    LegendBlock,
    ListBlock,
    RulesBlock,
    SentencesBlock,
    Sheet,
    TableBlock,
    TextBlock,
)
from reportgen.units import HOUR, KG, MONEY, ONE, Unit

LB = Unit.of("lb")
FULL = constant("full", 0.9, ONE, "Share from which a trip counts as full", "definition")

boats = Table.of("boats", "boat", [Input("load", "number", "What it may carry.", LB, least=0)])
trips = Table.of(
    "trips",
    "trip",
    [
        Input("boat", "text", "The boat.", ref="boats"),
        Input("cargo", "number", "What it carried.", KG, least=0),
        Input("guess", "number", "What it carried, by the look of it.", KG, measured=False),
        Input("hours", "number", "How long it took.", HOUR, zero=True),
        Input("fare", "number", "What one kilogram paid.", MONEY / KG),
        Input("cause", "text", "Why it was late, if it was.", choices=("storm", "fog")),
        Input("day", "date", "The day it sailed."),
        Input("night", "flag", "Whether it sailed by night.", zero=True),
    ],
)
pier = Table.of("pier", "the pier", [Input("fee", "number", "A trip's.", MONEY)], single=True)
checks = Table.of(
    "checks",
    "check",
    [
        Input(name, "text", doc, fixed=True, ours=True)
        for name, doc in (
            ("of", "Its table."),
            ("severity", "How bad."),
            ("what", "What is wrong."),
            ("do", "What to do."),
        )
    ],
)


@trips.derived(KG)
def carried(cargo: Expr, guess: Expr) -> Expr:
    """What was weighed, else what was guessed."""
    return first_known(cargo, guess)


@trips.derived(SHARE)
def filled(carried: Expr, boat: Link) -> Expr:
    """How full the boat was."""
    return carried / boat.load


@trips.derived(MONEY)
def income(carried: Expr, fare: Expr, pier: SingleRow) -> Expr:
    """What it brought, after the pier's fee."""
    return carried * fare - pier.fee


@trips.derived(SHARE)
def of_its_boat(income: Expr, boat: Link) -> Expr:
    """Its part of what the boat brought."""
    return income / boat.earned


@trips.derived(TEXT)
def told(boat: Link, cause: Expr) -> Expr:
    """The trip in a few words."""
    return join(boat, where(cause == "", "", ": "), cause)


@trips.check("caution", "Weigh it again, or take two trips.")
def too_full(filled: Expr) -> Expr:
    """It carried more than the boat may."""
    return first_known(filled - 1, 0) > 0


@boats.check("error", "Write down what it may carry.")
def carries_nothing(load: Expr) -> Expr:
    """A boat that may carry less than nothing."""
    return first_known(load, 0) < 0


@boats.derived(MONEY)
def earned(trips: Children) -> Expr:
    """What its trips brought."""
    return total(trips.income)


@boats.derived(COUNT)
def full_trips(trips: Children) -> Expr:
    """How many of its trips were full."""
    return count(trips, trips.was_full)


@trips.derived(FLAG)
def was_full(filled: Expr) -> Expr:
    """Whether the boat was about full."""
    return first_known(filled, 0) >= FULL


@pier.derived(MONEY)
def taken(trips: Children) -> Expr:
    """What all trips brought, as far as it is known."""
    return total_known(trips.income)


@pier.derived(COUNT)
def failing(checks: Children) -> Expr:
    """How many rows fail a check."""
    return total(checks.failing)


@pier.derived(TEXT)
def verdict(failing: Expr) -> Expr:
    """The verdict over all."""
    return where(failing > 0, "Look again", "All is well")


@checks.derived(TEXT)
def passed(failing: Expr, severity: Expr) -> Expr:
    """Whether it passes."""
    return where(failing > 0, severity, "ok")


BOOK = Book((boats, trips, pier, checks), checks)

SHEETS = (
    Sheet(
        "Pier",
        "What the boats brought.",
        (
            SentencesBlock("Trips", trips, "told"),
            TableBlock(
                boats,
                (Group("Boat", ("earned", "full_trips"), echo=True),),
                heading="Boats", rest=False, keys=False,
            ),
            ListBlock("All of it", ((pier, ("fee", "taken", "failing", "verdict")),)),
            ChartBlock((ChartSpec("bar", "What they brought", boats, ("earned",), "key", "all"),)),
            TextBlock("Beware", ("Water is wet.",), caution=True),
            LegendBlock("How to read it"),
        ),
        "read",
    ),
    Sheet(
        "Boats and trips",
        "Write down each trip.",
        (
            TableBlock(boats, (Group("Write down", ("load",)),), spare=2),
            TableBlock(
                trips,
                (
                    Group("Write down", ("boat", "cargo", "fare", "day", "cause")),
                    Group("Worked out", ("carried", "filled", "income", "of_its_boat")),
                ),
                heading="Trips", spare=3,
            ),
        ),
        "record",
    ),
    Sheet("Rules", "Every rule.", (RulesBlock("Rules"), ConstantsBlock("Constants")), "audit"),
    Sheet(
        "Checks", "Every check.",
        (TableBlock(checks, (Group("Verdict", ("of", "what", "passed", "failing", "first")),)),),
        "audit",
    ),
)  # fmt: skip

RECORDS: Mapping[str, Cells] = {
    "boats": {"key": ["dora", "lena", "idle"], "load": [1200.0, 900.0, None]},
    "trips": {
        "key": ["t-1", "t-2", "t-3", "t-4"],
        "boat": ["dora", "lena", "dora", None],
        "cargo": [520.0, None, 610.5, 80.0],
        "guess": [None, 350.0, None, None],
        "hours": [2.0, 3.5, None, 1.0],
        "fare": [0.4, 0.35, 0.42, None],
        "cause": [None, "fog", "storm", None],
        "day": [45900.0, 45901.0, 45901.5, None],
        "night": [None, True, False, None],
    },
    "pier": {"key": ["pier"], "fee": [15.0]},
    "checks": {
        "key": [f"{each.table.name}-{each.name}".replace("_", "-") for each in BOOK.checks],
        "of": [each.table.title for each in BOOK.checks],
        "severity": [each.severity for each in BOOK.checks],
        "what": [each.doc for each in BOOK.checks],
        "do": [each.do for each in BOOK.checks],
    },
}
SLOTS = {"fresh": "lb", "dried": "oz", "money": "EUR", "distance": "mile"}


def numbers() -> Numbers:
    """The trade's records, worked out."""
    return worked_out(RECORDS)


def worked_out(records: Mapping[str, Cells]) -> Numbers:
    """Some records of the trade, worked out."""
    return Numbers(BOOK, dict(records), SLOTS)


def contents() -> Contents:
    """What its workbook shows."""
    return Contents(
        SHEETS,
        verdict=("pier", "verdict"),
        beside=lambda shown: ["A full boat is slow."] if ("trips", "filled") in shown else [],
        looks={("checks", "passed"): {"error": "bad", "caution": "caution", "ok": "good"}},
        names={"pier_fee": ("pier", "fee", 0), "dora_load": ("boats", "load", 0)},
    )
