"""Market days, worked with a pencil: what went along, what the purse held, what is left of it."""

from __future__ import annotations

from pathlib import Path

import pytest

from trade.small import HEAD, Figures, season

pytestmark = pytest.mark.seasons

# 40 oz of bulk cost 20 for the lot, 4 of energy and 2 of upkeep: 0.65 an oz. A tin holds 4 oz: 2.60
# and 2 of packaging, 4.60. In full 4 of wear, and an hour at 10 of the run: 1.00 an oz, 6.00.
BATCH = """
lots: [{id: t, product: turnip-cubes, date: 2025-06-01, price: 20 USD, prepped: 30 lb}]
runs: [{id: r, started: 2025-06-01 20:00, duration: 20 h, energy: 16 kWh, labor: 1 h,
        loads: [{lot: t, wet: 30 lb, dry: 40 oz}]}]
packs: [{id: P, product: turnip-cubes, date: 2025-06-03, container: tin, count: 9, net: 4 oz,
         from: [r]}]
"""
MARKET = """
markets:
  - id: green
    date: 2025-06-07
    channel: stall
    fee: 7 USD
    travel: 6 mile
    labor: 4 h
    took: {P: 6}
    back: {P: 2}
    samples: {P: 1}
    prices: {P: 21.20 USD}
    takings: {cash: 40 USD, card: 24.60 USD}
"""
TAXED = HEAD + "channels: {stall: {fees: 3 %, tax: 6 %}, cafe: {discount: 25 %}}\n"
ASKED = """
asked:
  - {product: turnip-cubes, container: tin, net: 4 oz, price: 20 USD}
  - {product: turnip-cubes, container: tin, net: 4 oz, price: 24 USD, from: 2025-06-07}
"""


def made(folder: Path, text: str = MARKET, head: str = TAXED) -> Figures:
    return season(folder, BATCH + text, head + "as_of: 2025-07-01\n")


def test_a_day_line_by_line(tmp_path: Path) -> None:
    found = made(tmp_path)
    assert found.of("packs", "P", "running_each", "full_each") == pytest.approx([4.6, 6.0])
    row = found.of("market_packs", "green/P", "gone", "sold", "price", "paid", "there")
    assert row == pytest.approx([4, 3, 21.2, 63.6, 9])
    # 63.60 hold 3.60 of tax; fees are 3 % of what was paid, tax included.
    row = found.of("market_packs", "green/P", "revenue", "fees", "got", "cost_out", "profit")
    assert row == pytest.approx([60, 1.908, 58.092, 24, 58.092 - 18])
    assert found("market_packs", "left_over", "green/P") == pytest.approx(58.092 - 13.8)
    day = found.of("markets", "green", "expected", "takings", "difference", "taken_in")
    assert day == pytest.approx([63.6, 64.6, 1.0, 64.6])
    assert found("markets", "packs_sold", "green") == 3
    # Of what was taken in: 64.60 / 1.06 = 60.943396, 3.656604 of tax; 1.938 of fees.
    day = found.of("markets", "green", "tax_in_it", "fees", "travel_cost", "labor_cost")
    assert day == pytest.approx([64.6 - 64.6 / 1.06, 1.938, 3, 40])
    brought = 64.6 / 1.06 - 1.938 - 7 - 3
    assert found.of("markets", "green", "running_out", "cost_out") == pytest.approx([18.4, 24])
    day = found.of("markets", "green", "brought", "left", "left_full", "left_per_hour")
    assert day == pytest.approx([brought, brought - 18.4, brought - 24 - 40, (brought - 18.4) / 4])
    assert found("packs", "on_hand", "P") == 9 - 4
    assert not [check for check in found.failing() if "market" in check]


def test_products_stay_at_their_prices_and_the_difference_is_the_seasons(tmp_path: Path) -> None:
    found = made(tmp_path)
    names = ("sold_weight", "sales_got", "kept_weight")
    assert found.of("products", "turnip-cubes", *names) == pytest.approx([12, 58.092, 20])
    money = ("revenue", "profit", "market_difference", "money_in", "money_fees", "money_tax",
             "money_stall", "money_to_market", "money_labor")  # fmt: skip
    assert [found("season", name) for name in money] == pytest.approx(
        [60, 40.092, 1, 64.6, 1.938, 64.6 - 64.6 / 1.06, 7, 3, 0]
    )
    # The day's fee stands in for the stall: sales to break even are 7 ÷ (44.292 ÷ 60).
    assert found("season", "stall_cost") == 7
    assert found("season", "break_even_sales") == pytest.approx(7 / ((58.092 - 13.8) / 60))


