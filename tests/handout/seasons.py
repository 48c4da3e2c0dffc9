"""Seasons to make hand-outs of: the samples; one with nothing in it, one half way, one with hostile
texts, one with much to hide."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from click.testing import CliRunner
from samples.season import ROOT

from reportgen import program
from reportgen.cli import app
from reportgen.handout.gather import Gather
from reportgen.handout.locale_format import LocaleFormat
from reportgen.handout.season_page import season_page
from reportgen.program import Read, read
from reportgen.texts import Texts
from reportgen.write.html import render

TEXTS = program.data("templates") / "texts"
TEMPLATES = program.data("templates") / "handout"

HOSTILE = "<script>alert(1)</script>\"'&<img src=x onerror=alert(2)>{{ 7*7 }}"
_QUOTED = json.dumps(HOSTILE)
_EMPTY = "season: Nothing Yet\ncurrency: USD\n"
_HOSTILE = f"""\
season: {_QUOTED}
currency: USD
rates: {{electricity: 0.20 USD/kWh, labor: 10 USD/h}}
dryers: [{{id: porch, mean_power: 700 W, price: 2000 USD, life: 500 run}}]
containers: [{{id: jar, name: {_QUOTED}, volume: 946 mL, parts: {{lid: 0.40 USD}}}}]
lots:
  - {{id: pears-1, product: odd, date: 2025-09-05, source: {_QUOTED}, price: 30 USD,
     weighed: 40 lb, prepped: 30 lb}}
runs:
  - id: run-1
    started: 2025-09-05 18:00
    duration: 30 h
    loads: [{{lot: pears-1, wet: 10 lb, dry: 26 oz}}]
packs: [{{id: P-1, product: odd, container: jar, count: 5, net: 2 oz, from: [run-1]}}]
"""
PARTIAL = """\
season: Half Way
currency: USD
rates: {electricity: 0.20 USD/kWh, labor: 10 USD/h}
dryers: [{id: porch, mean_power: 700 W, price: 2000 USD, life: 500 run}]
containers: [{id: jar, volume: 946 mL, parts: {lid: 0.40 USD}}]
lots:
  - {id: peaches-1, product: peach-slices, date: 2025-08-05, price: 30 USD, weighed: 40 lb}
  - {id: plums-1, product: plum-halves, date: 2025-08-06, price: 20 USD, prepped: 20 lb}
  - {id: apples-1, product: apple-rings, date: 2025-09-05, weighed: 20 lb}
  - {id: pears-1, product: pear-slices, date: 2025-09-05, price: 20 USD, prepped: 16 lb}
runs:
  - {id: run-1, dryer: porch, started: 2025-08-06 18:00, duration: 30 h,
     loads: [{lot: peaches-1, wet: 10 lb, dry: 26 oz}, {lot: plums-1, wet: 6 lb, dry: 20 oz}]}
  - {id: run-2, dryer: porch, started: 2025-09-06 18:00, loads: [{lot: pears-1, wet: 10 lb}]}
packs:
  - {id: P-1, product: plum-halves, container: jar, count: 3, net: 4 oz, from: [run-1]}
  - {id: P-2, product: plum-halves, container: jar, count: 2, from: [run-1]}
offers:
  - {id: o-1, product: peach-slices, date: 2025-08-01, net: 4 oz, price: 10 USD}
  - {id: o-2, product: kale, date: 2025-08-01, net: 4 oz, price: 10 USD}
"""
"""Dried and not packed; packed, without a shop price and with a net unknown; bought, at a price
unknown, and not dried; still drying; only seen in a shop."""
SECRETIVE = """\
season: Tight Lips
currency: USD
rates:
  electricity: 0.19373 USD/kWh
  labor: 17.3719 USD/h
  travel: 0.61731 USD/mile
overheads: [{item: ledger, cost: 41.83 USD}]
dryers:
  - {id: porch, mean_power: 713.3719 W, price: 2137 USD, resale: 119 USD, life: 523 run,
     upkeep: [{item: oil, cost: 19.31 USD, every: 17 run}]}
containers: [{id: jar, volume: 946 mL, parts: {lid: 0.43 USD}}]
lots:
  - {id: pears-1, product: pear-slices, date: 2025-08-05, source: Quillfeather orchard,
     price: 31.17 USD, weighed: 41.3 lb, prepped: 33.7 lb, labor: 3.37307 h, travel: 23.7137 mile}
  - {id: pears-2, product: pear-slices, date: 2025-08-07, source: Mossgate market,
     price: 22.91 USD, weighed: 19.9 lb, prepped: 17.3 lb, labor: 1.93873 h}
  - {id: plums-1, product: plum-halves, date: 2025-08-06, source: Farthingdale wood,
     price: 20.39 USD, prepped: 20.9 lb, labor: 2.71703 h}
runs:
  - {id: run-1, dryer: porch, started: 2025-08-06 18:00, duration: 31.3791 h, energy: 21.37319 kWh,
     labor: 0.79193 h,
     loads: [{lot: pears-1, wet: 10.3 lb, dry: 26.9 oz}, {lot: plums-1, wet: 6.7 lb, dry: 20.3 oz}]}
  - {id: run-2, dryer: porch, started: 2025-08-08 18:00, duration: 29.7119 h,
     energy: {from: 1371.91373 kWh, to: 1394.2917 kWh}, labor: 0.57173 h,
     loads: [{lot: pears-2, wet: 11.9 lb, dry: 29.7 oz}]}
