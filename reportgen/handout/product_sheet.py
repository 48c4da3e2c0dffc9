"""The costing sheet of one product, for a partner: one printed page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from reportgen.handout.content import Figure, Grid, ProductSheet, Sentence, Term
from reportgen.handout.costing_groups import COST_PARTS, FIGURES, PRICES, names
from reportgen.handout.gather import Gather
from reportgen.handout.pictures import made_of
from reportgen.handout.season_page import cautions, sentence
from reportgen.report import made_of as contents

_WHERE_ANY = ("carried", "bulk_used")
"""Of those, what is told only where there is some."""
_LOADS = ("dryness_verdict", "evidence", "dryness_reason")
_FEW = 3
"""Loads that are named where the same is said of many."""
_LEFT_OUT = 5
"""What a sheet without the private figures leaves out, ``sheet.left_1`` and on."""


def product_sheet(gather: Gather, product: str, everything: bool = False) -> ProductSheet:
    """All that the costing sheet shows; ``everything``: the private figures too."""
    texts = gather.texts
    row = gather.keys("products").index(product)
    name = gather.name_of("products", product)
    subtitle = texts["sheet.subtitle"].replace("{season}", gather.season.name)
    return ProductSheet(
        language=texts.language,
        title=name,
        subtitle=subtitle.replace("{day}", gather.figure("season", "as_of").text),
        sentence=sentence(gather, row),
        doubt=gather.doubt,
        facts=tuple(_facts(gather, product, row)),
        terms=_terms(gather, _figures(gather, row), row),
        parts=_terms(gather, _parts(gather, row), row),
        picture=made_of(gather, [(row, name)]),
        sure=_sure(gather, row),
        grids=(_prices(gather, product), _loads(gather, product)),
        cautions=(*([f"{gather.doubt}."] if gather.doubt else ()), *cautions(gather)),
        product_cautions=tuple(text for text, _ in gather.season.cautions.get(product, [])),
        private=tuple(_private(gather, product, row)) if everything else (),
        left_out=() if everything else left_out(gather),
        texts=texts.all,
    )


def left_out(gather: Gather) -> tuple[str, ...]:
    """What a sheet without the private figures does not say."""
    return tuple(gather.texts[f"sheet.left_{n}"] for n in range(1, _LEFT_OUT + 1))


def _figures(gather: Gather, row: int) -> list[str]:
    figures = gather.numbers
    return [n for n in names(*FIGURES) if n not in _WHERE_ANY or figures.value("products", n, row)]


def _parts(gather: Gather, row: int) -> Sequence[str]:
    """What the cost is made of, and what mixes add to it or take off, where there are some."""
    by_mixes = [
        name
        for name in ("running_by_mixes", "full_by_mixes")
        if gather.numbers.value("products", name, row)
    ]
    return (*COST_PARTS, *by_mixes, "running_cost", "full_cost")


def _terms(gather: Gather, names: Sequence[str], row: int) -> tuple[Term, ...]:
    """Figures with their rules, but without the numbers that were put in: those may be private."""
    return tuple(gather.term("products", name, row, filled=False) for name in names)


def _sure(gather: Gather, row: int) -> Sentence:
    return gather.texts.fill(
        "sheet.within",
        within=gather.figure("products", "running_per_packed_u", row),
        estimated=gather.figure("products", "estimated_share", row),
    )


def _facts(gather: Gather, product: str, row: int) -> Iterator[tuple[str, str]]:
    """What the food is, by its product data."""
    texts = gather.texts

    def text(name: str) -> str:
        return str(gather.numbers.value("products", name, row) or "")

    if text("kind"):
        yield texts["sheet.kind"], texts.said(text("kind"))[0]
    of = contents.made_of(gather.season, gather.numbers, _of(gather, "packs", product))
    ingredients = text("ingredients") or ", ".join(of.ingredients)
    if ingredients:
        yield texts["sheet.ingredients"], ingredients
    named = of.allergens or gather.season.allergens.get(product, [])
    yield texts["sheet.allergens"], ", ".join(named) or texts["sheet.allergens_none"]
    if of.mixed and of.unknown:
        yield texts["sheet.allergens_unknown"], ", ".join(of.unknown)
    if of.cook or gather.numbers.value("products", "cook_before_eating", row):
        yield texts["sheet.cook"], texts["words.yes"]
    for name in ("rehydrate", "storage"):
        if text(name):
            yield texts[f"sheet.{name}"], text(name)


def _of(gather: Gather, table: str, product: str) -> list[int]:
    cells = gather.numbers.cells[table]["product"]
    return [row for row, each in enumerate(cells) if str(each).casefold() == product.casefold()]


def _prices(gather: Gather, product: str) -> Grid:
    containers = gather.numbers.cells["prices"]["container"]
    rows = [
        (row, gather.name_of("containers", str(containers[row])))
        for row in _of(gather, "prices", product)
    ]
    return _bare(gather, "sheet_prices", "prices", ("net", *names(*PRICES)), rows)


def _loads(gather: Gather, product: str) -> Grid:
    keys = gather.keys("loads")
    alike: dict[tuple[object, ...], list[int]] = {}
    for row in _of(gather, "loads", product):
        said = tuple(gather.numbers.value("loads", name, row) for name in _LOADS)
        alike.setdefault(said, []).append(row)
    rows = [(rows[0], _named([keys[row] for row in rows])) for rows in alike.values()]
    return _bare(gather, "loads", "loads", _LOADS, rows)


def _named(keys: Sequence[str]) -> str:
    """Loads of which the same is to be said: the first few by name."""
    more = len(keys) - _FEW
    return ", ".join(keys[:_FEW]) + (f" +{more}" if more > 0 else "")


def _bare(
    gather: Gather, id: str, table: str, names: Sequence[str], rows: Sequence[tuple[int, str]]
) -> Grid:
    """A table without where its numbers come from."""
    made = gather.grid(id, table, names, rows)
    return replace(made, columns=tuple(replace(each, origin=None) for each in made.columns))


def _private(gather: Gather, product: str, row: int) -> Iterator[tuple[str, Sequence[Figure]]]:
    """What a partner need not know."""
    for table, name, place in (
        ("rates", "electricity_paid", 0),
        ("rates", "labor", 0),
        ("products", "energy_used", row),
        ("products", "hours", row),
        ("products", "pack_hours", row),
    ):
        yield gather.label(table, name), [gather.figure(table, name, place)]
    for table, name, said in (
        ("lots", "source", "sheet.sources"),
        ("offers", "seller", "sheet.sellers"),
    ):
        found = [gather.figure(table, name, each) for each in _of(gather, table, product)]
        yield gather.texts[said], list({each.whole: each for each in found}.values())
