"""The figures copied from each season, and what is worked out from them."""

from __future__ import annotations

from dataclasses import replace

from reportgen.algebra.book import Book
from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, first_known, join, known
from reportgen.algebra.inputs import Input
from reportgen.algebra.tables import COUNT, SHARE, TEXT, Table
from reportgen.algebra.views import Children, Link
from reportgen.trade import tables, verdict
from reportgen.units import DRIED, ENERGY, KG, MONEY

_BY_WEIGHT = MONEY / DRIED

_COPIED = (
    Input("dried", "number", "Dried weight that came out.", DRIED),
    Input("overall_yield", "number", "Dried weight out of one of purchased.", most=1, share=True),
    Input("drying_ratio", "number", "Wet weight for one of dried."),
    Input("running_per_packed", "number", "Running cost by weight as packed.", _BY_WEIGHT),
    Input("full_per_packed", "number", "Full cost by weight as packed.", _BY_WEIGHT),
    Input("retail_median", "number", "The shops' median price by weight.", _BY_WEIGHT),
    Input("specific_energy", "number", "Energy by water removed.", ENERGY / KG),
    Input(
        "estimated_share", "number", "Part of the running cost on estimates.", most=1, share=True
    ),
)
COPIED = tuple(replace(each, head=tables.products.definitions[each.name].label) for each in _COPIED)
"""Figures of a season's products, by the names they have there."""

seasons = Table.of(
    "seasons",
    "season",
    [
        Input("title", "text", "The season's name.", fixed=True),
        Input("file", "text", "The file its figures were copied from.", fixed=True),
        Input("as_of", "date", "The day it was judged on.", fixed=True),
        Input("wrong", "number", "Places in it that are wrong.", whole=True, fixed=True),
        Input("doubted", "number", "Places in it to look at.", whole=True, fixed=True),
    ],
)
years = Table.of(
    "years",
    "row",
    [
        Input("product", "text", "The product.", fixed=True),
        Input("name", "text", "The product's name.", fixed=True),
        Input("season", "text", "The season.", ref="seasons", fixed=True),
        Input("before", "text", "Its row in the season before.", ref="years", fixed=True),
        *COPIED,
    ],
    title="products by season",
)
season = Table.of("season", "the comparison", [], single=True)
checks = tables.like(tables.checks)
typed = tables.like(tables.typed)


@seasons.derived(COUNT)
def products(years: Children) -> Expr:
    """How many of its products are compared."""
    return count(years)


@seasons.check("error", "Open that season's own workbook, sheet Checks, and mend it there.")
def season_in_doubt(wrong: Expr) -> Expr:
    """A season has errors of its own: its figures cannot be relied on."""
    return wrong > 0


@seasons.check("caution", "Look at them in that season's own workbook, sheet Checks.")
def cautions_open(doubted: Expr) -> Expr:
    """A season has open cautions of its own: its figures are to be looked at."""
    return doubted > 0


@years.derived(TEXT, label="season")
def title(season: Link) -> Expr:
    """The season's name."""
    return season.title


@years.derived(TEXT)
def label(name: Expr, season: Link) -> Expr:
    """Product and season, as charts name them."""
    return join(name, ", ", season.title)


@years.derived(SHARE)
def running_to_retail(running_per_packed: Expr, retail_median: Expr) -> Expr:
    """Our running cost by weight over the shops' median."""
    return running_per_packed / retail_median


@years.derived(SHARE)
def running_change(running_per_packed: Expr, before: Link) -> Expr:
    """Change of the running cost by weight against the season before."""
    return running_per_packed / before.running_per_packed - 1


@years.derived(SHARE)
def full_change(full_per_packed: Expr, before: Link) -> Expr:
    """Change of the full cost by weight against the season before."""
    return full_per_packed / before.full_per_packed - 1


@years.derived(SHARE)
def retail_change(retail_median: Expr, before: Link) -> Expr:
    """Change of the shops' price against the season before."""
    return retail_median / before.retail_median - 1


@years.derived(SHARE)
def yield_change(overall_yield: Expr, before: Link) -> Expr:
    """Change of the yield against the season before."""
    return overall_yield / before.overall_yield - 1


@years.derived(SHARE)
def energy_change(specific_energy: Expr, before: Link) -> Expr:
    """Change of the energy by water removed against the season before."""
    return specific_energy / before.specific_energy - 1


@years.check("caution", "Complete that season, build its workbook, and compare again.")
def cost_not_known(dried: Expr, running_per_packed: Expr) -> Expr:
    """Dried, but the cost by weight is not known: nothing was packed, or inputs lack."""
    return (first_known(dried, 0) > 0) & ~known(running_per_packed)


verdict.judge(checks, season, typed, (seasons, years))

BOOK = Book((seasons, years, season, checks, typed), checks)
"""Run, checked and sorted, as the book of a season is."""
