"""What a partner does not get to see, not even by reckoning.

The season has private figures of so many digits that none is met by chance: they are looked for in
every part of both files, as texts, as numbers, and as the sum, difference, product or quotient of
any two numbers shown.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from io import BytesIO
from math import isclose

import numpy as np
import pytest
from lxml import etree, html

from handout.sheets import made

pytestmark = pytest.mark.slow

PRODUCTS = ("pear-slices", "plum-halves")
NAMES = {
    "pear-slices": ("Quillfeather", "Mossgate", "Brindle"),
    "plum-halves": ("Farthingdale",),
}
"""Where the produce of each was bought, and who sells the like."""
SHOWN_IN_ALL = {
    "pear-slices": (17.3719, 0.19373, 3.37307, 1.93873, 21.37319, 1394.2917 - 1371.91373, 0.79193,
                    0.57173, 0.41393),
    "plum-halves": (17.3719, 0.19373, 2.71703, 21.37319, 0.79193),
}  # fmt: skip
PRIVATE = {
    "an hour of work": 17.3719, "a kilowatt-hour": 0.19373, "a mile": 0.61731,
    "hours of lot pears-1": 3.37307, "hours of lot pears-2": 1.93873,
    "hours of lot plums-1": 2.71703, "hours of run-1": 0.79193, "hours of run-2": 0.57173,
    "hours of packing": 0.41393, "energy of run-1": 21.37319,
    "energy of run-2": 1394.2917 - 1371.91373, "meter before": 1371.91373,
    "meter after": 1394.2917, "duration of run-1": 31.3791, "duration of run-2": 29.7119,
    "mean power": 0.7133719, "mean power in W": 713.3719, "miles": 23.7137,
}  # fmt: skip
_NUMBER = re.compile(r"(?<![\w.])\d[\d,]*(?:\.\d+)?(?:[eE][-+]?\d+)?")


def parts(workbook: bytes) -> dict[str, str]:
    """Every part of the file, as text."""
    with zipfile.ZipFile(BytesIO(workbook)) as archive:
        return {each: archive.read(each).decode("utf-8") for each in archive.namelist()}


def numbers(texts: Iterator[str]) -> set[float]:
    """Every number that stands in some texts."""
    found: set[float] = set()
    for text in texts:
        found |= {float(each.replace(",", "")) for each in _NUMBER.findall(text)}
    return found


def shown(product: str, *words: str) -> tuple[str, set[float]]:
    """All that both files hold: in one text, and the numbers of their cells, caches and figures."""
    sheet = made("secretive", product, "", *words)
    page = sheet.page.decode()
    held = parts(sheet.workbook)
    found = numbers(
        value.text or ""
        for name, text in held.items()
        if name.startswith(("xl/worksheets/", "xl/charts/"))
        for value in etree.fromstring(text.encode()).iter("{*}v")
    )
    root = html.fromstring(page)
    found |= numbers(each.get("value") or each.get("data-value") or "" for each in root.iter())
    found |= numbers(iter([root.text_content()]))
    return "\n".join([page, *held.values()]), found


@pytest.mark.parametrize("product", PRODUCTS)
def test_no_name_is_in_any_part(product: str) -> None:
    text, _ = shown(product)
    for name in (each for names in NAMES.values() for each in names):
        assert name.lower() not in text.lower(), name


@pytest.mark.parametrize("product", PRODUCTS)
def test_no_private_number_is_in_any_part(product: str) -> None:
    text, found = shown(product)
    assert len(found) > 80
    for what, number in PRIVATE.items():
        assert not [each for each in found if isclose(each, number, rel_tol=1e-6)], what
        if "." in str(number):
            assert not re.search(rf"(?<![\d.]){re.escape(str(number))}(?!\d)", text), what


@pytest.mark.parametrize("product", PRODUCTS)
def test_no_private_number_follows_from_two_that_are_shown(product: str) -> None:
    _, found = shown(product)
    one = np.array(sorted(each for each in found if each))
    for what, number in PRIVATE.items():
        # Cells hold all digits, so that what does follow would agree to almost all of them.
        for other in (number / one, number - one, one - number, number * one, one / number):
            nearest = one[np.abs(one[None, :] - other[:, None]).argmin(axis=1)]
            close = np.isclose(nearest, other, rtol=1e-10, atol=0)
            assert not close.any(), f"{what}: {one[close]} and {nearest[close]}"


def test_the_search_would_find_a_rate_between_two_amounts() -> None:
    _, found = shown("pear-slices", "--all")
    one = np.array(sorted(each for each in found if each))
    energy, cost = 21.37319, 21.37319 * 0.19373
    assert np.isclose(one, energy, rtol=1e-10).any() and np.isclose(one, cost, rtol=1e-10).any()


@pytest.mark.parametrize("product", PRODUCTS)
def test_asked_for_all_is_shown_in_both(product: str) -> None:
    sheet = made("secretive", product, "", "--all")
    text, found = shown(product, "--all")
    for name in NAMES[product]:
        assert name in sheet.page.decode()
        assert name in "".join(parts(sheet.workbook).values())
    for number in SHOWN_IN_ALL[product]:
        assert any(isclose(each, number, rel_tol=1e-12) for each in found), number
    for other in set(NAMES) - {product}:
        for name in NAMES[other]:
            assert name not in text
    assert "Nothing: the private figures are on it." in html.fromstring(sheet.page).text_content()


@pytest.mark.parametrize("product", PRODUCTS)
def test_it_says_what_it_leaves_out(product: str) -> None:
    sheet = made("secretive", product)
    assert "Left out: " in sheet.said
    page = html.fromstring(sheet.page.decode()).text_content()
    first = parts(sheet.workbook)["xl/worksheets/sheet1.xml"]
    cells = "".join(t.text or "" for t in etree.fromstring(first.encode()).iter("{*}t"))
    if not cells:
        cells = "".join(parts(sheet.workbook).values())
    for said in ("from whom", "wages and hours", "meter readings", "sellers"):
        assert said in page and said in cells
