"""The sheets of the costing workbook: what is read first, what may be changed, the checks."""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from reportgen.algebra.book import Book
from reportgen.algebra.phrases import as_it_is
from reportgen.handout.content import ProductSheet
from reportgen.handout.costing_groups import COST_PARTS, FIGURES, FIRST, PARTS, PRICES, SURE
from reportgen.layout.blocks import (
    Block,
    ChartBlock,
    ChartSpec,
    Group,
    LegendBlock,
    ListBlock,
    Sheet,
    TableBlock,
    TextBlock,
)
from reportgen.sheets import audit, constants

_LINE = 138
"""Characters of a text that stand in one row, above the columns of the first sheet."""


def partner_sheets(book: Book, said: ProductSheet) -> list[Sheet]:
    """The sheets of the book, with what the printed sheet says in words."""
    return [
        _first(book, said),
        _cost(book),
        *_recorded(book),
        _shops(book),
        _rates(book),
        _stall(book),
        audit.checks_of(book.tables["checks"], book.tables["typed"]),
        audit.METHOD,
        constants.constants(),
    ]


def _first(book: Book, said: ProductSheet) -> Sheet:
    """One printed page; what is only for the screen comes last."""
    products, prices, texts = book.tables["products"], book.tables["prices"], said.texts
    facts = [f"{name}: {text}" for name, text in said.facts]
    missing = said.left_out or [texts["sheet.nothing_left_out"]]
    return Sheet(
        "Costing",
        "What the product cost, what to ask for it, and how sure that is.",
        (
            TableBlock(
                products,
                (
                    Group("Product", ("name",)),
                    *(Group(heading, under[:FIRST]) for heading, under in (*FIGURES, SURE)),
                ),
                rest=False,
            ),
            TableBlock(
                prices,
                (
                    Group("Write down", ("product", "container", "net")),
                    *(Group(heading, under) for heading, under in PRICES),
                ),
                heading="Prices of a pack",
                spare=2,
            ),
            ChartBlock(
                (
                    ChartSpec(
                        "stacked bar", "What the full cost is made of", products, COST_PARTS,
                        "name", "for the season",
                    ),
                ),
            ),
            _text(texts["sheet.facts"], facts),
            _text(texts["cautions.title"], said.cautions, caution=True),
            *([_text(texts["sheet.cautions"], said.product_cautions, caution=True)]
              if said.product_cautions else ()),
            _text(texts["sheet.left_out"], missing),
            LegendBlock("How to read this workbook", printed=False),
        ),
        "read",
        landscape=False,
        one_page=True,
    )  # fmt: skip


def _text(heading: str, lines: Sequence[str], caution: bool = False) -> TextBlock:
    """Lines of the printed sheet, which are in the language of the workbook already."""
    rows = [as_it_is(row) for line in lines for row in wrap(line, _LINE)]
    return TextBlock(as_it_is(heading), tuple(rows), caution=caution)


def _cost(book: Book) -> Sheet:
    return Sheet(
        "Cost",
        "How the cost by weight comes about, part by part.",
        (
            TableBlock(
                book.tables["products"],
                (
                    Group("Product", ("name",), echo=True),
                    *(Group(heading, under) for heading, under in PARTS),
                    *(Group(heading, under[FIRST:]) for heading, under in FIGURES if under[FIRST:]),
                ),
                keys=False,
            ),
        ),
        "read",
    )


def _recorded(book: Book) -> Sequence[Sheet]:
    return (
        Sheet(
            "Lots and loads",
            "What was bought and dried. Change a weight or an amount and all follows.",
            _records(
                book,
                ("lots", ""),
                ("loads", "Loads: what each gave, and its share of what the run cost"),
                ("runs", "Runs"),
                ("run_energy", "Energy by period of the day"),
            ),
            "record",
        ),
        Sheet(
            "Packs",
            "What was packed, in what, and what is left.",
            _records(book, ("packs", "")),
            "record",
        ),
    )


def _records(book: Book, *tables: tuple[str, str]) -> Sequence[Block]:
    return tuple(
        TableBlock(
            book.tables[name],
            (Group("Write down", tuple(book.tables[name].inputs)),),
            heading=heading,
            spare=2,
        )
        for name, heading in tables
        if name in book.tables
    )


def _shops(book: Book) -> Sheet:
    offers = book.tables["offers"]
    return Sheet(
        "Shop prices",
        "What shops ask for the like. Add an offer when you see one.",
        (TableBlock(offers, (Group("Write down", tuple(offers.inputs)),), spare=8),),
        "record",
    )


def _stall(book: Book) -> Sheet:
    """What the stall takes of a price, where it is written apart from the pricing."""
    table = book.tables["channels"]
    written = tuple(name for name, each in table.inputs.items() if not each.fixed)
    return Sheet(
        "Stall",
        "What is taken of a price at the stall.",
        (TableBlock(table, (Group("Write down", written),)),),
        "record",
    )


def _rates(book: Book) -> Sheet:
    tables = book.tables
    blocks: list[Block] = [ListBlock("Pricing", ((tables["pricing"], ()),), rest=True)]
    if "rates" in tables:
        blocks.append(ListBlock("Rates", ((tables["rates"], ()),), rest=True))
    blocks.append(ListBlock("The season, and all checks", ((tables["season"], ()),), rest=True))
    for name, heading in (
        ("periods", "Electricity by time of use"),
        ("windows", "The week, by period"),
        ("containers", "Containers"),
        ("parts", "Parts of a container"),
    ):
        if name in tables:
            groups = (Group("Write down", tuple(tables[name].inputs)),)
            blocks.append(TableBlock(tables[name], groups, heading=heading))
    return Sheet(
        "Rates",
        "Margin, fees, containers: change one and everything follows.",
        tuple(blocks),
        "record",
    )
