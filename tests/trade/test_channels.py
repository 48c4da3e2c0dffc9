"""Channels: tax that is in a price, fees of the price as paid, and what of it is left."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from published.figures import Figures

from trade.small import HEAD, season

# Worked in the contract: full cost 10, fees of 3 %, tax of 6 %. At a price of 10.31, which is the
# cost over 97 %, 0.58 of tax and 0.31 of fees leave 9.42: a loss. At 10.95 they leave 10.
FULL, FEES, TAX, FLOOR = 10.0, 0.03, 0.06, 10.95


def asked(tax: float | None, fees: float | None = FEES, margin: float = 0.35) -> Figures:
    pack = {"key": "P", "product": "food", "container": "tin", "count": 4, "net": 10.0,
            "carried_running": 6.0, "carried_full": FULL}  # fmt: skip
    return Figures(
        "lb",
        "oz",
        products=[{"key": "food"}],
        containers=[{"key": "tin"}],
        packs=[pack],
        pricing=[{"margin": margin, "fees": FEES, "price_step": 0.01, "stall": 30.0, "days": 2.0}],
        channels=[{"key": "stall", "of_stall": True, "fees": fees, "tax": tax}, {"key": "co-op"}],
    )


def of(found: Figures, *names: str) -> Any:
    return [found("prices", name) for name in names]


def test_the_floor_covers_tax_and_fees() -> None:
    (floor,) = of(asked(TAX), "price_floor")
    assert floor == pytest.approx(10 / (1 / 1.06 - 0.03))
    assert round(floor, 2) == FLOOR
    # Paid in: the buyer's price. Paid out: the tax in it, the fee on all of it, the cost.
    assert floor - floor * 6 / 106 - floor * FEES == pytest.approx(FULL)
    assert round(of(asked(None), "price_floor")[0], 2) == 10.31, "without tax"


@pytest.mark.parametrize("tax", [0.0, 0.021, 0.06, 0.2])
@pytest.mark.parametrize("margin", [0.0, 0.2, 0.35])
def test_the_price_to_ask_leaves_the_margin_and_a_little(tax: float, margin: float) -> None:
    """What is left of the price without tax is the margin, within a step of the price."""
    found = asked(tax, margin=margin)
    price, kept, markup, earned = of(found, "price_asked", "margin_kept", "markup", "earned_each")
    net = price / (1 + tax)
    left = net - price * FEES
    assert kept == pytest.approx((left - FULL) / net)
    assert margin - 1e-9 <= kept <= margin + 0.01 / price * 1.1
    assert markup == pytest.approx((net - FULL) / FULL)
    assert earned == pytest.approx(left - 6)
    assert of(found, "break_even_count")[0] * earned >= 60 - 1e-6
    assert (of(found, "break_even_count")[0] - 1) * earned < 60


def test_the_stalls_fees_are_those_of_the_pricing_if_left_out() -> None:
    assert of(asked(TAX, fees=None), "price_floor") == of(asked(TAX), "price_floor")
    none = asked(TAX, fees=0.0)
    assert of(none, "price_floor") == [pytest.approx(10.6)]
    assert none("channels", "fees_taken", "co-op") == 0


SOLD = """
channels: {stall: {tax: 6 %}, cafe: {fees: 20 %, tax: 10 %}}
packs: [{id: P, product: turnip-cubes, container: tin, count: 9, net: 4 oz,
         carried: {running: 3 USD, full: 4 USD}}]
uses:
  - {pack: P, count: 2, for: stall, price: 10.60 USD}
  - {pack: P, count: 3, for: cafe, price: 11 USD}
  - {pack: P, count: 1, for: co-op, price: 8 USD}
  - {pack: P, count: 1, for: gift}
"""


def test_what_is_paid_goes_to_tax_fees_and_the_rest(tmp_path: Path) -> None:
    """Fees of the stall are a tenth by the pricing; the co-op, not named, takes nothing."""
    found = season(tmp_path, SOLD)
    names = ("paid", "revenue", "tax_in_it", "fees", "got", "profit")
    rows = [found.of("uses", f"use-{n}", *names) for n in (1, 2, 3, 4)]
    assert rows[0] == pytest.approx([21.2, 20, 1.2, 2.12, 17.88, 9.88])
    assert rows[1] == pytest.approx([33, 30, 3, 6.6, 23.4, 11.4])
    assert rows[2] == pytest.approx([8, 8, 0, 0, 8, 4])
    assert rows[3] == [0, 0, 0, 0, None, None]
    totals = ("money_in", "money_tax", "money_fees", "revenue", "sales", "profit", "sales_left")
    assert found.of("season", "season", *totals) == pytest.approx(
        [62.2, 4.2, 8.72, 58, 58, 25.28, 49.28 - 18]
    )
    # Nothing else was paid: what was taken is what is left, tax passed on and fees.
    assert found("season", "money_left") == pytest.approx(62.2 - 4.2 - 8.72)


def test_a_season_without_channels_has_stall_and_co_op(tmp_path: Path) -> None:
    found = season(tmp_path, "")
    assert found.numbers.cells["channels"]["key"] == ["stall", "co-op"]
    assert found.of("channels", "stall", "fees_taken", "net_share", "left_share") == pytest.approx(
        [0.1, 1, 0.9]
    )
    assert "fees: 10 %" in HEAD