packs:
  - {id: P-1, product: pear-slices, container: jar, count: 3, net: 4.3 oz, labor: 0.41393 h,
     from: [run-1]}
offers:
  - {id: o-1, product: pear-slices, seller: Brindle stores, date: 2025-08-01, net: 4.7 oz,
     price: 11.3 USD}
"""
"""Private figures of so many digits that they are not met by chance."""
KITCHEN = """\
season: Kitchen Lane
currency: USD
as_of: 2025-10-31
rates: {electricity: 0.20 USD/kWh, labor: 10 USD/h, travel: 0.60 USD/mile}
dryers:
  - {id: porch, trays: 4, tray_area: 0.2 m2, mean_power: 700 W, price: 2000 USD, life: 500 run}
containers: [{id: jar, volume: 946 mL, parts: {lid: 0.40 USD}}]
channels: {stall: {fees: 3 %, tax: 6 %}, cafe: {discount: 25 %}}
pricing: {margin: 25 %, price_step: 0.25 USD, would_buy: 100 %}
asked: [{product: trail, container: jar, net: 3 oz, price: 9 USD}]
lots:
  - {id: a, product: pear-slices, date: 2025-09-01, price: 30 USD, weighed: 40 lb, prepped: 30 lb}
runs:
  - {id: r, dryer: porch, started: 2025-09-02, duration: 30 h, energy: 20 kWh,
     loads: [{lot: a, wet: 20 lb, dry: 54 oz, dryness: {water_activity: 0.3}}]}
mixes:
  - {id: mixed, product: trail, date: 2025-09-10, from: [{product: pear-slices, weight: 12 oz}],
     bought: [{item: seeds, weight: 6 oz, price: 4 USD, best_by: 2026-02-01}], out: 17 oz}
packs:
  - {id: P, product: pear-slices, date: 2025-09-05, container: jar, count: 6, net: 4 oz, from: [r]}
  - {id: M, product: trail, date: 2025-09-10, container: jar, count: 5, net: 3 oz, from: [mixed]}
counts: [{date: 2025-10-01, pack: P, counted: 5}]
markets:
  - {id: green, date: 2025-09-20, channel: stall, fee: 20 USD, travel: 8 mile, labor: 4 h,
     took: {M: 4, P: 2}, back: {M: 1, P: 2}, samples: {M: 1}, prices: {P: 15 USD},
     takings: {cash: 17.50 USD}}
offers: [{id: o, product: pear-slices, date: 2025-08-01, net: 4 oz, price: 10 USD}]
plan:
  - {product: pear-slices, container: jar, count: 40, net: 4 oz, start: 2025-11-03,
     until: 2025-11-06, at_most: 60 lb}
closed: [{dryer: porch, from: 2025-11-05, to: 2025-11-05}]
another: {like: porch, price: 2000 USD}
"""
"""Mixes, a count, a market day, and a plan with a window and closed days, all at once."""
_RECIPE = f"""\
name: {_QUOTED}
ingredients: {_QUOTED}
rehydrate: {_QUOTED}
storage: {_QUOTED}
cautions: [{{text: {_QUOTED}, source: practice}}]
allergens: [{_QUOTED}]
"""


_WRITTEN = {"empty": _EMPTY, "hostile": _HOSTILE, "partial": PARTIAL, "secretive": SECRETIVE,
            "kitchen": KITCHEN}  # fmt: skip


def write(name: str, folder: Path) -> None:
    """The files of a made-up season."""
    (folder / "recipes").mkdir(parents=True)
    text = _WRITTEN[name].replace("'\\''", "''")
    (folder / "season.yaml").write_text(text, encoding="utf-8")
    if name == "hostile":
        (folder / "recipes" / "odd.yaml").write_text(_RECIPE, encoding="utf-8")
    if name == "kitchen":
        (folder / "recipes" / "trail.yaml").write_text("name: Trail mix\n", encoding="utf-8")


@cache
def of(name: str, locale: str = "") -> Read:
    """A season by name; with another locale where one is given."""
    with TemporaryDirectory() as folder:
        made = Path(folder) / name
        if name in _WRITTEN:
            write(name, made)
            done = read(made)
        else:
            done = read(ROOT / "samples" / name)
    assert done.season is not None, done.problems
    done.season.locale = locale or done.season.locale
    return done


@cache
def gathered(name: str, locale: str = "") -> Gather:
    """What its hand-outs are made from."""
    done = of(name, locale)
    assert done.season is not None and done.numbers is not None
    place = LocaleFormat(locale, done.season.slots)
    return Gather(done.season, done.numbers, Texts(TEXTS, place.language), place)


@cache
def page(name: str, locale: str = "") -> bytes:
    """The page of a season."""
    return render(TEMPLATES, "page.html.j2", season_page(gathered(name, locale)))


def prices(name: str) -> bytes:
    """The price list and shelf tickets of a season."""
    with TemporaryDirectory() as folder:
        into = Path(folder) / "prices.html"
        done = CliRunner().invoke(app, ["prices", str(ROOT / "samples" / name), "-o", str(into)])
        assert done.exit_code == 0, done.output
        return into.read_bytes()
