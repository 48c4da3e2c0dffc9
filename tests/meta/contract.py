"""The quantities that other programs read by name, and the unit of each.

``fresh`` and ``dried`` are the season's units before and after drying; ``money`` its currency.
"""

from __future__ import annotations

CONTRACT: dict[str, dict[str, str]] = {
    "lots": {
        "fresh": "as_purchased prepped loaded waiting",
        "money": "purchase_cost travel_cost labor_cost",
        "": "prep_yield",
        "money/fresh": "cost_per_prepped",
    },
    "runs": {
        "kWh": "energy_used",
        "money": "energy_cost upkeep_cost wear_cost",
        "flag": "done",
        "fresh": "water_removed",
        "kWh/kg": "specific_energy",
        "kg/m2": "tray_loading",
    },
    "loads": {
        "fresh": "water_removed as_purchased_share",
        "": "dried_yield drying_ratio moisture_left moisture_left_low moisture_left_high run_share",
        "money": "cost_ingredients cost_energy cost_upkeep cost_wear cost_labor",
    },
    "products": {
        "fresh": "loaded in_process",
        "dried": "dried packed unpacked packed_good carried",
        "": "overall_yield drying_ratio offers_count running_to_retail full_to_retail",
        "money": "cost_ingredients cost_energy cost_upkeep cost_wear cost_labor cost_overhead "
        "cost_packaging cost_pack_labor running_cost full_cost saving",
        "money/dried": "running_bulk full_bulk running_per_packed full_per_packed "
        "running_per_packed_u retail_median retail_lowest",
    },
    "offers": {"money/dried": "unit_price", "": "ours_to_theirs"},
    "packs": {
        "dried": "dried_content",
        "money": "running_each full_each",
        "": "on_hand absorber_share",
        "fresh": "fresh_equivalent",
        "mL": "oxygen",
    },
    "uses": {"money": "revenue cost_out profit"},
    "markets": {
        "money": "expected takings difference fees cost_out left left_full",
        "money/h": "left_per_hour",
    },
    "market_packs": {"": "sold", "money": "price"},
    "season": {
        "fresh": "as_purchased prepped waiting loaded water_removed",
        "dried": "dried packed unpacked",
        "kWh": "energy_used",
        "money": "purchase_cost travel_cost labor_cost energy_cost cost_ingredients cost_energy "
        "cost_upkeep cost_wear cost_labor cost_overhead cost_packaging cost_pack_labor "
        "running_cost full_cost saving revenue profit in_process_cost spent break_even_sales",
        "": "estimated_share",
    },
    "prices": {
        "money": "running_each full_each price_asked price_floor retail_equivalent",
        "": "break_even_count",
    },
    "scenarios": {"money/dried": "running_per_packed full_per_packed", "": "running_to_retail"},
    "plan": {
        "": "count_left buy_count runs_needed runs_fit runs_over",
        "dried": "dried_needed",
        "fresh": "prepped_needed buy_weight weight_over",
        "h": "machine_time",
        "date": "begin finish",
        "money": "running_needed earned_over",
    },
    "another": {"": "runs_more payback_runs", "money": "earned_year"},
    "dryers": {
        "": "runs_done payback_runs payback_left",
        "h": "hours_run",
        "kWh": "energy_used",
        "money": "saving_per_run",
        "date": "payback_date",
    },
}
"""Table → unit → quantities. Each must be defined, in that unit."""

NAMED = [
    (table, name, unit)
    for table, units in CONTRACT.items()
    for unit, names in units.items()
    for name in names.split()
]
