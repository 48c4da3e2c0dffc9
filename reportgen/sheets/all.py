"""The sheets in the order of the workbook: for reading, for recording, for auditing."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from reportgen.algebra.numbers import Numbers
from reportgen.layout.blocks import Contents, ListBlock, Sheet
from reportgen.layout.page import Look, Page
from reportgen.sheets import (
    audit,
    constants,
    cost,
    energy,
    equipment,
    how_sure,
    kept,
    lots,
    markets,
    mixes,
    notebook,
    packs,
    plan,
    pricing,
    product_data,
    rates,
    runs,
    scenarios,
    shop_prices,
    stock,
    summary,
    trace,
    weeks,
    worth_drying,
    yields,
)
from reportgen.trade.input_names import input_names
from reportgen.trade.safety import beside
from reportgen.trade.tables import season

SHEETS = (
    summary.SHEET,
    shop_prices.SHEET,
    cost.SHEET,
    kept.SHEET,
    worth_drying.SHEET,
    worth_drying.MIXES,
    stock.EAT_FIRST,
    pricing.PRICING,
    pricing.PRICE_LIST,
    markets.MARKET_DAYS,
    scenarios.SCENARIOS,
    how_sure.HOW_SURE,
    yields.SHEET,
    plan.PLAN,
    weeks.WEEKS,
    weeks.ANOTHER,
    notebook.SHEET,
    lots.LOTS,
    lots.TRIPS,
    runs.RUNS,
    energy.SHEET,
    runs.LOADS,
    mixes.MIXES,
    mixes.MIXED_FROM,
    mixes.BOUGHT_FOR,
    packs.PACKS,
    packs.PACKED_FROM,
    packs.ABSORBERS,
    stock.STOCK,
    stock.RESTS,
    markets.MARKETS,
    markets.MARKET_PACKS,
    markets.TAKINGS,
    stock.COUNTS,
    pricing.ASKED,
    pricing.CHANNELS,
    weeks.CLOSED,
    trace.TRACE,
    trace.RECALL,
    shop_prices.OFFERS,
    rates.RATES,
    scenarios.WHAT_IF,
    equipment.EQUIPMENT,
    product_data.PRODUCT_DATA,
    audit.CHECKS,
    audit.METHOD,
    constants.constants(ListBlock("Further figures of the season", ((season, ()),), rest=True)),
)

_VERDICTS: dict[str, Look] = {"error": "bad", "caution": "caution", "ok": "good"}

Memory = Callable[[Mapping[str, Sequence[Any]], Sequence[Page], Any], Page]

MARKED = frozenset((
    "lots", "trips", "runs", "loads", "mixes", "mix_parts", "bought_parts", "packs", "draws",
    "uses", "counts", "offers", "periods",
    "overheads", "carried_over", "changes", "plan", "closed", "dryers", "upkeep", "containers",
    "parts", "absorbers", "products", "nominal_weights", "run_energy", "channels",
    "asking", "notebook", "markets", "market_packs", "market_takings",
))  # fmt: skip
"""Tables of records that may be changed in the workbook of a season and taken home from it."""


def contents(
    sheets: Sequence[Sheet],
    numbers: Numbers,
    marked: frozenset[str] = frozenset(),
    memory: Memory | None = None,
) -> Contents:
    """What a workbook of the trade shows, be it of a season, of several or of one product;
    ``memory`` makes the page on which it remembers what it was built from, its rows known again by
    the marks of the tables that are ``marked``."""
    return Contents(
        sheets,
        verdict=("season", "verdict_of_all"),
        beside=beside,
        said=("checks", "said"),
        looks={("checks", "verdict"): _VERDICTS},
        names=input_names(numbers),
        marked=marked,
        memory=memory,
    )
