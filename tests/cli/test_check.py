"""``check``: what is wrong, what is doubtful, what is open; and that it writes nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from cli.seasons import BATCH, SEASON, run, season

pytestmark = pytest.mark.seasons


def test_what_is_open_is_told_with_its_line(tmp_path: Path) -> None:
    done = run("check", season(tmp_path))
    assert done.exit_code == 0
    _, _, still_open = done.stdout.partition("Still open\n")
    lines = still_open.splitlines()
    file = "batches/2025-09-05.yaml"
    assert f"  {file}:14: run run-2: no dry weight for pears-1" in lines
    # 30 lb prepped - 10 lb - 8 lb loaded
    assert f"  {file}:2: lot pears-1: 12.0 lb of pear-slices to be dried" in lines
    assert any(line.startswith(f"  {file}:20: pack P-2: a pack without a net") for line in lines)
    assert any(
        line.startswith(f"  {file}:22: use use-1: sold, but without a price") for line in lines
    )


def test_bulk_that_is_not_packed_is_open(tmp_path: Path) -> None:
    done = run("check", season(tmp_path, BATCH.replace("count: 2,", "count: 2, net: 3 oz,")))
    # 26 oz dried - 5 x 2 oz - 2 x 3 oz packed
    assert "product pear-slices: 10.0 oz dried, not packed" in done.stdout


def test_a_failing_check_says_what_where_and_what_to_do(tmp_path: Path) -> None:
    done = run("check", season(tmp_path, BATCH.replace("energy: 20 kWh", "energy: 2 kWh")))
    assert done.exit_code == 0, "what is only unlikely is told, not refused"
    cautions, _, _ = done.stdout.partition("Still open")
    assert "Cautions\n" in cautions and "  Less energy than it takes" in cautions
    assert "  To do: Check the meter readings" in cautions
    assert "    batches/2025-09-05.yaml:9: run run-1" in cautions
    assert done.stdout.endswith("The figures can be used; some cautions are open.\n")


def test_many_places_of_one_check_are_cut(tmp_path: Path) -> None:
    pack = "  - {{id: Q-{0}, product: pear-slices, container: jar, net: 0.1 oz}}\n"
    many = BATCH.replace("uses:\n", "".join(pack.format(n) for n in range(34)) + "uses:\n")
    place = season(tmp_path, many)
    cut = run("check", place).stdout
    assert "pack Q-29" in cut and "pack Q-30" not in cut
    assert "and 4 more (--all lists them)" in cut
    assert "pack Q-33" in run("check", place, "--all").stdout


def test_an_empty_season_passes(tmp_path: Path) -> None:
    done = run("check", season(tmp_path, batch=""))
    assert done.exit_code == 0
    assert done.stdout == "Larch Hollow 2025: nothing recorded yet\n"
    assert done.stderr == ""


def test_errors_are_all_told_on_stderr(tmp_path: Path) -> None:
    wrong = BATCH.replace("wet: 10 lb", "wet: 10 lbb").replace("price: 30 USD", "price: -3 USD")
    done = run("check", season(tmp_path, wrong))
    assert done.exit_code == 1
    assert done.stdout == ""
    assert "batches/2025-09-05.yaml:5: '-3 USD' is negative" in done.stderr
    assert "batches/2025-09-05.yaml:13: " in done.stderr
    assert "2 errors. Correct them and try again." in done.stderr


def test_it_writes_nothing(tmp_path: Path) -> None:
    place = season(tmp_path)
    before = sorted(tmp_path.rglob("*"))
    run("check", place)
    assert sorted(tmp_path.rglob("*")) == before


def test_a_single_file_is_a_season(tmp_path: Path) -> None:
    file = tmp_path / "all.yaml"
    file.write_text(SEASON + BATCH, "utf-8")
    done = run("check", file)
    assert done.exit_code == 0
    assert "all.yaml:10: lot pears-1" in done.stdout


def test_an_error_of_a_product_names_the_weight_that_is_missing_first(tmp_path: Path) -> None:
    """Packed 44 oz and nothing dried, for the one load lacks its dry weight."""
    batch = BATCH.replace(", dry: 26 oz", "").replace("count: 2,", "count: 2, net: 3 oz,")
    lines = run("check", season(tmp_path, batch)).stdout.splitlines()
    assert "  More was packed and used than was dried and carried over." not in lines
    told = "  Packed, but a load behind it has no dry weight, and the packs do not tell it."
    at = lines.index(told)
    assert lines[at + 1].startswith("  To do: First write what came out of the load, or about")
    assert [line.strip() for line in lines[at + 2 : at + 4]] == [
        "batches/2025-09-05.yaml:13: load run-1/pears-1: no dry weight",
        "batches/2025-09-05.yaml:17: load run-2/pears-1: no dry weight",
    ]
    assert "product pear-slices" in lines[at + 4]


def test_both_lines_are_named_where_two_weights_differ(tmp_path: Path) -> None:
    load = """    loads:
      - lot: pears-1
        wet: 10 lb
        dry: 26 oz
        dryness: {weights: [25.2 oz, 25.1 oz]}
"""
    one_line = "    loads: [{lot: pears-1, wet: 10 lb, dry: 26 oz}]\n"
    assert one_line in BATCH
    said = run("check", season(tmp_path, BATCH.replace(one_line, load))).stdout
    # Seven lines of the lot, six of the run, then the load.
    assert "    batches/2025-09-05.yaml:14: load run-1/pears-1, lines 16 and 17\n" in said


def test_lines_are_of_the_records_own_file(tmp_path: Path) -> None:
    """The day it is judged on stands in another file, or nowhere: no line of that is named."""
    later = BATCH.replace("uses:", "uses:\n  - {date: 2099-01-01, pack: P-1, for: household}")
    assert later != BATCH
    said = run("check", season(tmp_path, later)).stdout.splitlines()
    at = said.index("  Dated after the day this was judged on.")
    assert re.fullmatch(r"    batches/2025-09-05\.yaml:\d+: use use-1", said[at + 2])


def test_what_took_of_an_overdrawn_pack_is_named(tmp_path: Path) -> None:
    more = BATCH.replace("uses:", "uses:\n  - {date: 2025-10-01, pack: P-1, count: 40, for: gift}")
    path = season(tmp_path, more)
    line = 1 + (path / "batches/2025-09-05.yaml").read_text().splitlines().index(
        "  - {date: 2025-10-01, pack: P-1, count: 40, for: gift}"
    )
    said = run("check", path).stdout.splitlines()
    at = said.index("  More were used than were there.")
    assert f"    batches/2025-09-05.yaml:{line}: use use-1: 40" in said[at + 3 : at + 5]


def test_an_unknown_product_says_how_to_see_all(tmp_path: Path) -> None:
    done = run("check", season(tmp_path, BATCH.replace("product: pear-slices", "product: zorp", 1)))
    assert done.exit_code == 1
    assert "reportgen recipes" in done.stderr and "recipes/zorp.yaml" in done.stderr
