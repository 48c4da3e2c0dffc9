"""One toy book that uses every kind of node, with inputs of which any may be missing."""

from __future__ import annotations

from itertools import product
from typing import Any

from algebra.toy import Given, book, define, numbers, text
from reportgen.algebra.book import Book
from reportgen.algebra.functions import (
    ahead,
    count,
    estimate,
    find,
    first_known,
    first_stray,
    greatest,
    join,
    known,
    latest,
    least,
    lowest,
    mean_known,
    median,
    missing,
    own_place,
    place_of,
    plain,
    power,
    rank,
    round_up,
    same,
    sentence,
    size,
    square_root,
    strays,
    total,
    total_known,
    unknown,
    until,
    where,
)
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import COUNT, DATE, FLAG, TEXT, Table, constant
from reportgen.units import HOUR, KG, MONEY, ONE, Unit

LB, DAY = Unit.of("lb"), Unit.of("d")
TIDE = constant("one_tide", 1, DAY, "One tide", "definition")


def ferries() -> Book:
    port = Table.of(
        "port", "the port", [Given("fee", MONEY / HOUR), Given("today", type="date")], single=True
    )
    boats = Table.of(
        "boats",
        "boat",
        [
            Given("hull", MONEY), Given("load_limit", LB), Given("refund", MONEY, zero=True),
            Given("crew", one=True), text("title"),
        ],
    )  # fmt: skip
    trips = Table.of(
        "trips",
        "trip",
        [
            text("boat", "boats"), Given("cargo", KG), Given("hours", HOUR),
            Given("fare", MONEY / KG), Given("tip", MONEY, zero=True), text("cause"),
            Given("late", type="flag", zero=True), Given("day", type="date"),
            Given("guess", KG, measured=False),
        ],
    )  # fmt: skip
    tides = Table.of("tides", "tide", [Given("from_hour", HOUR), Given("to_hour", HOUR),
                                      Given("toll", MONEY / HOUR), text("name")])  # fmt: skip
    define(tides, "price", MONEY / HOUR, lambda toll: toll)
    for name, kind, body in (
        # Arithmetic, the order of its operations, and a unit's factor in the middle of it.
        ("income", MONEY, lambda cargo, fare, tip: cargo * fare + tip),
        ("left_over", MONEY, lambda income, hours, port: income - (income - hours * port.fee)),
        ("by_hour", KG / HOUR, lambda cargo, hours: cargo / hours),
        ("nested", ONE, lambda hours, cargo, guess: cargo / (guess / (hours / hours))),
        ("minus", KG, lambda cargo, guess: cargo - (guess - cargo)),
        ("in_pounds", LB, lambda cargo, guess: cargo + guess),
        ("room", LB, lambda cargo, boat: boat.load_limit - cargo),
        ("use_of_room", ONE, lambda cargo, boat: cargo / boat.load_limit),
        ("by_excess", ONE, lambda hours, cargo, guess: hours / hours * guess / (cargo - guess)),
        # Choices ask for the branch they take.
        ("best", KG, lambda cargo, guess: first_known(cargo, estimate(guess))),
        ("chosen", KG, lambda late, cargo, guess: where(late, guess, cargo)),
        ("calm_some", KG, lambda cause, cargo, both: where(cause == "", cargo, both)),
        ("some", KG, lambda cause, calm_some: where(cause == "storm", unknown(), calm_some)),
        ("both", KG, lambda cargo, guess: cargo + guess),
        ("plain_choice", ONE, lambda cargo, guess: where(cargo > guess, 1, 0)),
        ("either", MONEY, lambda income, boat: first_known(income, boat.hull, boat.refund)),
        # Comparisons, with the tolerance, and logic.
        ("is_late", FLAG, lambda late: late & (late | late)),
        ("heavy", FLAG, lambda cargo, boat: cargo > boat.load_limit),
        ("light", FLAG, lambda cargo, boat: cargo <= boat.load_limit),
        ("none", FLAG, lambda cargo: cargo <= 0),
        ("below_none", FLAG, lambda minus: minus < 0),
        ("from_none", FLAG, lambda minus: 0 - minus >= 0),
        ("as_guessed", FLAG, lambda cargo, guess: cargo == guess),
        ("differs", FLAG, lambda cargo, guess: cargo != guess),
        ("stormy", FLAG, lambda cause: cause == "storm"),
        ("calm", FLAG, lambda cause: ~(cause == "storm")),
        ("heavy_or_stormy", FLAG, lambda heavy, stormy: heavy | stormy),
        ("heavy_and_late", FLAG, lambda heavy, late: heavy & late),
        ("weighed", FLAG, lambda cargo, fare: known(cargo * fare)),
        ("times_flag", KG, lambda cargo, stormy: cargo * stormy),
        ("old", FLAG, lambda day, port: port.today - day > TIDE),
        # Text where a number belongs: there is none where a reader would refuse it.
        ("stray_fares", COUNT, lambda: strays(trips, "fare")),
        ("first_stray_fare", TEXT, lambda: first_stray(trips, "fare")),
        ("stray_fee", TEXT, lambda: first_stray(port, "fee")),
        # Functions.
        ("smaller", KG, lambda cargo, guess: least(cargo, guess)),
        ("not_negative", KG, lambda cargo, guess: greatest(cargo - guess, 0)),
        ("apart", KG, lambda cargo, guess: size(cargo - guess)),
        ("root", ONE, lambda cargo, guess: square_root(cargo / guess)),
        ("crates", COUNT, lambda cargo, guess: round_up(cargo / guess, 1)),
        ("stepped", KG, lambda cargo, guess: round_up(cargo, guess)),
        ("label", TEXT, lambda boat, cause: join(boat, "/", cause)),
        ("called", TEXT, lambda boat: boat.title),
        ("named", TEXT, lambda cause, boat: where(cause == "", boat, cause)),
        ("boat_label", TEXT, lambda boat, cause: join(boat.title, "-", cause)),
        ("told", TEXT, lambda boat, guess: sentence("{kg} of {boat}", boat=boat, kg=plain(guess))),
        ("weighed_label", TEXT, lambda boat, guess: join(boat, "/", plain(guess))),
        # Rows with a text in common, no link between them.
        ("alike", COUNT, lambda trips, cause: count(same(trips.cause, cause))),
        ("alike_best", KG, lambda trips, cause: total(same(trips.cause, cause).best)),
        ("alike_earlier", KG,
         lambda trips, cause, day: total(same(trips.cause, cause).day.before(day).best)),
        ("alike_so_far", KG,
         lambda trips, cause, due: total_known(same(trips.cause, cause).due.before(due).best)),
        ("earlier_late", COUNT,
         lambda trips, cause, day: count(same(trips.cause, cause).day.before(day).late_trip)),
        ("earlier_unweighed", COUNT,
         lambda trips, boat, day: missing(same(trips.boat, boat).day.before(day).best)),
        ("alike_late", COUNT, lambda trips, cause: missing(same(trips.cause, cause).best)),
        ("first_so", FLAG, lambda place_so: own_place(place_so)),
        ("place_so", COUNT, lambda trips, cause: place_of(trips.cause, cause)),
        ("alike_by_place", COUNT, lambda trips, place_so: count(same(trips.place_so, place_so))),
        ("turn", KG, lambda guess: first_known(guess, 0)),
        # How much of all tides had passed by then, and what that came to.
        ("tides_by", HOUR, lambda tides, hours: until(tides.from_hour, tides.to_hour, hours)),
        ("tolls_by", MONEY,
         lambda tides, hours: until(tides.from_hour, tides.to_hour, hours, tides.price)),
        ("next_tide", DATE, lambda day: round_up(day, TIDE)),
        ("before", KG, lambda best, boat, turn: ahead(best, boat, turn)),
        ("from_least", COUNT, lambda best, boat: rank(best, boat)),
        ("from_most", COUNT, lambda best, boat: rank(best, boat, highest=True)),
        ("raised", ONE, lambda cargo, guess: power(cargo / guess, cargo / guess)),
        ("boat_called_so", FLAG, lambda boat: boat.title == "Dora"),
        ("not_called_so", FLAG, lambda boat: boat.title != "Dora"),
        ("title_known", FLAG, lambda boat: known(boat.title)),
        ("due", DATE, lambda day, hours: day + hours),
        ("since", HOUR, lambda day, port: port.today - day),
        ("fee_paid", MONEY, lambda hours, port: hours * port.fee),
        ("crew_of", ONE, lambda boat: boat.crew + boat.refund / boat.refund),
        ("key_of_boat", FLAG, lambda boat: boat == ""),
        ("share", ONE, lambda income, boat: income / boat.earned),
    ):  # fmt: skip
        define(trips, name, kind, body)
    for name, kind, body in (
        ("earned", MONEY, lambda trips: total(trips.income)),
        ("earned_known", MONEY, lambda trips: total_known(trips.income)),
        ("earned_late", MONEY, lambda trips: total(trips.income, trips.late_trip)),
        ("tips", MONEY, lambda trips: total(trips.tip)),
        ("trips_made", COUNT, lambda trips: count(trips)),
        ("trips_stormy", COUNT, lambda trips: count(trips, trips.stormy, trips.late_trip)),
        ("unpaid", COUNT, lambda trips: missing(trips.income)),
        ("unpaid_stormy", COUNT, lambda trips: missing(trips.income, trips.stormy)),
        ("mean_cargo", KG, lambda trips: mean_known(trips.best)),
        ("middle_fare", MONEY, lambda trips: median(trips.income)),
        ("lowest_fare", MONEY, lambda trips: lowest(trips.income)),
        ("weight", LB, lambda trips: total(trips.best)),
        # The first trip that stands in the place of the boat's crew among those of its boat.
        ("one_of_them", TEXT, lambda trips, crew: find(trips.from_most, crew)),
        ("named_by", TEXT, lambda trips, title: find(trips.cause, title)),
        ("full_price", MONEY, lambda hull, refund, crew: hull / crew - refund),
    ):
        define(boats, name, kind, body)
    define(trips, "late_trip", FLAG, lambda late: late & known(late))
    for name, kind, body in (
        ("all_income", MONEY, lambda trips: total(trips.income)),
        ("all_known", MONEY, lambda trips: total_known(trips.income)),
        ("all_missing", COUNT, lambda trips: missing(trips.income)),
        ("all_trips", COUNT, lambda trips: count(trips)),
        ("all_late", COUNT, lambda trips: count(trips, trips.is_late)),
        ("all_mean", KG, lambda trips: mean_known(trips.best)),
        ("last_day", DATE, lambda trips: latest(trips.day)),
        ("per_trip", MONEY, lambda all_known, all_trips: all_known / all_trips),
    ):
        define(port, name, kind, body)
    made = book(port, boats, trips, tides)
    for definition in list(made.order):
        if definition.role == "derived" and definition.kind.type == "number":
            made.companion(definition.table, definition.name, "estimated")
    for table in made.tables.values():
        for definition in list(table.definitions.values()):
            made.ensure(definition)
    return made


