"""Seasons whose packs are to be labelled."""

from __future__ import annotations

from pathlib import Path

from cli.seasons import SEASON

from reportgen.handout.locale_format import LocaleFormat
from reportgen.labels.choose import choose
from reportgen.labels.content import Label, label
from reportgen.labels.texts import SECTION, Speech
from reportgen.program import data, read
from reportgen.texts import Texts

MAKER = """\
as_of: 2025-09-20
maker:
  name: Larch Hollow kitchen
  address: 7 Mill Track, Larch Hollow
  permit: K-114
  statement: Made in a home kitchen.
"""
BATCH = """\
lots:
  - {id: pears-1, product: pear-slices, date: 2025-09-05, price: 30 USD, prepped: 30 lb}
  - {id: eggs-1, product: raw-egg, date: 2025-09-05, price: 9 USD, weighed: 6 lb, prepped: 5 lb}
runs:
  - id: run-1
    started: 2025-09-05 18:00
    duration: 30 h
    loads: [{lot: pears-1, wet: 10 lb, dry: 26.0 oz, dryness: {weights: [26.1 oz, 26.0 oz]}}]
  - id: run-2
    started: 2025-09-07 18:00
    duration: 30 h
    loads:
      - {lot: pears-1, wet: 8 lb, dry: 30 oz, dryness: {weights: [33.0 oz, 30.0 oz]}}
      - {lot: eggs-1, wet: 4 lb, dry: 15.5 oz}
  - id: run-3
    started: 2025-09-09 18:00
    duration: 30 h
    loads: [{lot: pears-1, wet: 8 lb}]
packs:
  - id: P-1
    product: pear-slices
    date: 2025-09-08
    container: jar
    count: 5
    net: 11.2 oz
    from: [run-1]
  - id: P-wet
    product: pear-slices
    date: 2025-09-09
    container: jar
    count: 2
    net: 5 oz
    from: [run-2]
  - id: P-egg
    product: raw-egg
    date: 2025-09-09
    container: jar
    count: 1
    net: 7 oz
    from: [run-2]
  - id: P-early
    product: pear-slices
    date: 2025-09-10
    container: jar
    count: 1
    net: 5 oz
    from: [run-3]
  - id: P-blank
    product: pear-slices
    container: jar
    count: 3
    from: [run-1]
  - id: P-gone
    product: pear-slices
    date: 2025-09-08
    container: jar
    count: 1
    net: 5 oz
    from: [run-1]
uses:
  - {date: 2025-09-20, pack: P-1, count: 2, for: household}
  - {date: 2025-09-20, pack: P-gone, count: 1, for: household}
"""


def season(folder: Path, batch: str = BATCH, settings: str = SEASON + MAKER) -> Path:
    """A season's folder."""
    (folder / "batches").mkdir(parents=True)
    (folder / "season.yaml").write_text(settings, "utf-8")
    (folder / "batches" / "2025-09-05.yaml").write_text(batch, "utf-8")
    return folder


def speech(locale: str = "en-US") -> Speech:
    """The words of a locale."""
    place = LocaleFormat(locale, {})
    texts = Texts(data("templates") / "texts", place.language)
    own = {k.removeprefix(SECTION): v for k, v in texts.all.items() if k.startswith(SECTION)}
    return Speech(texts.language, own, place.number, place.day)


def labels(place: Path, locale: str = "en-US", short: bool = False, doubtful: bool = True,
           count: int | None = None) -> dict[str, Label]:  # fmt: skip
    """The label of each pack of a season, by the pack's id."""
    done = read(place)
    assert done.season is not None and done.numbers is not None, done.problems
    chosen, _ = choose(done.season, done.numbers, doubtful=doubtful, count=count)
    made = [label(done.season, done.numbers, each, speech(locale), short) for each in chosen]
    return {each.pack: each for each in made}
