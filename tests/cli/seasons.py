"""Small seasons to give commands, and how they are given."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from click.testing import CliRunner, Result

from reportgen.cli import app

ROOT = Path(__file__).parents[2]

SEASON = """\
season: Larch Hollow 2025
currency: USD
units: {fresh: lb, dried: oz}
rates: {electricity: 0.20 USD/kWh, labor: 10 USD/h, travel: 0.50 USD/mile}
dryers:
  - {id: porch, trays: 4, tray_area: 0.12 m2, mean_power: 700 W, price: 2000 USD, life: 500 run}
containers:
  - {id: jar, volume: 946 mL, parts: {lid: 0.40 USD}}
"""

BATCH = """\
lots:
  - id: pears-1
    product: pear-slices
    date: 2025-09-05
    price: 30 USD
    weighed: 40 lb
    prepped: 30 lb
runs:
  - id: run-1
    started: 2025-09-05 18:00
    duration: 30 h
    energy: 20 kWh
    loads: [{lot: pears-1, wet: 10 lb, dry: 26 oz}]
  - id: run-2
    started: 2025-09-07 18:00
    duration: 30 h
    loads: [{lot: pears-1, wet: 8 lb}]
packs:
  - {id: P-1, product: pear-slices, container: jar, count: 5, net: 2 oz, from: [run-1]}
  - {id: P-2, product: pear-slices, container: jar, count: 2, from: [run-1]}
uses:
  - {date: 2025-09-20, pack: P-1, count: 1, for: stall}
offers:
  - {id: o-1, product: pear-slices, date: 2025-08-01, net: 4 oz, price: 10 USD}
"""


def season(folder: Path, batch: str = BATCH, settings: str = SEASON) -> Path:
    """A season's folder below another."""
    made = folder / "larch"
    (made / "batches").mkdir(parents=True)
    (made / "season.yaml").write_text(settings, "utf-8")
    if batch:
        (made / "batches" / "2025-09-05.yaml").write_text(batch, "utf-8")
    return made


def run(*words: object) -> Result:
    """A command in this process; a fault of the program is raised."""
    return CliRunner().invoke(app, [str(each) for each in words], catch_exceptions=False)


def process(
    *words: object, cwd: Path = ROOT, **environment: str
) -> subprocess.CompletedProcess[bytes]:
    """A command in a process of its own."""
    env = {**os.environ, "PYTHONPATH": str(ROOT), **environment}
    line = [sys.executable, "-m", "reportgen", *map(str, words)]
    return subprocess.run(line, cwd=cwd, env=env, capture_output=True, timeout=60, check=False)