def sailings(fee: float | None = 1.25, today: float | None = 45900.0) -> Numbers:
    """Numbers for every subset of unknown inputs: of trips, of the boats they name, of a group."""
    boats: dict[str, list[Any]] = {
        n: [] for n in ("key", "hull", "load_limit", "refund", "crew", "title")
    }
    trips: dict[str, list[Any]] = {
        n: []
        for n in ("key", "boat", "cargo", "hours", "fare", "tip", "cause", "late", "day", "guess")
    }

    def boat(key: str, *values: Any) -> None:
        for name, value in zip(boats, (key, *values), strict=True):
            boats[name].append(value)

    def trip(*values: Any) -> None:
        for name, value in zip(trips, (f"t{len(trips['key']) + 1}", *values), strict=True):
            trips[name].append(value)

    full = (5200.0, 640.0, 75.0, 3.0, "Dora")
    for which, keep in enumerate(product((True, False), repeat=5)):
        boat(f"b-{which}", *(v if k else None for v, k in zip(full, keep, strict=True)))
    whole = (231.5, 7.25, 3.4, 12.0, "storm", True, 45880.5, 198.25)
    for keep in product((True, False), repeat=8):
        trip("b-0", *(v if k else None for v, k in zip(whole, keep, strict=True)))
    for which in range(1, len(boats["key"])):
        trip(f"b-{which}", *whole)
    trip(None, *whole)
    trip("B-3", *whole)  # a spreadsheet does not tell capitals from small letters
    # Zeros, a difference that is nothing but rounding, ties, and a guess above the cargo.
    trip("b-1", 0.0, 0.0, 0.0, 0.0, "", False, 45901.0, 0.0)
    trip("b-1", 0.1 + 0.2, 1.0, 1.0, None, "calm", False, 45899.0, 0.3)
    trip("b-2", 1.1 * 1.1, 1.0, 1.0, None, "x", None, 45899.0, 1.21)
    trip("b-2", 3.0, 1.0, 2.0, None, "x", None, 45899.0, 7.0)
    # Groups of three whose incomes are known or not, so that totals and medians meet every subset.
    boat("calmly", 1.0, 1.0, 1.0, 1.0, "CALM")  # a spreadsheet takes capitals for small letters
    for which, keep in enumerate(product((True, False), repeat=4)):
        boat(f"g-{which}", *full)
        for cargo, kept, cause in zip(
            (2.0, 5.0, 2.0, 1.0), keep, ("storm", "", None, "y"), strict=True
        ):
            trip(f"g-{which}", cargo, 1.0, 3.0 if kept else None, None, cause, cargo > 1, None, 2.0)
    boat("idle", *full)
    port = {"fee": [fee], "today": [today], "key": ["port"]}
    tides = {"key": ["a", "b"], "from_hour": [0.5, 7.0], "to_hour": [2.5, 9.0],
             "toll": [4.0, 6.0], "name": [None, None]}  # fmt: skip
    return numbers(ferries(), {"port": port, "boats": boats, "trips": trips, "tides": tides})
