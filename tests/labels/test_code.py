"""The code on a label: what it says, read back by a decoder that knows nothing of us."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import segno
import zxingcpp
from cli.seasons import SEASON

from labels.made import labels, season
from reportgen.labels.code import CAPACITY, QUIET, size, slug, trace
from reportgen.labels.html_file import code
from reportgen.program import data, read

pytestmark = pytest.mark.seasons


def decoded(text: str) -> str:
    """What a decoder reads in the shape as it is printed."""
    made = code(text, 0.4)
    picture = np.full((made.modules, made.modules), 255, np.uint8)
    for x, y, length, back in re.findall(r"M(\d+) (\d+)h(\d+)v1h-(\d+)z", made.path):
        assert length == back
        assert (picture[int(y), int(x) : int(x) + int(length)] == 255).all()
        picture[int(y), int(x) : int(x) + int(length)] = 0
    found = zxingcpp.read_barcodes(np.kron(picture, np.ones((6, 6), np.uint8)))
    assert [each.format for each in found] == [zxingcpp.BarcodeFormat.QRCode]
    return str(found[0].text)


def test_a_code_says_pack_day_runs_and_lots() -> None:
    said = trace("Windrow Lane", "P-0908", "2025-09-08", ["run-07"], ["pears-1"])
    assert said == "reportgen:windrow-lane/P-0908 packed 2025-09-08 from run-07 lots pears-1"
    assert decoded(said) == said


@pytest.mark.parametrize("name", ["windrow-lane", "colline"])
def test_codes_lead_back_to_the_trace(name: str) -> None:
    place = data("recipes").parent / "samples" / name
    numbers = read(place).numbers
    assert numbers is not None
    cells = numbers.cells["trace"]
    made = labels(place)
    assert len(made) > 5
    for pack, label in made.items():
        text = decoded(label.code)
        head, _, rest = text.partition(" from ")
        assert head.split()[0].rpartition("/")[2] == pack
        runs, _, lots = rest.partition(" lots ")
        rows = [n for n, each in enumerate(cells["pack"]) if each == pack]
        assert set(runs.split()) == {cells["run"][n] for n in rows}
        assert set(lots.split()) == {cells["lot"][n] for n in rows}


def test_a_long_trace_is_counted_and_still_fits() -> None:
    runs = [f"run-number-{n}" for n in range(40)]
    said = trace("A" * 200, "p" * 60, "2025-09-08", runs, runs[:2])
    assert said.endswith("packed 2025-09-08 from 40 runs of 2 lots")
    assert decoded(said) == said


def test_the_sizes_are_those_of_the_standard() -> None:
    # ISO/IEC 18004, table 7, by another implementation: the largest text of each version.
    for number, most in enumerate(CAPACITY, 1):
        for length, version in ((most, number), (most + 1, number + 1)):
            made = segno.make_qr("a" * length, error="m", mode="byte", boost_error=False)
            assert made.version == version
        assert size("a" * most) == 17 + 4 * number + 2 * QUIET == code("a" * most, 1).modules
    assert size("a" * (CAPACITY[-1] + 1)) is None
    assert all(small < large for small, large in pairwise(CAPACITY))


def test_a_name_becomes_a_word() -> None:
    assert slug("Colline d'Aurevent 2025") == "colline-d-aurevent-2025"
    assert slug("Été à l’orée") == "ete-a-l-oree"
    assert slug("畑") == "season"


def test_the_season_of_a_hostile_name(tmp_path: Path) -> None:
    settings = SEASON.replace("Larch Hollow 2025", '"<b>&\\" packed 1999 \'"')
    made = labels(season(tmp_path / "s", settings=settings))
    assert made["P-1"].code.startswith("reportgen:b-packed-1999/P-1 packed 2025-09-08")
