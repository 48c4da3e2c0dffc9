"""What people write of themselves is read as they mean it: prices per, cents, half days, quotes.

Cents: a hundredth of the unit, as ISO 4217 has it for the currencies listed. Fluid ounce: 1/128 of
the US gallon of 231 cubic inches (NIST Handbook 44, appendix C). Half days: noon is 12 pm and the
first minute of a day 12 am, common practice. The rest is our own wish.
"""

from __future__ import annotations

import pytest

from reportgen.read import dates
from reportgen.read.grammar import Measure
from reportgen.read.nodes import Mapping, Scalar, Sequence
from reportgen.read.problem import Refusal
from reportgen.read.yaml import parse
from reportgen.units import ENERGY, FRESH, MONEY, VOLUME

SLOTS = {"fresh": "lb", "dried": "oz", "distance": "mile", "money": "USD"}


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("0.212 USD per kWh", 0.212),
        ("21.2 cents per kWh", 0.212),
        ("21.2 cents a kWh", 0.212),
        ("21.2 c/kWh", 0.212),
        ("21.2 ¢ / kWh", 0.212),
        ("1 cent per kWh", 0.01),
    ],
)
def test_a_price_of_electricity(text: str, value: float) -> None:
    assert Measure(MONEY / ENERGY, SLOTS).read(text) == value


def test_cents_are_those_of_the_seasons_currency() -> None:
    pence = Measure(MONEY / FRESH, {**SLOTS, "money": "GBP"})
    assert pence.read("90 p per lb") == 0.9
    for currency in ("USD", "JPY", "SEK"):
        with pytest.raises(Refusal):
            Measure(MONEY, {**SLOTS, "money": currency}).read("90 pence")
    with pytest.raises(Refusal):
        Measure(MONEY, {**SLOTS, "money": "JPY"}).read("90 cents")


@pytest.mark.parametrize("text", ["64 fl oz", "64 fl. oz", "64 floz", "64 fl-oz"])
def test_fluid_ounces_are_a_volume(text: str) -> None:
    assert Measure(VOLUME, SLOTS).read(text) == pytest.approx(231 * 2.54**3 / 2, rel=1e-15)
    with pytest.raises(Refusal, match="makes this a volume"):
        Measure(FRESH, SLOTS).read(text)


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("8 pm", 20), ("8pm", 20), ("8 p.m.", 20), ("8:30 PM", 20.5), ("12 pm", 12), ("12 am", 0),
        ("12:30 a.m.", 0.5), ("11:59 pm", 23 + 59 / 60), ("18:30", 18.5), ("1 am", 1),
    ],
)  # fmt: skip
def test_half_days(text: str, hours: float) -> None:
    assert dates.seconds(text) == round(hours * 3600)
    day = dates.day("2026-09-05", True)
    assert dates.day(f"2026-09-05 {text}", True) == pytest.approx(day + hours / 24, abs=1e-12)


@pytest.mark.parametrize("text", ["13 pm", "0 am", "18:30 pm", "8", "8:60 pm", "8 xm"])
def test_what_is_no_time_of_day(text: str) -> None:
    with pytest.raises(Refusal):
        dates.seconds(text)


def plain(node: object) -> object:
    match node:
        case Scalar():
            return node.text
        case Sequence():
            return [plain(each) for each in node.items]
        case Mapping():
            return {key.text: plain(value) for key, value in node.entries}
    return node


WANTED = {"product": "pear-slices", "wet": ["4 lb", "3.9 lb"], "packed": "4 can-10 of 8 oz"}


@pytest.mark.parametrize(
    "text",
    [
        "product: pear-slices\nwet: [4 lb, 3.9 lb]\npacked: 4 can-10 of 8 oz\n",
        "product: “pear-slices”\nwet: [‘4 lb’, „3.9 lb“]\npacked: «4 can-10 of 8 oz»\n",
        "- product: pear-slices\n- wet: [4 lb, 3.9 lb]\n- packed: 4 can-10 of 8 oz\n",
        "• product: pear-slices\n• wet:\n  • 4 lb\n  • 3.9 lb\n• packed: • 4 can-10 of 8 oz\n",
        "– product: pear-slices\n– wet:\n  ◦ 4 lb\n  ◦ 3.9 lb\n– packed: 4 can-10 of 8 oz\n",
    ],
)
def test_quotes_and_bullets(text: str) -> None:
    node, problems = parse(text, "a.yaml")
    assert (plain(node), problems) == (WANTED, [])


def test_a_quote_inside_a_text_stays() -> None:
    node, _ = parse("source: “Hill” stand\nnote: the 3 ‘good’ ones\n", "a.yaml")
    assert plain(node) == {"source": "“Hill” stand", "note": "the 3 ‘good’ ones"}
