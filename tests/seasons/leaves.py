"""The inputs of a season one by one: the cell of the workbook that each stands for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from seasons.form import Route, Row, Season
from seasons.outlook import PARTS
from seasons.pen import GRAMS

PURPOSES = ("household", "gift", "spoiled", "crumbs", "sample")
"""What a use may be for without being sold."""

# YAML key: (kind, the input's name where it is not the key). A kind with a star cannot be left out.
FIELDS: dict[str, dict[str, tuple[str, str]]] = {
    "lots": {
        "product": ("product*", ""), "date": ("day", ""), "source": ("text", ""),
        "grown": ("flag", ""), "count": ("count", ""), "container": ("bought_in", ""),
        "price": ("price", ""), "weighed": ("fresh", ""), "weighed_count": ("part_count", ""),
        "prepped": ("fresh", "prepped_weighed"), "set_aside": ("little", ""),
        "lost": ("little", ""), "water": ("share", ""), "travel": ("road", ""),
        "trip": ("trip", ""),
        "labor": ("time", ""), "finished": ("flag", ""),
    },
    "runs": {
        "dryer": ("dryer", ""), "started": ("start", ""), "ended": ("end", ""),
        "duration": ("time", ""), "energy": ("energy", ""), "labor": ("time", ""),
    },
    "loads": {
        "lot": ("lot*", ""), "wet": ("wet", ""), "dry": ("dry", ""),
        "dryness": ("dryness", ""),
    },
    "packs": {
        "product": ("product*", ""), "date": ("day", ""), "container": ("container", ""),
        "count": ("count", ""), "net": ("net", ""), "labor": ("time", ""),
    },
    "uses": {
        "date": ("day", ""), "pack": ("pack*", ""), "count": ("count*", ""),
        "product": ("product*", ""), "weight": ("net*", ""), "for": ("purpose*", ""),
        "price": ("money", ""),
    },
    "counts": {
        "date": ("day*", ""), "pack": ("pack*", ""), "counted": ("count*", ""),
        "product": ("product*", ""), "weight": ("net*", ""),
    },
    "markets": {
        "date": ("day*", ""), "fee": ("money", ""), "travel": ("road", ""), "labor": ("time", ""),
    },
    "offers": {
        "product": ("product*", ""), "seller": ("text", ""), "date": ("day", ""),
        "net": ("net", ""), "price": ("money", ""), "shipping": ("money", ""),
        "on_sale": ("flag", ""), "form": ("form", ""),
    },
    "trips": {"distance": ("road", ""), "labor": ("time", "")},
    "dryers": {
        "trays": ("count", ""), "tray_area": ("area", ""), "load_limit": ("fresh", ""),
        "mean_power": ("power", ""), "price": ("money", ""), "resale": ("money", ""),
        "life": ("runs", ""), "runs_before": ("runs", ""),
        "runs_per_year": ("runs", ""), "turnaround": ("time", ""),
        "mean_power_spread": ("share", ""),
    },
    "containers": {
        "name": ("text", ""), "volume": ("volume", ""), "absorber": ("volume", ""),
        "spoiled": ("share", ""),
    },
    "rates": {"electricity": ("by_energy", ""), "labor": ("by_time", ""),
              "travel": ("by_road", "")},
    "pricing": {
        "margin": ("share", ""), "fees": ("share", ""), "price_step": ("money", ""),
        "stall": ("by_day", ""), "days": ("days", ""), "would_buy": ("share", ""),
    },
    "channels": {"fees": ("share", ""), "tax": ("share", ""), "discount": ("share", "")},
    "scale": {"resolution": ("step", "")},
    "place": {"altitude": ("height", "")},
    "absorbers": {"oxygen": ("volume*", ""), "cost": ("money", "")},
    "scenarios": {
        "name": ("text", ""), "labor": ("change", ""), "electricity": ("by_energy", ""),
        "travel": ("by_road", ""), "container": ("container", ""), "net": ("net", ""),
    } | {part: ("factor", f"{part}_factor") for part in PARTS if part != "labor"},
    "plan": {
        "product": ("planned*", ""), "container": ("container", ""), "count": ("count", ""),
        "net": ("net", ""), "start": ("day", ""), "dryer": ("dryer", ""), "pace": ("pace", ""),
        "until": ("last_day", ""), "at_most": ("at_most", ""),
    },
    "closed": {
        "dryer": ("shut*", ""), "from": ("first_shut*", "from_day"),
        "to": ("last_shut*", "to_day"),
    },
    "another": {"like": ("dryer*", ""), "price": ("money", "")},
    "overheads": {"cost": ("money*", ""), "over": ("net", "")},
    "carried_over": {"dried": ("net*", ""), "running": ("by_dried", ""), "full": ("by_dried", "")},
    "upkeep": {"cost": ("money*", ""), "every": ("runs*", "")},
    "parts": {"cost": ("money*", ""), "uses": ("count", "")},
}  # fmt: skip


@dataclass(frozen=True)
class Leaf:
    """One key of one record, given or left out."""

    row: Row
    name: str
    """The key in the file."""
    kind: str
    needed: bool

    @property
    def value(self) -> Any:
        """What is written there; None where it is left out."""
        return self.row.record.get(self.name)

    @property
    def route(self) -> Route:
        return (*self.row.route, self.name)

    @property
    def inputs(self) -> tuple[str, ...]:
        """The columns of the table that hold it, as far as they are given."""
        value = self.value
        if self.kind == "price":
            holder = self.row.record.get("container")
            return (price_input(value, holder),) if value else ()
        if self.kind == "energy":
            return ("meter_from", "meter_to") if isinstance(value, dict) else ("energy",)
        if self.kind == "at_most":
            word = value.partition(" ")[2] if value else ""
            return ("at_most_weight",) if word in GRAMS else ("at_most", "at_most_of")
        if self.kind == "change":
            return ("labor_rate" if value and "/" in value else "labor_factor",)
        if self.kind == "dryness":
            names = {
                "weights": ("weighing_before", "weighing_last"),
                "water_activity": ("water_activity",),
                "moisture_meter": ("moisture_meter",),
            }
            return tuple(each for key in value or {} for each in names[key])
        if self.kind == "purpose":
            return ("purpose" if value in PURPOSES else "channel",)
        return (FIELDS[self.row.table][self.name][1] or self.name,)


def price_input(text: str, container: str | None) -> str:
    """Which of the three columns a lot's price goes into."""
    _, slash, word = text.partition("/")
    if not slash:
        return "price_total"
    return "price_each" if word == container else "price_by_weight"


