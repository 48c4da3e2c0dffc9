"""Two seasons that ask every question: prices, scenarios, plan, dryness, oxygen, payback."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent

from reportgen.program import Read, read

RECIPES = {
    "turnip-cubes": """
    name: Turnip cubes
    water: {value: 90 %, low: 88 %, high: 92 %, source: practice}
    prep_yield: {value: 80 %, low: 75 %, high: 84 %, source: practice}
    target_moisture: {value: 2 %, source: practice}
    skeletal_density: {value: 1500 kg/m3, source: practice}
    run_time: {value: 30 h, source: practice}
    tray_loading: {value: 9 kg/m2, source: practice}
    best_by: {value: 24 month, source: practice}
    containers: {crate: {value: 20 lb, source: practice}, sack: {value: 50 lb, source: practice}}
    """,
    "beet-cubes": """
    name: Beet cubes
    water: {value: 87.5 %, low: 85 %, high: 89 %, source: practice}
    prep_yield: {value: 75 %, source: practice}
    target_moisture: {value: 3 %, source: practice}
    run_time: {value: 26 h, source: practice}
    containers: {crate: {value: 24 lb, source: practice}}
    """,
}

FULL = """
season: Rook Hill
currency: USD
units: {fresh: lb, dried: oz}
rates: {electricity: 0.25 USD/kWh, labor: 10 USD/h, travel: 0.50 USD/mile}
place: {altitude: 1200 m}
scale: {resolution: 0.1 oz}
dryers:
  - {id: barn, trays: 4, tray_area: 0.125 m2, load_limit: 12 lb, mean_power: 800 W,
     mean_power_spread: 20 %, price: 3000 USD, resale: 600 USD, life: 600 run, runs_before: 40,
     runs_per_year: 60, turnaround: 3 h, upkeep: [{item: oil, cost: 20 USD, every: 10 run}]}
  - {id: shed, trays: 3, tray_area: 0.2 m2, mean_power: 600 W, price: 900 USD, life: 300 run,
     saved_before: 100 USD, runs_per_year: 30}
containers:
  - {id: tin, volume: 950 mL, absorber: 200 mL, keeps: 9 year, spoiled: 5 %,
     parts: {tin: 1.50 USD, lid: 0.40 USD}}
  - {id: pouch, volume: 1900 mL, absorber: 500 mL, parts: {pouch: 0.60 USD, label: 0.15 USD}}
absorbers:
  - {id: s-100, oxygen: 100 mL, cost: 0.12 USD}
  - {id: s-300, oxygen: 300 mL, cost: 0.20 USD}
overheads: [{item: permit, cost: 60 USD, over: 600 oz, paid: false}]
pricing: {margin: 25 %, fees: 10 %, price_step: 0.25 USD, stall: 25 USD/day, days: 3 day,
          would_buy: 60 %}
carried_over: [{product: beet-cubes, dried: 6 oz, running: 1.20 USD/oz, full: 1.85 USD/oz}]
scenarios:
  - {id: as-is}
  - {id: free, ingredients: 0 %, travel: 2 USD/mile, electricity: 0.5 USD/kWh, energy: 50 %}
  - {id: paid, labor: 18 USD/h, wear: 0 %, overhead: 200 %}
  - {id: pouches, container: pouch, packaging: 80 %, upkeep: 150 %}
  - {id: big, container: pouch, net: 9 oz, labor: 50 %}
plan:
  - {product: turnip-cubes, container: tin, count: 30, net: 4 oz, start: 2025-10-05,
     until: 2025-10-07}
  - {product: beet-cubes, container: tin, count: 9, net: 5 oz, start: 2025-10-01, dryer: shed}
  - {product: turnip-cubes, container: pouch, count: 8, net: 9 oz, start: 2025-10-06, buy: sack,
     until: 2025-10-20, at_most: 3 crate}
  - {product: beet-cubes, container: pouch, count: 8, net: 9 oz, start: 2025-11-20,
     pace: 3 run/week, until: 2025-12-10, at_most: 40 lb}
  - {product: turnip-cubes, container: tin, count: 30, net: 4.5 oz, start: 2025-10-01}
closed:
  - {dryer: barn, from: 2025-10-03, to: 2025-10-04}
  - {dryer: shed, from: 2025-10-20, to: 2025-10-22}
  - {dryer: barn, from: 2025-11-22, to: 2025-11-23}
another: {like: barn, price: 2900 USD}
asked: [{product: beet-cubes, container: tin, net: 5 oz, price: 16 USD, from: 2025-09-01}]
trips: [{id: market, distance: 12 mile, labor: 1 h}]
lots:
  - {id: t-1, product: turnip-cubes, date: 2025-09-01, source: stand, count: 3,
     container: sack, weighed: 14 lb, weighed_count: 1, price: 0.90 USD/lb,
     prepped: 33 lb, set_aside: 2 lb, lost: 1 lb, trip: market, labor: 2 h}
  - {id: t-2, product: turnip-cubes, date: 2025-09-04, source: farm, count: 2, container: crate,
     price: 11 USD/crate, travel: 6 mile}
  - {id: b-1, product: beet-cubes, date: 2025-09-04, weighed: 20 lb, price: 18 USD, trip: market,
     water: 86 %, finished: true}
