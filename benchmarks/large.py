"""A season of any size, plausible and the same each time, as a folder of YAML files."""

from __future__ import annotations

from pathlib import Path

_SEASON = """\
season: Bench {runs}
currency: USD
units: {{fresh: lb, dried: oz}}
rates: {{electricity: 0.148 USD/kWh, labor: 12 USD/h, travel: 0.67 USD/mile}}
dryers:
  - {{id: shed, trays: 5, tray_area: 0.135 m2, load_limit: 40 lb, mean_power: 780 W,
     price: 3100 USD, resale: 600 USD, life: 600 run,
     upkeep: [{{item: pump oil, cost: 18 USD, every: 20 run}}]}}
containers:
  - {{id: can-10, volume: 3236 mL, parts: {{can: 2.45 USD, lid: 0.35 USD}}, spoiled: 2 %}}
pricing: {{margin: 35 %, fees: 3 %, price_step: 0.25 USD, stall: 25 USD/day, days: 6 day,
  would_buy: 100 %}}
"""
_PRODUCTS = ("pear-slices", "apple-rings", "peach-slices", "sweet-corn", "parsley")
_OFFERS = 2


def write(folder: Path, runs: int) -> Path:
    """Write a season of ``runs`` runs, two loads each; a lot to two runs, a pack to two runs."""
    (folder / "batches").mkdir(parents=True, exist_ok=True)
    offers = "".join(
        f"  - {{id: offer-{product}-{n}, product: {product}, date: 2026-08-{n + 10}, "
        f"net: {8 + n} oz, price: {25 + n}.50 USD}}\n"
        for product in _PRODUCTS
        for n in range(_OFFERS)
    )
    (folder / "season.yaml").write_text(_SEASON.format(runs=runs) + "offers:\n" + offers)
    for part, first in enumerate(range(0, runs, 250)):
        numbers = range(first, min(first + 250, runs))
        (folder / "batches" / f"part-{part:04d}.yaml").write_text(_batch(numbers))
    return folder


def _batch(numbers: range) -> str:
    lots, runs, packs = [], [], []
    for n in numbers:
        product = _PRODUCTS[(n // 2) % len(_PRODUCTS)]
        day = f"2026-{n % 9 + 1:02d}-{n % 27 + 1:02d}"
        if n % 2 == 0:
            weighed = "weighed: 58.4 lb, prepped: 50.2 lb, " if n % 4 == 0 else ""
            lots.append(
                f"  - {{id: lot-{n}, product: {product}, date: {day}, {weighed}"
                f"price: {40 + n % 13}.50 USD, finished: true, labor: 2 h}}\n"
            )
            packs.append(
                f"  - {{id: pack-{n}, product: {product}, date: {day}, container: can-10, "
                f"count: {n % 5 + 2}, net: 11.0 oz, from: [run-{n}], labor: 25 min}}\n"
            )
        metered = f"energy: {18 + n % 7}.4 kWh, " if n % 3 else ""
        lot = f"lot-{n - n % 2}"
        runs.append(
            f"  - id: run-{n}\n    started: {day} 18:30\n    duration: {28 + n % 9} h\n"
            f"    {metered and metered[:-2]}\n    labor: 40 min\n    loads:\n"
            f"      - {{lot: {lot}, wet: 12.{n % 10} lb, dry: 31.{n % 10} oz}}\n"
            f"      - {{id: l-{n}, lot: {lot}, wet: 11.{n % 10} lb, dry: 29.{n % 10} oz}}\n"
        )
    return "lots:\n" + "".join(lots) + "runs:\n" + "".join(runs) + "packs:\n" + "".join(packs)
