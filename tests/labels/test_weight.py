"""The declared net weight: published rules and examples, and never more than there is."""

from __future__ import annotations

from decimal import Decimal, localcontext

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from labels.made import speech
from reportgen.labels.weight import about, declare

pytestmark = pytest.mark.seasons

# Exact by definition (NIST SP 811, App. B): the pound of 0.45359237 kg, its sixteenth the ounce.
GRAMS = {
    "g": Decimal(1), "kg": Decimal(1000), "oz": Decimal("28.349523125"), "lb": Decimal("453.59237"),
}  # fmt: skip


def shown(net: float, unit: str, customary: bool = True, locale: str = "en-US") -> str:
    return speech(locale).net(declare(net, unit), customary).replace("\N{NO-BREAK SPACE}", " ")


@pytest.mark.parametrize(
    ("net", "unit", "said"),
    [
        # 21 CFR 101.7(m), from memory: 1 1/2 pounds is 24 oz (1 lb 8 oz), 3/4 pound is 12 oz.
        (1.5, "lb", "Net wt 24 oz (1 lb 8 oz) 680 g"),
        (0.75, "lb", "Net wt 12 oz (340 g)"),
        # UPLR, NIST Handbook 130, from memory: a pound, 453.59 g, may be 453 g and must not be
        # 454 g.
        (1, "lb", "Net wt 16 oz (1 lb) 453 g"),
        # From 1 lb on and below 4 lb in both ounces and pounds; 4 lb itself in pounds.
        (15.99, "oz", "Net wt 15.99 oz (453 g)"),
        (63.99, "oz", "Net wt 63.99 oz (3 lb 15.99 oz) 1.81 kg"),
        (4, "lb", "Net wt 4 lb (1.81 kg)"),
        (5.25, "lb", "Net wt 5 lb 4 oz (2.38 kg)"),
        # Not more than two decimals, and cut: 3.999 oz is not 4 oz.
        (3.999, "oz", "Net wt 3.99 oz (113 g)"),
        (0.4, "oz", "Net wt 0.4 oz (11.3 g)"),
        (0.1, "oz", "Net wt 0.1 oz (2.83 g)"),
    ],
)
def test_customary(net: float, unit: str, said: str) -> None:
    assert shown(net, unit) == said


@pytest.mark.parametrize(
    ("net", "unit", "said"),
    [
        (85, "g", "Net wt 85 g (2.99 oz)"),
        (500, "g", "Net wt 500 g (17.63 oz, 1 lb 1.63 oz)"),
        (1, "kg", "Net wt 1 kg (35.27 oz, 2 lb 3.27 oz)"),
        (999.9, "g", "Net wt 999 g (35.27 oz, 2 lb 3.27 oz)"),
    ],
)
def test_metric_first(net: float, unit: str, said: str) -> None:
    # By hand: 500 / 28.349523125 = 17.6369..., 999.9 and 1000 / 28.349523125 = 35.2704, 35.2739.
    assert shown(net, unit, customary=False) == said


def test_in_french() -> None:
    assert shown(85, "g", False, "fr-FR") == "Poids net 85 g (2,99 oz)"


@settings(max_examples=2000)
@given(
    st.decimals("0.01", "20000", places=3) | st.integers(1, 20000).map(Decimal),
    st.sampled_from(sorted(GRAMS)),
    st.sampled_from(sorted(GRAMS)),
)
@pytest.mark.slow
def test_never_overstates(written: Decimal, unit: str, kept: str) -> None:
    # A weight is written in one unit and kept, as a float, in another.
    with localcontext() as context:
        context.prec = 60
        grams = written * GRAMS[unit]
        declared = declare(float(grams / GRAMS[kept]), kept)
        ounces = grams / GRAMS["oz"]
        metric = grams / 1000 if declared.in_kg else grams
        for said, true in ((declared.ounces, ounces), (declared.metric, metric)):
            assert said <= true
            places = -int(said.as_tuple().exponent)
            assert places <= 2
            # Nothing is given away either: one more of the last digit would be too much.
            assert said + Decimal(1).scaleb(-places) > true
        assert declared.pounds * 16 + declared.rest == declared.ounces
        assert 0 <= declared.rest < 16
        assert declared.in_kg == (grams >= 1000)


@settings(max_examples=1000)
@given(st.integers(1, 99999), st.sampled_from(["oz", "g"]))
def test_what_was_weighed_in_hundredths_is_said_as_it_was_weighed(n: int, unit: str) -> None:
    weight = Decimal(n) / 100
    declared = declare(float(weight), unit)
    if unit == "oz":
        assert declared.ounces == weight
    elif weight < 10:
        assert declared.metric == weight


def test_too_little_declares_nothing() -> None:
    assert declare(0.004, "oz").nothing
    assert not declare(0.01, "oz").nothing


def test_water_is_said_to_two_digits() -> None:
    assert about(3.4769, "lb", "lb") == Decimal("3.5")
    assert about(3.4769, "lb", "kg") == Decimal("1.6")  # 1.577
    assert about(0.4812, "lb", "g") == Decimal("220")  # 218.3
    assert f"{about(0.4812, 'lb', 'g'):f}" == "220"
