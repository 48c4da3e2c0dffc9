"""Charts: axes that are seen, values that are cached, words for who cannot see them.

Source of the elements: ECMA-376 part 1, 21.2 (charts) and 20.5 (spreadsheet drawings).
"""

from __future__ import annotations

import pytest
from lxml import etree

from reportgen.layout.page import Chart, Page, Series, Workbook
from reportgen.write.workbook import render
from write.books import DOUBLE, IDS, WET, parts, whole, xml


def _charts() -> list[etree._Element]:
    found = parts(render(whole()))
    return [etree.fromstring(found[name]) for name in sorted(found) if "charts/chart" in name]


def _points(holder: etree._Element | None) -> dict[int, str | None]:
    assert holder is not None
    return {int(pt.get("idx", "-1")): pt.findtext("{*}v") for pt in holder.iter("{*}pt")}


def test_every_series_is_cached_with_its_name():
    charts = _charts()
    assert len(charts) == 3
    for chart in charts:
        for series in chart.iter("{*}ser"):
            assert _points(series.find("{*}tx/{*}strRef/{*}strCache"))[0]
            for kind in ("cat", "val", "xVal", "yVal"):
                for source in series.findall("{*}" + kind):
                    (reference,) = source
                    assert reference.findtext("{*}f", "").startswith("Loads!$")
                    assert _points(reference[1])


def test_cached_values_are_those_of_the_cells():
    first, second = _charts()[0].iter("{*}ser")
    names = _points(first.find("{*}cat//{*}strCache"))
    assert names == {number: text or "" for number, text in enumerate(IDS)}
    for series, values in ((first, WET), (second, DOUBLE)):
        cache = series.find("{*}val//{*}numCache")
        assert cache is not None
        known = {n: v for n, v in enumerate(values) if v is not None}
        found = {n: float(text or "nan") for n, text in _points(cache).items()}
        assert found == pytest.approx(known)
        assert cache.find("{*}ptCount").get("val") == "4"  # type: ignore[union-attr]


def test_axes_and_titles_are_seen_and_nothing_overlaps():
    for chart in _charts():
        deleted = [node.get("val") for node in chart.iter("{*}delete")]
        assert deleted == ["0", "0"]
        assert {node.get("val") for node in chart.iter("{*}overlay")} == {"0"}
        assert chart.find("{*}roundedCorners").get("val") == "0"  # type: ignore[union-attr]
        assert chart.findtext("{*}chart/{*}title//{*}t")


def test_a_legend_only_where_there_are_several_series():
    legends = [chart.find(".//{*}legend/{*}legendPos") for chart in _charts()]
    assert [None if one is None else one.get("val") for one in legends] == ["b", None, None]


def test_bars_stand_in_the_order_of_the_table():
    bars = _charts()[0]
    category, value = bars.find(".//{*}catAx"), bars.find(".//{*}valAx")
    assert category is not None and value is not None
    assert category.find("{*}scaling/{*}orientation").get("val") == "maxMin"  # type: ignore[union-attr]
    assert value.find("{*}crosses").get("val") == "max"  # type: ignore[union-attr]
    assert bars.find(".//{*}overlap").get("val") == "100"  # type: ignore[union-attr]


def test_alt_text_and_names_in_order():
    found = [
        (node.get("name"), node.get("descr"))
        for number in (1, 2)
        for node in xml(whole(), f"xl/drawings/drawing{number}.xml").iter("{*}cNvPr")
    ]
    assert found == [
        ("By load", 'Pears "lead" & <win>'),
        ("Over time", "It falls\nslowly."),
        ("Dots", "On a line."),
    ]


def test_a_title_that_looks_like_another_chart_s_name():
    series = [Series("S!$A$1", "a", "S!$B$1:$B$2", ["x", "y"], "S!$C$1:$C$2", [1.0, None])]
    titles = ['Chart 2" descr="', "Chart 3", "Chart 1"]
    page = Page("S", charts=[
        Chart("column", title, "", "", series, f"A{at * 20 + 1}", 10, 7, f"alt {at}")
        for at, title in enumerate(titles)
    ])  # fmt: skip
    drawing = xml(Workbook("t", "en", [page]), "xl/drawings/drawing1.xml")
    found = [(node.get("name"), node.get("descr")) for node in drawing.iter("{*}cNvPr")]
    assert found == [(title, f"alt {at}") for at, title in enumerate(titles)]
