"""The sheets in the order of the workbook: for reading, for recording, for auditing."""

from reportgen.sheets import audit, cost, records, settings, shop_prices, summary

SHEETS = (
    summary.SHEET,
    shop_prices.SHEET,
    cost.SHEET,
    records.LOTS,
    records.RUNS,
    records.LOADS,
    records.PACKS,
    records.STOCK,
    settings.RATES,
    settings.EQUIPMENT,
    settings.PRODUCT_DATA,
    audit.CHECKS,
    audit.METHOD,
)
