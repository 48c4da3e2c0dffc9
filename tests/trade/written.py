"""A season as people write it down: every kind of estimate and of shorthand, in one file."""

from __future__ import annotations

HEAD = """
season: Coppice End
currency: USD
units: {fresh: lb, dried: oz}
rates: {electricity: 0.25 USD/kWh, labor: 10 USD/h, travel: 0.50 USD/mile}
scale: {resolution: 0.1 oz}
as_of: 2025-12-01
dryers:
  - {id: barn, trays: 4, tray_area: 0.125 m2, mean_power: 800 W, price: 3000 USD, resale: 600 USD,
     life: 600 run, load_limit: 12 lb, tray_weight: 0.5 lb,
     upkeep: [{item: oil, cost: 20 USD, every: 10 run}]}
containers:
  - {id: tin, parts: {tin: 1.50 USD, lid: 0.40 USD}, spoiled: 5 %}
pricing: {margin: 25 %, fees: 10 %, would_buy: 50 %}
"""
RECORDS = """
lots:
  - {id: t, product: turnip-cubes, date: 2025-09-01, price: 12 USD,
     weighed: {gross: 62 lb, tare: 2 lb}, prepped: ~48 lb, set_aside: about 1 lb}
  - {id: b, product: beet-cubes, date: 2025-09-01, price: 6 USD each, count: 3, container: crate}
runs:
  - id: trays
    started: 2025-09-02 8 pm
    duration: 30 h
    energy: 8 kWh
    loads: [{lot: t, wet: {gross: [3 lb, 3.1 lb, 2.9 lb, 3 lb]}, dry: [6.5 oz, 6.4 oz, 3.6 oz]}]
  - id: mixed
    started: 2025-09-05 20:00
    duration: 32 h
    energy: 9 kWh
    dry: 21 oz
    loads: [{lot: t, wet: ~5 lb}, {lot: b, wet: 4 lb, dry: {gross: 11 oz, tare: 2 oz}}]
  - {id: first, started: 2025-09-08 20:00, duration: 20 h, energy: 6 kWh,
     loads: [{lot: b, wet: 6 lb}]}
  - {id: again, started: 2025-09-10 20:00, duration: 10 h, energy: 3 kWh,
     loads: [{again: first/b, dry: 13 oz}]}
  - {id: forgot-wet, started: 2025-09-12 20:00, duration: 30 h, energy: 8 kWh,
     loads: [{lot: t, dry: 17 oz}]}
  - {id: forgot-dry, started: 2025-09-15 20:00, duration: 30 h, energy: 8 kWh,
     loads: [{lot: t, wet: 10 lb}, {lot: b, wet: 2 lb, dry: 4.4 oz}]}
  - {id: lost, started: 2025-09-17 20:00, duration: 5 h, failed: true, note: the power went,
     loads: [{lot: b, wet: 3 lb}]}
  - {id: going, started: 2025-09-18 20:00, loads: [{lot: t, wet: 5 lb}]}
packs:
  - {id: P, product: turnip-cubes, date: 2025-09-17, container: tin, count: 3, net: 5.6 oz,
     from: [forgot-dry]}
  - {id: Q, product: turnip-cubes, date: 2025-09-18, container: tin, count: 4, net: ~5.5 oz,
     from: [trays, mixed, forgot-wet]}
  - {id: R, product: beet-cubes, date: 2025-09-18, container: tin, count: 4, net: 5 oz,
     from: [again, mixed, forgot-dry]}
uses:
  - {date: 2025-10-01, pack: P, count: 1, for: stall, price: 14 USD}
  - {date: 2025-10-02, product: turnip-cubes, weight: ~2 oz, for: household}
  - {date: 2025-10-03, product: beet-cubes, weight: rest, for: sample}
  - {date: 2025-10-05, product: beet-cubes, weight: rest, for: household}
markets:
  - {id: green, date: 2025-10-11, channel: stall, fee: 5 USD, travel: 4 mile, labor: 3 h,
     took: {Q: 3, R: 1}, back: {Q: 1}, samples: {R: 1}, prices: {Q: 15 USD},
     takings: {cash: 14 USD, card: 15 USD}}
"""
