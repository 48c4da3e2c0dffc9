"""The sheets in the order of the workbook: for reading, for recording, for auditing."""

from reportgen.sheets import (
    audit,
    cost,
    energy,
    questions,
    records,
    settings,
    shop_prices,
    summary,
    yields,
)
from reportgen.sheets.blocks import ListBlock
from reportgen.trade.tables import season

SHEETS = (
    summary.SHEET,
    shop_prices.SHEET,
    cost.SHEET,
    questions.PRICING,
    questions.SCENARIOS,
    questions.HOW_SURE,
    yields.SHEET,
    questions.PLAN,
    records.LOTS,
    records.TRIPS,
    records.RUNS,
    energy.SHEET,
    records.LOADS,
    records.PACKS,
    records.PACKED_FROM,
    records.ABSORBERS,
    records.STOCK,
    records.TRACE,
    records.RECALL,
    shop_prices.OFFERS,
    settings.RATES,
    questions.WHAT_IF,
    settings.EQUIPMENT,
    settings.PRODUCT_DATA,
    audit.CHECKS,
    audit.METHOD,
    settings.constants(ListBlock("Further figures of the season", ((season, ()),), rest=True)),
)
