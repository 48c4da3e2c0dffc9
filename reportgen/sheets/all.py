"""The sheets in the order of the workbook: for reading, for recording, for auditing."""

from reportgen.sheets import audit, cost, energy, questions, records, settings, shop_prices, summary

SHEETS = (
    summary.SHEET,
    shop_prices.SHEET,
    cost.SHEET,
    questions.PRICING,
    questions.SCENARIOS,
    questions.HOW_SURE,
    questions.PLAN,
    records.LOTS,
    records.RUNS,
    energy.SHEET,
    records.LOADS,
    records.PACKS,
    records.STOCK,
    records.TRACE,
    settings.RATES,
    settings.EQUIPMENT,
    settings.PRODUCT_DATA,
    audit.CHECKS,
    audit.METHOD,
)
