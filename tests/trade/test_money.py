"""Money in, out by kind and left, by hand; what no money leaves for is not in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from reportgen.trade import BOOK
from trade.small import HEAD, Figures, season

MORE = """
overheads:
  - {item: permit, cost: 30 USD, over: 500 oz}
  - {item: shed, cost: 70 USD, paid: false}
  - {item: water test, cost: 12 USD, paid: true}
"""
BATCH = """
lots:
  - {id: t, product: turnip-cubes, price: 20 USD, prepped: 40 lb, lost: 4 lb, set_aside: 2 lb,
     travel: 10 mile, labor: 2 h}
  - {id: u, product: turnip-cubes, price: 7 USD, prepped: 9 lb}
  - {id: v, product: turnip-cubes, grown: true, prepped: 5 lb}
runs:
  - {id: r, duration: 20 h, energy: 16 kWh, labor: 1 h, loads: [{lot: t, wet: 30 lb, dry: 42 oz}]}
  - {id: s, duration: 20 h, energy: 12 kWh, labor: 30 min, loads: [{lot: u, wet: 9 lb}]}
packs:
  - {id: P, product: turnip-cubes, container: tin, count: 10, net: 4 oz, from: [r], labor: 90 min}
  - {id: Q, product: turnip-cubes, container: tin, count: 5, net: 4 oz,
     carried: {running: 3 USD, full: 4 USD}}
uses:
  - {pack: P, count: 3, for: stall, price: 9 USD}
  - {pack: Q, count: 1, for: co-op, price: 8 USD}
  - {pack: P, count: 2, for: household}
"""
OUT = (
    "money_purchases", "money_bought", "money_driving", "money_packaging", "money_energy",
    "money_upkeep", "money_fees", "money_tax", "money_overheads", "money_stall", "money_to_market",
    "money_labor",
)  # fmt: skip
STALL = HEAD.replace("pricing: {", "pricing: {stall: 6 USD/day, days: 3 day, ")
PAID = STALL.replace("labor: 10 USD/h", "labor: 10 USD/h, labor_paid: true")


def out(found: Figures) -> dict[str, object]:
    return {kind: found("season", kind) for kind in OUT}


def test_each_line(tmp_path: Path) -> None:
    found = season(tmp_path, MORE + BATCH, STALL)
    assert out(found) == pytest.approx(
        {
            "money_purchases": 27,  # both lots, waiting, set aside and lost included
            "money_bought": 0,
            "money_driving": 5,
            "money_packaging": 20,  # ten tins at 1.90 / 0.95; those of last season were paid then
            "money_energy": 7,  # 28 kWh, that of the run still going included
            "money_upkeep": 4,  # two runs
            "money_fees": 2.7,  # a tenth of 27 at the stall; the co-op takes none
            "money_tax": 0,
            "money_overheads": 42,  # in full, whatever weight they are spread over; not the shed
            "money_stall": 18,
            "money_to_market": 0,
            "money_labor": 0,
        }
    )
    assert found("season", "money_in") == 35
    assert found("season", "money_out") == pytest.approx(125.7)
    assert found("season", "money_left") == pytest.approx(35 - 125.7)
    parts = ("money_out_produce", "money_out_machine", "money_out_beside", "paid_beside")
    assert [found("season", each) for each in parts] == pytest.approx([52, 11, 62.7, 60])
    assert found("season", "paid_beside_by_weight") == pytest.approx(60 / 42)
    leaves = [
        found("overheads", "money_leaves", key)
        for key in ("overhead-1", "overhead-2", "overhead-3")
    ]
    assert leaves == [True, False, True]


def test_time_is_in_it_where_it_is_paid(tmp_path: Path) -> None:
    """Two hours, an hour, half an hour of the run still going, an hour and a half: 5 h at 10."""
    found = season(tmp_path, MORE + BATCH, PAID)
    assert found("season", "run_labor_all") == pytest.approx(15)
    assert found("season", "money_labor") == pytest.approx(50)
    assert found("season", "money_out") == pytest.approx(175.7)


def test_what_was_paid_by_kind_adds_up(tmp_path: Path) -> None:
    """Every kind there is, by the names of the quantities themselves."""
    found = season(tmp_path, MORE + BATCH, PAID)
    names = {name for name in BOOK.tables["season"].definitions if name.startswith("money_")}
    sums = {"money_in", "money_out", "money_left"}
    kinds = {name for name in names if not name.startswith("money_out_")} - sums
    assert kinds == {*OUT}
    paid = sum(float(str(value)) for value in out(found).values())
    assert found("season", "money_out") == pytest.approx(paid)


def test_it_is_running_cost_and_what_is_beside_it(tmp_path: Path) -> None:
    """Where all runs are done and no pack is left from last season: spent, fees, and the rest."""
    done = BATCH.replace("wet: 9 lb}", "wet: 9 lb, dry: 12 oz}")
    found = season(tmp_path, MORE + done, STALL)
    spent = found("season", "spent")
    assert isinstance(spent, float)
    assert found("season", "money_out") == pytest.approx(spent + 2.7 + 42 + 18)


def test_without_a_stall_nothing_is_asked_for(tmp_path: Path) -> None:
    found = season(tmp_path, BATCH)
    assert found("season", "money_stall") == 0
    assert found("season", "money_out") == pytest.approx(27 + 5 + 20 + 7 + 4 + 2.7)
    assert season(tmp_path, "")("season", "money_left") == 0


def test_stall_days_to_come_are_not_paid(tmp_path: Path) -> None:
    """Three days at 6: one day with two sales has come, one is ahead of the day it is judged on."""
    dated = BATCH.replace("{pack: P, count: 3, for: stall", "{date: 2025-06-07, pack: P, count: 1, "
                          "for: stall, price: 9 USD}\n  - {date: 2025-06-07, pack: P, count: 1, "
                          "for: stall, price: 9 USD}\n  - {date: 2025-08-01, pack: P, count: 1, "
                          "for: stall")  # fmt: skip
    found = season(tmp_path, MORE + dated, STALL + "as_of: 2025-07-01\n")
    of_season = ("stall_days_held", "stall_days_ahead", "stall_ahead", "money_stall")
    assert [found("season", each) for each in of_season] == [1, 2, 12, 6]
    assert found("season", "money_out") == pytest.approx(125.7 - 12)
    # A payback asks what the season's stall takes, held or not.
    assert found("season", "paid_beside") == pytest.approx(60)
    found = season(tmp_path, MORE + BATCH, STALL)
    assert [found("season", each) for each in ("stall_sales_undated", "stall_ahead")] == [1, 0]
    # Money out, less what was spent: fees, overheads, stall, and 3 + 2 of the run still going.
    assert found("season", "paid_for_going") == pytest.approx(5)
    assert found("season", "machine_in_spent") == pytest.approx(6)
    assert found("season", "paid_beyond_spent") == pytest.approx(2.7 + 42 + 18 + 5)
