"""Every record that a season may hold: the contract of what a user may write."""

from __future__ import annotations

from dataclasses import replace

from reportgen.model.batches import (
    asked,
    counts,
    draws,
    loads,
    lots,
    offers,
    packs,
    runs,
    trips,
    uses,
)
from reportgen.model.fields import Field, Record, Text
from reportgen.model.markets import market_packs, market_takings, markets
from reportgen.model.mixing import bought_parts, mix_parts, mixes
from reportgen.model.outlook import another, carried_over, closed, plan, scenarios
from reportgen.model.power_log.records import power, run_energy
from reportgen.model.product_data import nominal_weights, recipes
from reportgen.model.settings import (
    absorbers,
    channels,
    containers,
    dryers,
    maker,
    overheads,
    parts,
    periods,
    place,
    pricing,
    rates,
    scale,
    season,
    upkeep,
)
from reportgen.read.short import Keys

SEASON: tuple[Field, ...] = (
    Text("season", "The season's name.", required=True),
    Text("currency", "ISO 4217 code.", required=True),
    Text("locale", "Language and place of workbook and hand-outs, as en-US."),
    Text("timezone", "Time zone of the clock, as America/Chicago: for logs and clock changes."),
    *season.fields,
)
"""The keys of ``season.yaml`` that are not records; ``units`` is read before all others."""

_NOTE = Text("note", "A note in your own words.")
_UNNOTED = (
    "run_energy", "power", "draws", "products", "nominal_weights", "market_packs", "market_takings",
)  # fmt: skip
"""Records that nobody writes as such, or that have notes of their own."""


def _noted(record: Record) -> Record:
    """The record with room for a note, where it is one of a list."""
    if record.key == "single" or record.name in _UNNOTED:
        return record
    return replace(record, fields=(*record.fields, _NOTE))


RECORDS: dict[str, Record] = {
    record.name: _noted(record)
    for record in (
        season, rates, periods, pricing, channels, scale, place, maker,
        dryers, upkeep, containers, parts, absorbers, overheads, carried_over,
        recipes, nominal_weights,
        trips, lots, runs, run_energy, power, loads, mixes, mix_parts, bought_parts, packs, draws,
        uses, markets, market_packs, market_takings, counts, asked, offers, scenarios, plan, closed,
        another,
    )
}  # fmt: skip

ONLY_SEASON: tuple[str, ...] = (
    "rates", "pricing", "channels", "scale", "place", "maker", "dryers", "containers", "absorbers",
    "overheads", "carried_over", "scenarios", "plan", "closed", "another",
)  # fmt: skip
"""The records of ``season.yaml`` that a batch file may not hold."""

BATCH: tuple[str, ...] = (
    "lots", "runs", "mixes", "packs", "uses", "markets", "counts", "asked", "offers", "trips",
)  # fmt: skip
"""The lists that any file of a season may hold."""

_OF_LOT = tuple(each.name for each in RECORDS["lots"].fields)
SHORT = Keys(
    _OF_LOT,
    tuple(
        each.name for each in RECORDS["loads"].fields if each.name not in (*_OF_LOT, "lot", "again")
    ),
)
"""What the short form has at its top: the keys of a lot, and of a load what a lot has not."""

OWNER_COLUMN: dict[str, str] = {
    "loads": "run", "upkeep": "dryer", "parts": "container", "nominal_weights": "product",
    "mix_parts": "into", "bought_parts": "into",
    "market_packs": "market", "market_takings": "market",
}  # fmt: skip
"""Records written inside another: the column that names their owner."""
