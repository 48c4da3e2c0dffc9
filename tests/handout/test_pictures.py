"""Pictures show what they say: their shapes are as long and as high as the numbers behind them."""

from __future__ import annotations

import pytest
from lxml import etree, html

from handout.seasons import gathered, page


def _svg(document: bytes, id: str) -> etree._Element:
    (found,) = html.fromstring(document.decode()).xpath(f"//svg[@aria-labelledby='{id}-t {id}-d']")
    return found


def test_the_power_of_a_run_is_drawn_as_its_log_has_it() -> None:
    cells = gathered("colline").numbers.cells["power"]
    watts = [float(str(each)) for each in cells["watt"]]
    hours = [float(str(each)) for each in cells["since"]]
    svg = _svg(page("colline"), "power")
    (line,) = svg.xpath(".//polyline")
    points = [tuple(map(float, each.split(","))) for each in line.get("points").split()]
    assert len(points) == len(watts) > 100
    for (x, y), watt, hour in zip(points, watts, hours, strict=True):
        assert x * max(hours) == pytest.approx(hour, abs=max(hours) * 1e-4)
        assert (1 - y) * max(watts) == pytest.approx(watt, abs=max(watts) * 1e-4)
    said = svg.findtext("desc")
    assert f"{max(watts):.0f}\N{NO-BREAK SPACE}W" in said and "kWh" in said
    assert svg.findtext("title") == "Power over time"


@pytest.mark.parametrize("name", ["windrow-lane", "empty"])
def test_without_a_log_there_is_no_curve(name: str) -> None:
    assert "<polyline" not in page(name).decode()


@pytest.mark.parametrize("name", ["windrow-lane", "colline"])
def test_pieces_are_as_wide_as_what_they_stand_for(name: str) -> None:
    cells = gathered(name).numbers.cells["products"]
    most = max(float(str(each)) for each in cells["full_cost"] if each is not None)
    rects = _svg(page(name), "made_of").xpath(".//rect")
    wide = [float(each.get("width").rstrip("%")) / 99.6 for each in rects]
    parts = ("cost_ingredients", "cost_energy", "cost_upkeep", "cost_packaging", "cost_wear",
             "cost_labor", "cost_pack_labor", "cost_overhead")  # fmt: skip
    expected = [float(str(cells[part][row])) / most
                for row in range(len(cells["key"])) for part in parts
                if cells[part][row]]  # fmt: skip
    assert wide == pytest.approx(expected, abs=1e-4)
