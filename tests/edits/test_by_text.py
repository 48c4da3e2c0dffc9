"""Records without an id, known by their file and their text."""

from __future__ import annotations

from pathlib import Path

import pytest

from edits.desk import LIST_FILE, desk

pytestmark = pytest.mark.slow

EARLIER = """\
uses:
  - {date: 2025-08-02, product: pear-slices, weight: 0.5 oz, for: crumbs}
  - {date: 2025-09-20, pack: P-1, count: 1, for: stall}
"""


def test_a_file_that_is_new_since_shifts_no_use_and_no_count(tmp_path: Path) -> None:
    """It is read before the others, so that each row of theirs has another number; one of its uses
    has the text of one that was there."""
    at = desk(tmp_path)
    at.type(
        {
            at.at.cell("uses", 1, "channel"): "co-op",
            at.at.cell("uses", 2, "weight"): 1.75,
            at.at.cell("counts", 1, "counted"): 2.0,
        }
    )
    new = at.folder / "batches" / "2025-08-01.yaml"
    new.write_text(EARLIER + "counts:\n  - {date: 2025-09-12, pack: P-1, counted: 4}\n", "utf-8")
    before = at.texts()
    assert sorted(at.kinds()) == ["change"] * 3
    done = at.run("take")
    assert done.exit_code == 0, done.output
    wanted = (
        before[LIST_FILE]
        .replace("count: 1, for: stall}     # the first", "count: 1, for: co-op}     # the first")
        .replace("weight: 1.5 oz", "weight: 1.75 oz")
        .replace("counted: 3}", "counted: 2}")
    )
    assert at.texts() == {**before, LIST_FILE: wanted}
    assert set(at.kinds()) == {"home"}
    assert "kept as NAME.before" in done.stdout
    assert (at.folder / f"{LIST_FILE}.before").read_text("utf-8") == before[LIST_FILE]


def test_one_that_is_written_otherwise_by_now_says_what_to_do(tmp_path: Path) -> None:
    at = desk(tmp_path)
    cell = at.at.cell("uses", 2, "weight")
    at.type({cell: 1.75})
    at.write(LIST_FILE, "weight: 1.5 oz", "weight: 2 oz")
    for options in ((), ("--theirs",)):
        done = at.run("take", *options)
        assert done.exit_code == 1
        said = " ".join(done.stderr.split())
        assert "!".join(cell) in said and LIST_FILE in said
        assert "write there what is to count and set the cell back" in said
        assert "--theirs" not in said


def test_what_the_season_refuses_is_told_by_cell_where_lines_have_moved(tmp_path: Path) -> None:
    at = desk(tmp_path)
    cell = at.at.cell("uses", 2, "count")
    at.type({at.at.cell("runs", "run-1", "labor"): 0.5, cell: 2.0})
    refused = [each for each in at.compare(exit_code=1) if each["kind"] == "refused"]
    assert [(each["sheet"], each["cell"]) for each in refused] == [cell]
    said = at.run("take").stderr
    assert f"Cannot be taken:\n  {'!'.join(cell)}: use 2025-09-21" in said
    assert at.run("take", "--only", "!".join(at.at.cell("runs", "run-1", "labor"))).exit_code == 0


def test_a_use_for_two_things_is_refused(tmp_path: Path) -> None:
    """It was sold at the stall; somebody types that it was a gift, and leaves the stall."""
    at = desk(tmp_path)
    cell = at.at.cell("uses", 1, "purpose")
    at.type({cell: "gift"})
    done = at.run("take")
    assert done.exit_code == 1
    assert (
        f"{'!'.join(cell)}: use 2025-09-20, P-1, stall: purpose: 'stall' stands in" in done.stderr
    )
    at.type({at.at.cell("uses", 1, "channel"): None})
    assert at.run("take").exit_code == 0
    assert "count: 1, for: gift}" in at.texts()[LIST_FILE]
    assert set(at.kinds()) == {"home"}
