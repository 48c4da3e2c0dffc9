"""Seasons to make hand-outs of: the samples, one with nothing in it, one with hostile texts."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from samples.season import ROOT

from reportgen import program
from reportgen.handout.gather import Gather
from reportgen.handout.place import Place
from reportgen.handout.season_page import season_page
from reportgen.handout.texts import Texts
from reportgen.program import Read, read
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
_RECIPE = f"""\
name: {_QUOTED}
ingredients: {_QUOTED}
rehydrate: {_QUOTED}
storage: {_QUOTED}
cautions: [{{text: {_QUOTED}, source: practice}}]
allergens: [{_QUOTED}]
"""


@cache
def of(name: str, locale: str = "") -> Read:
    """A season by name; with another locale where one is given."""
    with TemporaryDirectory() as folder:
        made = Path(folder)
        if name in ("empty", "hostile"):
            (made / "recipes").mkdir()
            text = (_EMPTY if name == "empty" else _HOSTILE).replace("'\\''", "''")
            (made / "season.yaml").write_text(text, encoding="utf-8")
            if name == "hostile":
                (made / "recipes" / "odd.yaml").write_text(_RECIPE, encoding="utf-8")
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
    place = Place(locale, done.season.slots)
    return Gather(done.season, done.numbers, Texts(TEXTS, place.language), place)


@cache
def page(name: str, locale: str = "") -> bytes:
    """The page of a season."""
    return render(TEMPLATES, "page.html.j2", season_page(gathered(name, locale)))
