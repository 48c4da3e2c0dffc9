"""The day a season is judged on: asked for, its own, else today; the same day, the same bytes."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli.seasons import ROOT, SEASON, run, season

pytestmark = pytest.mark.slow

COMMANDS = ("check", "figures", "build", "page", "labels")
LANE = ROOT / "samples" / "windrow-lane"


def past(*options: str) -> int:
    """How many packs are named as past their day."""
    done = run("check", LANE, *options)
    assert done.exit_code == 0, done.stderr
    _, _, said = done.stdout.partition("Still on the shelf past its best-by day.")
    return said.partition("\n  An offer")[0].count("pack P-")


def test_best_by_days_are_judged_on_the_day_asked_for() -> None:
    # Peas of July 2024 keep six months; a year later most of what is on hand is past its day.
    assert past() == 1
    assert past("--as-of", "2024-12-31") == 0
    assert past("--as-of", "2026-11-25") == 14


def test_where_the_day_comes_from(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def told(place: Path, *options: str) -> str:
        return run("explain", place, "season.as_of", *options).stdout

    own = season(tmp_path / "own", settings=SEASON + "as_of: 2025-10-01\n")
    assert 'season.yaml:9, written "2025-10-01"' in told(own)
    assert '--as-of, written "2025-12-24"' in told(own, "--as-of", "2025-12-24")
    none = season(tmp_path / "none")
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    assert "season = 1970-01-02" in told(none) and "not written: today" in told(none)
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    from datetime import date

    assert f"season = {date.today().isoformat()}" in told(none)


@pytest.mark.parametrize("command", COMMANDS)
def test_the_same_day_gives_the_same_bytes(command: str, tmp_path: Path) -> None:
    """Whatever the clock says; and another day gives others."""

    def made(name: str, epoch: str, day: str) -> bytes:
        target = tmp_path / f"{name}.{'xlsx' if command == 'build' else 'html'}"
        writes = command in ("build", "page", "labels")
        options = ["-o", str(target)] if writes else []
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("SOURCE_DATE_EPOCH", epoch)
            done = run(command, LANE, "--as-of", day, *options)
        assert done.exit_code == 0, done.stderr
        return target.read_bytes() if writes else done.stdout.encode()

    first = made("a", "1798675200", "2025-10-19")
    if command != "build":  # the file says when it was made, by the same clock
        assert made("b", "1898675200", "2025-10-19") == first
    assert made("c", "1798675200", "2025-10-19") == first
    assert made("d", "1798675200", "2026-11-25") != first


def test_a_day_that_is_none() -> None:
    done = run("check", LANE, "--as-of", "1/2/2026")
    assert done.exit_code == 2
    assert "may be read as two different days" in done.stderr


def test_check_tells_what_to_eat_first() -> None:
    told = run("check", LANE).stdout.partition("\nEat first\n")[2].partition("\n\n")[0].splitlines()
    assert len(told) == 11
    assert told[0].startswith("  P-0624: 1 × Green peas (can-10), best by 2025-01-07, past its day")
    days = [line.partition("best by ")[2][:10] for line in told[:10]]
    assert days == sorted(days)
    assert told[-1] == "  8 more on the shelf"
