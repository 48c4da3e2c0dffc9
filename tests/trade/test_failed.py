"""Runs that failed: a loss of the season by itself, worked out with a pencil."""

from __future__ import annotations

from pathlib import Path

import pytest
from cli.seasons import run as command

from trade.small import season

# 20 lb prepped for 20 USD and an hour of work: a pound costs 1 USD, and 0.50 USD of time.
TEXT = """
lots: [{id: t, product: turnip-cubes, price: 20 USD, prepped: 20 lb, labor: 1 h}]
runs:
  - {id: good, duration: 30 h, energy: 8 kWh, loads: [{lot: t, wet: 6 lb, dry: 10 oz}]}
  - {id: bad, duration: 10 h, energy: 4 kWh, labor: 30 min, failed: true, note: the power went,
     loads: [{lot: t, wet: 5 lb}]}
"""


def test_what_it_cost_is_a_loss_by_itself(tmp_path: Path) -> None:
    found = season(tmp_path, TEXT)
    # 5 lb; 4 kWh at 0.25, 2 of upkeep, 4 of wear, half an hour of its own, 2.50 of the lot's time.
    running = 5 + 1 + 2
    full = running + 4 + 5 + 2.5
    names = ("given_up", "loads_again", "failed_running", "failed_cost", "done")
    assert found.of("runs", "bad", *names) == pytest.approx([True, 0, running, full, False])
    assert found.of("runs", "good", *names[:4]) == pytest.approx([False, 0, 0, 0])
    load = ("given_up", "gone", "finished", "unfinished", "lost_with_it", "hours_lost_with_it")
    assert found.of("loads", "bad/t", *load) == pytest.approx([True, True, False, False, 5, 2.5])
    whole = ("failed_cost", "failed_running", "failed_produce", "runs_given_up", "runs_open")
    assert [found("season", name) for name in whole] == pytest.approx([full, running, 5, 1, 0])
    assert found("season", "in_process_cost") == 0
    assert found("products", "in_process", "turnip-cubes") == 0


def test_it_is_in_no_unit_cost(tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    with_it = season(tmp_path / "a", TEXT)
    without = season(tmp_path / "b", TEXT[: TEXT.index("  - {id: bad")])
    for name in ("running_bulk", "full_bulk", "running_cost", "full_cost", "dried", "drying_ratio"):
        assert with_it("products", name, "turnip-cubes") == pytest.approx(
            without("products", name, "turnip-cubes")
        )
    # What was spent is more by its energy and upkeep, and by nothing else.
    assert with_it("season", "spent") == pytest.approx(without("season", "spent") + 3)
    checks = {"season-produce-not-conserved", "season-parts-not-total"}
    assert not checks & {*with_it.failing()}


def test_it_is_no_open_place(tmp_path: Path) -> None:
    season(tmp_path, TEXT)
    assert "bad" not in command("check", tmp_path).output
    assert "lost" in command("explain", tmp_path, "runs.failed_cost", "bad").output


AGAIN = (
    TEXT
    + """\
  - {id: second, duration: 20 h, energy: 6 kWh, loads: [{again: bad/t, wet: 2 lb, dry: 8.5 oz}]}
"""
)


def test_where_its_loads_went_in_again_it_is_like_any_other(tmp_path: Path) -> None:
    found = season(tmp_path, AGAIN)
    assert found.of("runs", "bad", "loads_again", "given_up", "done") == [1, False, True]
    assert found("loads", "dried_again", "bad/t") is True
    assert found("season", "failed_cost") == 0
    assert found("products", "dried", "turnip-cubes") == pytest.approx(18.5)


def test_what_went_in_again_and_was_lost_is_no_longer_there(tmp_path: Path) -> None:
    text = (
        AGAIN.replace("failed: true, ", "")
        .replace("dry: 8.5 oz", "dry: 8.5 oz")
        .replace("{id: second, ", "{id: second, failed: true, ")
    )
    found = season(tmp_path, text)
    # The 2 lb that came out of the first drying were lost in the second.
    assert found("products", "dried", "turnip-cubes") == pytest.approx(10)
    assert found("season", "failed_cost") == pytest.approx(6 * 0.25 + 2 + 4)


def test_a_pack_of_it_is_an_error(tmp_path: Path) -> None:
    packs = "packs: [{id: P, product: turnip-cubes, container: tin, net: 4 oz, from: [bad]}]\n"
    found = season(tmp_path, TEXT + packs)
    assert "draws-drawn-from-failed" in found.failing()
    assert found.of("loads", "bad/t", "dryness_verdict", "dryness_pending") == ["lost", "lost"]


def test_a_note_stands_beside_what_is_said(tmp_path: Path) -> None:
    note = "the scale fell"
    text = TEXT.replace("wet: 6 lb, dry", f"note: {note}, wet: ~6 lb, dry")
    season(tmp_path, text)
    assert f"load good/t ({note})" in command("check", tmp_path).output
    said = command("explain", tmp_path, "loads.weight_in", "good/t").output
    assert f"Note: {note}" in said