def test_market_fees_take_the_place_of_the_stalls_days(tmp_path: Path) -> None:
    head = TAXED.replace("pricing: {", "pricing: {stall: 6 USD/day, days: 3 day, ")
    assert made(tmp_path, "", head)("season", "stall_cost") == 18
    found = made(tmp_path, MARKET, head)
    assert found("season", "stall_cost") == 7
    assert found("season", "stall_ahead") == 0
    later = MARKET.replace("2025-06-07", "2025-07-07")
    found = made(tmp_path, later, head)
    ahead = ("stall_ahead", "money_stall", "money_to_market")
    assert [found("season", name) for name in ahead] == [7, 0, 0]
    assert "markets-dated-ahead" in found.failing()


def test_paid_time_and_the_payback_know_the_day(tmp_path: Path) -> None:
    """Paid beside: the fee, the driving, and of paid time the run's hour and the day's four."""
    paid = TAXED.replace("labor: 10 USD/h", "labor: 10 USD/h, labor_paid: true")
    found = made(tmp_path, MARKET, paid)
    assert found("season", "money_labor") == pytest.approx(10 + 40)
    assert found("season", "paid_beside") == pytest.approx(7 + 3 + 50)
    assert found("dryers", "paid_beside", "barn") == pytest.approx(60)


def test_a_price_left_out_is_what_was_asked_that_day(tmp_path: Path) -> None:
    """24 from that very day on, less the café's quarter; the day before it was 20."""
    day = MARKET.replace("    prices: {P: 21.20 USD}\n", "")
    assert made(tmp_path, ASKED + day)("market_packs", "price", "green/P") == 24
    cafe = day.replace("channel: stall", "channel: cafe")
    assert made(tmp_path, ASKED + cafe)("market_packs", "price", "green/P") == 18
    before = day.replace("2025-06-07", "2025-06-06")
    assert made(tmp_path, ASKED + before)("market_packs", "price", "green/P") == 20
    found = made(tmp_path, day)
    assert found("market_packs", "price", "green/P") is None
    # Without a price nobody knows what was to be taken in; what was, is written.
    known = found.of("markets", "green", "expected", "difference", "taken_in")
    assert known == [None, None, 64.6]
    assert found("season", "money_in") == pytest.approx(64.6)


def test_where_all_came_back_no_price_is_needed(tmp_path: Path) -> None:
    day = MARKET.replace("back: {P: 2}", "back: {P: 6}").replace("    samples: {P: 1}\n", "")
    found = made(tmp_path, day.replace("    prices: {P: 21.20 USD}\n", ""))
    assert found("markets", "expected", "green") == 0
    assert found("packs", "on_hand", "P") == 9


def test_without_takings_it_stands_at_the_prices(tmp_path: Path) -> None:
    found = made(tmp_path, MARKET.partition("    takings")[0])
    day = found.of("markets", "green", "takings", "difference", "taken_in")
    assert day == [None, None, pytest.approx(63.6)]
    assert found("season", "market_difference") == 0


def test_counts_and_later_markets_find_what_it_left(tmp_path: Path) -> None:
    """Four of nine are gone in the evening; one more is missing, and the next day finds four."""
    more = """
  - {id: later, date: 2025-06-14, channel: stall, took: {P: 5}, back: {P: 5}}
counts:
  - {date: 2025-06-07, pack: P, counted: 4}
uses:
  - {date: 2025-06-13, pack: P, count: 1, for: household}
"""
    found = made(tmp_path, MARKET + more)
    assert found("counts", "missing") == 1
    assert found("market_packs", "there", "later/P") == 9 - 4 - 1 - 1
    assert found("packs", "on_hand", "P") == 3
    assert "market-packs-took-above-shelf" in found.failing()
    assert found("packs", "taken", "P") == 5


def test_a_sale_of_that_day_through_its_channel_is_doubted(tmp_path: Path) -> None:
    def failing(day: str, through: str) -> bool:
        use = f"uses: [{{date: {day}, pack: P, count: 1, for: {through}, price: 21 USD}}]\n"
        return "uses-at-a-market" in made(tmp_path, MARKET + use).failing()

    assert failing("2025-06-07", "stall")
    assert not failing("2025-06-07", "co-op")
    assert not failing("2025-06-06", "stall") and not failing("2025-06-08", "stall")


def test_what_to_take_next_time(tmp_path: Path) -> None:
    """Three of six sold, then both that were taken: five of eight; at 24 each leaves 17.32."""
    second = """  - {id: later, date: 2025-06-14, channel: stall, took: {P: 2},
     takings: {cash: 48 USD}}
"""
    found = made(tmp_path, MARKET + second + ASKED)
    row = ("prices", "turnip-cubes/tin/4")
    assert found.of(*row, "taken", "sold_there", "sold_of_taken") == pytest.approx([8, 5, 5 / 8])
    assert found("prices", "asked_earned", row[1]) == pytest.approx(24 / 1.06 - 0.72 - 4.6)
    # Nobody took any of these.
    asked = "asked: [{product: turnip-cubes, container: tin, net: 2 oz, price: 9 USD}]\n"
    found = made(tmp_path, MARKET + asked)
    assert found.of("prices", "turnip-cubes/tin/2", "taken", "sold_of_taken") == [0, None]
