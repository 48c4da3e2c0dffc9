"""The first sheet of a costing workbook on paper, as LibreOffice prints it."""

from __future__ import annotations

from pathlib import Path

import pytest
from engines import libreoffice
from labels.browser import info, text
from thorough import every

from handout.seasons import gathered
from handout.sheets import ALL, made
from reportgen.handout.season_page import cautions


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> dict[tuple[str, str], Path]:
    folder = tmp_path_factory.mktemp("printed")
    paths = {}
    for name, product in ALL:
        paths[name, product] = folder / f"{name}-{product}.xlsx"
        paths[name, product].write_bytes(made(name, product).workbook)
    return dict(zip(paths, libreoffice.printed(list(paths.values()), folder), strict=True))


@pytest.mark.parametrize(("name", "product"), every(3, ALL))
def test_the_first_page_says_it_all(
    printed: dict[tuple[str, str], Path], name: str, product: str
) -> None:
    pages = [" ".join(page.split()) for page in text(printed[name, product]).split("\f")]
    first, rest = pages[0], pages[1:]
    gather = gathered(name)
    assert first.startswith("Costing ")
    assert not any(page.startswith("Costing ") for page in rest), "it goes on on another page"
    for said in ("Prices of a pack", "What the full cost is made of", *cautions(gather),
                 *(gather.texts[f"sheet.left_{n}"][:60] for n in range(1, 6))):  # fmt: skip
        assert said in first, said
    assert gather.season is not None
    for said, _ in gather.season.cautions.get(product, []):
        assert " ".join(said.split())[:60] in first


@pytest.mark.parametrize(("name", "paper"), [("windrow-lane", "letter"), ("colline", "A4")])
def test_it_is_on_the_paper_of_its_place(
    printed: dict[tuple[str, str], Path], name: str, paper: str
) -> None:
    for (season, _), pdf in printed.items():
        if season == name:
            assert paper in info(pdf)["Page size"]