runs:
  - {id: r-1, dryer: barn, started: 2025-09-02 08:00, duration: 30 h, energy: 16 kWh,
     labor: 30 min, loads: [{lot: t-1, wet: 11 lb, dryness: {weights: [20 oz, 19.9 oz],
     water_activity: 0.24}}]}
  - {id: r-2, dryer: barn, started: 2025-09-05 08:00, duration: 28 h, labor: 20 min,
     loads: [{lot: t-1, wet: 6 lb, dry: 11.5 oz, dryness: {weights: [12 oz, 11.5 oz]}},
             {lot: b-1, wet: 5 lb, dry: 11.6 oz}]}
  - {id: r-3, dryer: shed, started: 2025-09-08 08:00, duration: 33 h,
     loads: [{lot: t-2, wet: 9 lb, dry: 15 oz, dryness: {moisture_meter: 3 %}},
             {lot: b-1, wet: 4 lb, dry: 9 oz, dryness: {water_activity: 0.7}}]}
  - {id: r-4, dryer: barn, started: 2025-09-11 08:00, duration: 12 h, energy: 5 kWh,
     loads: [{again: r-2/t-1, wet: 11.6 oz, dry: 10.8 oz, dryness: {weights: [10.8 oz, 10.8 oz]}}]}
  - {id: r-5, dryer: barn, started: 2025-09-14 08:00, loads: [{lot: t-2, wet: 8 lb}]}
packs:
  - {id: P-1, product: turnip-cubes, date: 2025-09-12, container: tin, count: 6, net: 4 oz,
     from: [r-1, r-4], labor: 25 min}
  - {id: P-2, product: turnip-cubes, date: 2025-09-13, container: pouch, count: 1, net: 9 oz,
     from: [r-1]}
  - {id: P-3, product: beet-cubes, date: 2025-09-13, container: tin, count: 3, net: 5 oz,
     from: [r-2, r-3]}
  - {id: P-4, product: turnip-cubes, date: 2025-09-15, container: tin, count: 1, net: 4 oz,
     from: [r-5]}
  - {id: P-5, product: beet-cubes, date: 2024-12-01, container: tin, count: 2, net: 5 oz,
     carried: {running: 6 USD, full: 9 USD}}
uses:
  - {date: 2025-09-20, pack: P-1, count: 2, for: stall, price: 14 USD}
  - {date: 2025-09-21, pack: P-1, count: 1, for: spoiled}
  - {date: 2025-09-21, pack: P-3, count: 1, for: co-op}
  - {date: 2025-09-22, product: turnip-cubes, weight: 1.5 oz, for: crumbs}
counts:
  - {date: 2025-09-20, pack: P-1, counted: 3}
  - {date: 2025-09-22, pack: P-1, counted: 3}
  - {date: 2025-09-11, product: turnip-cubes, weight: 39 oz}
  - {date: 2025-09-30, product: turnip-cubes, weight: 6.5 oz}
  - {date: 2025-09-30, pack: P-3, counted: 3}
markets:
  - {id: green, date: 2025-10-02, channel: stall, fee: 5 USD, travel: 4 mile, labor: 3 h,
     took: {P-1: 2, P-3: 1}, back: {P-1: 1}, samples: {P-3: 1}, prices: {P-1: 14 USD},
     takings: {cash: 13.50 USD}}
offers:
  - {id: o-1, product: turnip-cubes, date: 2025-09-01, net: 10 oz, price: 75 USD, shipping: 4 USD}
  - {id: o-2, product: turnip-cubes, date: 2025-09-01, net: 5 oz, price: 42 USD}
  - {id: o-3, product: turnip-cubes, date: 2025-09-01, net: 2 lb, price: 5 USD, form: frozen}
  - {id: o-4, product: turnip-cubes, date: 2025-09-01, net: 1 lb, price: 2 USD, form: canned}
  - {id: o-5, product: beet-cubes, date: 2025-09-01, net: 5 oz, price: 16 USD}
"""

BARE = """
season: Rook Hill, hardly begun
currency: EUR
units: {fresh: kg, dried: g}
rates: {electricity: 0.30 EUR/kWh}
dryers: [{id: barn}]
containers: [{id: jar, absorber: 100 mL}, {id: bag, parts: {bag: 0.2 EUR}}]
absorbers: [{id: s-100, oxygen: 100 mL}]
pricing: {fees: 5 %}
scenarios: [{id: as-is}, {id: other, container: bag, labor: 9 EUR/h}]
plan:
  - {product: beet-cubes, container: jar, count: 4, net: 150 g}
  - {product: turnip-cubes, container: jar, count: 4, start: 2025-10-01}
lots:
  - {id: t-1, product: turnip-cubes, date: 2025-09-01, weighed: 9 kg}
runs: [{id: r-1, loads: [{lot: t-1, wet: 4 kg, dry: 470 g}]}]
packs: [{id: P-1, product: turnip-cubes, container: jar, count: 2, net: 100 g, from: [r-1]},
        {id: P-2, product: turnip-cubes, container: jar}]
uses: [{date: 2025-09-21, pack: P-1, count: 1, for: stall}]
offers: [{id: o-1, product: beet-cubes, date: 2025-09-01, net: 300 g}]
"""


def reading(folder: Path, text: str = FULL) -> Read:
    """A season read as a user's is."""
    (folder / "recipes").mkdir(parents=True)
    for name, recipe in RECIPES.items():
        (folder / "recipes" / f"{name}.yaml").write_text(dedent(recipe), encoding="utf-8")
    (folder / "season.yaml").write_text(text, encoding="utf-8")
    done = read(folder)
    assert done.problems == []
    assert done.season is not None and done.numbers is not None
    return done
