"""Numbers and units are read exactly, against conversion factors that others published.

Factors: NIST Special Publication 811 (2008 edition), Appendix B.8, where those in bold are exact:
pound (avoirdupois) 4.535 923 7 E-01 kg, ounce (avoirdupois) 2.834 952 E-02 kg (a sixteenth of the
pound), inch 2.54 E-02 m, foot 3.048 E-01 m, mile 1.609 344 E+03 m, gallon (US) 3.785 412 E-03 m3
(231 cubic inches), hour 3.6 E+03 s, day 8.64 E+04 s, kilowatt hour 3.6 E+06 J. From memory, not
seen; the pound is that of the agreement of 1959, the gallon and the ounce follow by definition.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reportgen.read.grammar import Measure, count, share
from reportgen.read.problem import Refusal
from reportgen.units import AREA, DRIED, ENERGY, FRESH, HOUR, MONEY, ONE, VOLUME, Unit

POUND = Fraction("453.59237")  # g
SLOTS = {"fresh": "lb", "dried": "oz", "distance": "mile", "money": "USD"}
METRIC = {"fresh": "kg", "dried": "g", "distance": "km", "money": "EUR"}

# In grams, metres, litres, seconds, joules: typed from the publication, not from the program.
NIST = {
    "g": (FRESH, Fraction(1)),
    "kg": (FRESH, Fraction(1000)),
    "lb": (FRESH, POUND),
    "oz": (FRESH, POUND / 16),
    "m": (Unit.of("m"), Fraction(1)),
    "km": (Unit.of("m"), Fraction(1000)),
    "in": (Unit.of("m"), Fraction("0.0254")),
    "ft": (Unit.of("m"), Fraction("0.3048")),
    "mile": (Unit.of("m"), Fraction("1609.344")),
    "L": (VOLUME, Fraction(1)),
    "mL": (VOLUME, Fraction("0.001")),
    "gal": (VOLUME, Fraction("3.785411784")),
    "qt": (VOLUME, Fraction("3.785411784") / 4),
    "pt": (VOLUME, Fraction("3.785411784") / 8),
    "cup": (VOLUME, Fraction("3.785411784") / 16),
    "floz": (VOLUME, Fraction("3.785411784") / 128),
    "s": (HOUR, Fraction(1)),
    "min": (HOUR, Fraction(60)),
    "h": (HOUR, Fraction(3600)),
    "day": (HOUR, Fraction(86400)),
    "kWh": (ENERGY, Fraction(3_600_000)),
    "Wh": (ENERGY, Fraction(3600)),
    "MJ": (ENERGY, Fraction(1_000_000)),
    "kJ": (ENERGY, Fraction(1000)),
}
SHOWN = {  # what one of the field's unit is, in the same base
    FRESH: POUND,
    Unit.of("m"): Fraction(1),
    VOLUME: Fraction("0.001"),
    HOUR: Fraction(3600),
    ENERGY: Fraction(3_600_000),
}

decimals = st.decimals(min_value=0, max_value=99999, places=4, allow_nan=False).map(
    lambda each: f"{each:f}"
)
spaces = st.sampled_from(["", " ", "  ", "\u00a0", "\u202f"])


@given(decimals, spaces, st.sampled_from(sorted(NIST)))
def test_any_unit_is_converted_exactly_and_rounded_once(text: str, gap: str, name: str) -> None:
    unit, base = NIST[name]
    expected = Fraction(text) * base / SHOWN[unit]
    assert Measure(unit, SLOTS).read(f"{text}{gap}{name}") == float(expected)


@given(decimals)
def test_a_weight_is_the_same_in_pounds_and_in_kilograms(text: str) -> None:
    in_pounds = Measure(FRESH, SLOTS)
    in_kilograms = Measure(FRESH, METRIC)
    above, below = in_pounds.exact(f"{text} kg")
    assert Fraction(above, below) * POUND / 1000 == Fraction(text)
    above, below = in_kilograms.exact(f"{text} lb")
    assert Fraction(above, below) * 1000 / POUND == Fraction(text)


@given(decimals)
def test_a_price_by_weight_is_the_other_way_round(text: str) -> None:
    above, below = Measure(MONEY / DRIED, SLOTS).exact(f"{text} USD/lb")
    assert Fraction(above, below) == Fraction(text) / 16


@given(st.integers(0, 9999), st.integers(0, 15), st.integers(0, 99))
def test_pounds_and_ounces(pounds: int, ounces: int, hundredths: int) -> None:
    text = f"{pounds} lb {ounces}.{hundredths:02} oz"
    expected = pounds + (ounces + Fraction(hundredths, 100)) / 16
    assert Measure(FRESH, SLOTS).read(text) == float(expected)


@given(st.integers(0, 999), st.integers(0, 59), st.integers(0, 59))
def test_durations_of_every_form(hours: int, minutes: int, seconds: int) -> None:
    read = Measure(HOUR).read
    exact = hours + Fraction(minutes, 60) + Fraction(seconds, 3600)
    assert read(f"{hours}:{minutes:02}:{seconds:02}") == float(exact)
    assert read(f"{hours} h {minutes} min {seconds} s") == float(exact)
    assert read(f"{hours}:{minutes:02}") == float(hours + Fraction(minutes, 60))
    assert read(f"{hours * 60 + minutes} min") == float(hours + Fraction(minutes, 60))


@given(st.decimals(min_value=0, max_value=100, places=3, allow_nan=False))
def test_a_share_is_a_hundredth(value: Decimal) -> None:
    assert share(f"{value:f} %") == float(Fraction(value) / 100)


@given(st.integers(0, 10**9), st.sampled_from(["", " run", " runs"]))
def test_a_count_is_whole(number: int, word: str) -> None:
    assert count(f"{number}{word}", ("run", "runs")) == number


# What the design of the season files lists, each with its value in the unit shown.
@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("72.4 lb", FRESH, 72.4),
        ("3 lb 4 oz", FRESH, 3.25),
        ("52.1 oz", DRIED, 52.1),
        ("3 h 20 min", HOUR, 10 / 3),
        ("34:30", HOUR, 34.5),
        ("36:30", HOUR, 36.5),
        ("34.5 h", HOUR, 34.5),
        ("1.10 USD/lb", MONEY / FRESH, 1.1),
        ("0.148 USD/kWh", MONEY / ENERGY, 0.148),
        ("0.148 USD / kWh", MONEY / ENERGY, 0.148),
        ("0.135 m2", AREA, 0.135),
        ("946 mL", VOLUME, 946.0),
        ("0.24", ONE, 0.24),
        ("0123 lb", FRESH, 123.0),
        ("1e3 oz", DRIED, 1000.0),
        (".5 lb", FRESH, 0.5),
        ("5. lb", FRESH, 5.0),
        ("+5 lb", FRESH, 5.0),
    ],
)
def test_written_forms(text: str, unit: Unit, value: float) -> None:
    assert Measure(unit, SLOTS).read(text) == value


@given(st.text(max_size=30) | st.from_regex(r"[0-9.,eE+*/ -]{1,12} ?[a-zA-Z%/$]{0,8}"))
def test_any_text_is_read_or_refused_with_all_three_parts(text: str) -> None:
    for read in (Measure(FRESH, SLOTS).read, Measure(MONEY / ENERGY, SLOTS).read, share, count):
        try:
            assert -(10**12) < read(text) < 10**12
        except Refusal as refusal:
            assert refusal.what and refusal.expected and refusal.do


@given(st.sampled_from([FRESH, MONEY, HOUR, MONEY / FRESH, AREA]), decimals)
def test_what_a_refusal_says_to_write_is_read(unit: Unit, text: str) -> None:
    # A bare number is refused for want of its unit; the advice must be taken by the same reader.
    read = Measure(unit, SLOTS).read
    with pytest.raises(Refusal) as raised:
        read(text)
    advice = raised.value.do.removeprefix("write ").removesuffix(", if that is the unit")
    assert read(advice) == float(Fraction(text))


@pytest.mark.parametrize(
    ("text", "advice"),
    [
        ("72,4 lb", "72.4 lb"),
        ("1.250,5 lb", "1250.5 lb"),
        ("1,250.5 lb", "1250.5 lb"),
        ("1 250 lb", "1250 lb"),
        ("1_250 lb", "1250 lb"),
        ("lb 72.4", "72.4 lb"),
    ],
)
def test_advice_is_the_number_that_was_meant(text: str, advice: str) -> None:
    with pytest.raises(Refusal) as raised:
        Measure(FRESH, SLOTS).read(text)
    assert raised.value.do == f"write {advice}"


def test_power_towers_and_long_numbers_are_refused_at_once() -> None:
    read = Measure(FRESH, SLOTS).read
    for text in ("9**9**9 lb", "1e999999999 lb", "9" * 100_000 + " lb", "1" + "0" * 5000 + "e1 lb"):
        with pytest.raises(Refusal):
            read(text)


def test_currencies() -> None:
    with pytest.raises(Refusal, match="EUR is not the season's currency"):
        Measure(MONEY, SLOTS).read("3 EUR")
    assert Measure(MONEY, METRIC).read("3 EUR") == 3.0
