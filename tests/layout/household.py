"""A household's season as YAML: one dryer, nothing sold, nothing planned."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

SEASON = """\
season: Quiet Bend 2025
currency: USD
as_of: 2025-11-30
units: {fresh: lb, dried: oz}
rates: {electricity: 0.16 USD/kWh, labor: 0 USD/h, travel: 0.55 USD/mile}
scale: {resolution: 0.1 oz}
dryers:
  - {id: porch, trays: 4, tray_area: 0.12 m2, load_limit: 14 lb, mean_power: 720 W, price: 2400 USD,
     resale: 400 USD, life: 500 run, upkeep: [{item: pump oil, cost: 15 USD, every: 20 run}]}
containers:
  - {id: jar, name: Quart jar, volume: 946 mL, parts: {lid: 0.3 USD, absorber: 0.4 USD},
     absorber: 700 mL, spoiled: 1 %}
"""

LOT = """\
lots:
  - {{id: lot-{n}, product: {product}, date: 2025-09-{day:02}, weighed: 13 lb, prepped: 11 lb,
     price: 9 USD, travel: 4 mile, finished: true}}
runs:
  - {{id: run-{n}, dryer: porch, started: 2025-09-{day:02} 18:00, duration: 30 h, energy: 19 kWh,
     loads: [{{lot: lot-{n}, wet: 11 lb, dry: {dry} oz,
              dryness: {{weights: [{dry} oz, {dry} oz], water_activity: 0.28}}}}]}}
packs:
  - {{id: p-{n}, product: {product}, date: 2025-09-{packed:02}, container: jar, count: 5,
     net: {net} oz, from: [run-{n}]}}
uses:
  - {{date: 2025-10-{day:02}, pack: p-{n}, count: {eaten}, for: household}}
"""

OFFERS = """\
offers:
  - {id: shop-1, product: apple-rings, seller: A, date: 2025-09-02, net: 3 oz, price: 8.90 USD}
  - {id: shop-2, product: apple-rings, seller: B, date: 2025-09-03, net: 8 oz, price: 20.50 USD}
  - {id: shop-3, product: pear-slices, seller: A, date: 2025-09-02, net: 4 oz, price: 12.20 USD}
"""


def written(folder: Path, runs: int = 8, more: Sequence[str] = ()) -> Path:
    """The season in a folder: a file for each run, its offers, and ``more`` files."""
    (folder / "batches").mkdir(parents=True)
    (folder / "season.yaml").write_text(SEASON, "utf-8")
    for n in range(1, runs + 1):
        product, dry = (("apple-rings", 28.0), ("pear-slices", 30.4))[n % 2]
        text = LOT.format(
            n=n, product=product, day=2 * n, packed=2 * n + 2, dry=dry, net=round(dry / 5, 1),
            eaten=(2, 5)[n % 2],
        )  # fmt: skip
        (folder / "batches" / f"day-{n}.yaml").write_text(text, "utf-8")
    for n, text in enumerate((OFFERS, *more)):
        (folder / "batches" / f"more-{n}.yaml").write_text(text, "utf-8")
    return folder