def leaves(season: Season) -> Iterator[Leaf]:
    """Every key that the records of the season have or might have."""
    for row in season.rows():
        for name, (kind, _) in FIELDS[row.table].items():
            yield Leaf(row, name, kind.rstrip("*"), kind.endswith("*"))


def given(season: Season) -> list[Leaf]:
    """The keys that are written."""
    return [leaf for leaf in leaves(season) if leaf.value is not None]


def optional(season: Season) -> list[Leaf]:
    """The keys that are written and could be left out, with nothing else becoming wrong by it."""
    several = len(season.head.get("dryers", [])) > 1
    return [leaf for leaf in given(season) if not leaf.needed and not _leant_on(leaf, several)]


def _leant_on(leaf: Leaf, several_dryers: bool) -> bool:
    record = leaf.row.record
    if leaf.name == "dryer":
        return several_dryers
    if leaf.name == "count":
        return "weighed_count" in record
    if leaf.kind == "bought_in":
        # The price would name the container in its place.
        return record.get("price", "").endswith(f"/{leaf.value}")
    return False


def without(season: Season, left_out: Sequence[Leaf]) -> Season:
    """The season with some keys left out."""
    result = season.copied()
    for leaf in left_out:
        del result.at(leaf.row.file, leaf.row.route)[leaf.name]
    return result


def with_value(season: Season, leaf: Leaf, value: Any) -> Season:
    """The season with another value at a key."""
    result = season.copied()
    result.at(leaf.row.file, leaf.row.route)[leaf.name] = value
    return result
