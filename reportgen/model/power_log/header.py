"""The header of a power log: which column is the time, which the power or the meter's count.

The words are those that meters' programs use, in English and in the languages around; what fits
none of them is refused, with what to write instead.
"""

from __future__ import annotations

import csv
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from reportgen.read.near import one_of, short
from reportgen.read.problem import Refusal

FIRST_LINES = 60
"""The header must stand among so many lines at the top of the file."""

_DELIMITERS = (";", "\t", ",", "|")

_WHOLE = {
    "timestamp", "datetime", "stamp", "zeitstempel", "horodatage", "changed", "updated", "when",
}  # fmt: skip
_CLOCKS = {"time", "zeit", "uhrzeit", "heure", "hora", "ora", "tijd", "clock", "tid"}
_DAYS = {"date", "datum", "fecha", "data", "jour", "dag", "dato", "day"}
UNITS: dict[str, tuple[Literal["power", "count"], float]] = {
    "w": ("power", 1.0), "watt": ("power", 1.0), "watts": ("power", 1.0),
    "kw": ("power", 1000.0), "kilowatt": ("power", 1000.0), "kilowatts": ("power", 1000.0),
    "wh": ("count", 0.001), "kwh": ("count", 1.0),
}  # fmt: skip
"""A unit's word → what it measures, and how many W or kWh it is."""
_POWERS = {
    "power", "leistung", "wirkleistung", "puissance", "potencia", "potenza", "vermogen", "effekt",
}  # fmt: skip
_COUNTS = {
    "energy", "energie", "energia", "total", "consumption", "verbrauch", "zahlerstand",
    "consommation",
}  # fmt: skip
_NAMELESS = {
    "state", "value", "reading", "wert", "messwert", "valeur", "valor", "valore", "waarde",
}  # fmt: skip
_UNIT_COLUMNS = {"unit", "units", "einheit", "unite", "unidad", "measurement"}
_NAME_COLUMNS = {"entity", "sensor", "device", "name", "series", "plug", "channel"}
_NOT = {
    "apparent", "reactive", "factor", "yesterday", "max", "min", "peak", "maximum", "minimum",
    "returned", "export", "exported", "limit", "price", "cost", "rate", "tariff", "usd", "eur",
    "gbp", "scheinleistung", "blindleistung", "elapsed",
}  # fmt: skip
_WHOLE_COUNT = {"total", "cumulative", "lifetime", "gesamt", "overall"}
_PART_COUNT = {
    "today", "daily", "day", "week", "weekly", "month", "monthly", "year", "hour", "hourly",
    "heute",
}  # fmt: skip


@dataclass(frozen=True)
class Columns:
    """Where the readings stand. ``time``: one column, or those of the day and the clock time."""

    line: int
    """The header's line in the file, from 1."""
    delimiter: str
    time: tuple[int, ...]
    value: int
    kind: Literal["power", "count"]
    scale: float
    """W or kWh in one of the column's units."""
    name: int | None = None
    """The column that names the sensor, in a file that may hold several."""
    utc: bool = False
    """The header says that times are UTC."""

    @property
    def width(self) -> int:
        """How many columns a line must have at least."""
        return max(*self.time, self.value) + 1


def find_columns(lines: Sequence[str]) -> Columns:
    """The columns, from the first lines of a log. Raises :class:`Refusal`."""
    best: Refusal | None = None
    for number, line in enumerate(lines, 1):
        for delimiter in _DELIMITERS:
            cells = _cells(line, delimiter)
            if len(cells) < 2 or not any(_is_time(_words(cell)) for cell in cells):
                continue
            try:
                return _columns(number, delimiter, cells, lines[number:])
            except Refusal as refusal:
                best = best or refusal
    if best is not None:
        raise best
    first = next((line.strip() for line in lines if line.strip()), "")
    raise Refusal(
        f"no line at the top names the columns of the readings; the first is '{short(first)}'"
        if first
        else "the log is empty",
        "a first line such as time,W or time,kWh",
        "write it above the readings",
    )


def _columns(number: int, delimiter: str, cells: list[str], below: Sequence[str]) -> Columns:
    words = [_words(cell) for cell in cells]
    rows = [_cells(line, delimiter) for line in below[:10] if line.strip()]
    times = _times(words)
    measured = {*UNITS, *_POWERS, *_COUNTS}
    names = [at for at, each in enumerate(words) if each & _NAME_COLUMNS and not each & measured]
    value, kind, scale = _value(cells, words, times, rows)
    return Columns(
        number, delimiter, times, value, kind, scale, names[0] if names else None,
        any(words[at] & {"utc", "gmt"} for at in times),
    )  # fmt: skip


def _cells(line: str, delimiter: str) -> list[str]:
    try:
        return next(csv.reader([line.lstrip("\ufeff")], delimiter=delimiter), [])
    except csv.Error:
        return []


def _words(cell: str) -> set[str]:
    """The words of a header's cell, without capitals and accents."""
    plain = unicodedata.normalize("NFKD", cell.casefold())
    return set(re.findall(r"[a-z]+", "".join(c for c in plain if not unicodedata.combining(c))))


def _is_time(words: set[str]) -> bool:
    return bool(words & (_WHOLE | _CLOCKS | _DAYS)) and not words & (_NOT | set(UNITS))


def _times(words: list[set[str]]) -> tuple[int, ...]:
    found = [at for at, each in enumerate(words) if _is_time(each)]
    for at in found:
        if words[at] & _WHOLE or (words[at] & _CLOCKS and words[at] & _DAYS):
            return (at,)
    days = [at for at in found if words[at] & _DAYS]
    clocks = [at for at in found if words[at] & _CLOCKS]
    return (days[0], clocks[0]) if days and clocks else (found[0],)


def _value(
    cells: list[str], words: list[set[str]], times: tuple[int, ...], rows: list[list[str]]
) -> tuple[int, Literal["power", "count"], float]:
    """The column of the readings: a count where there is one, for it misses nothing."""
    counts: dict[int, float | None] = {}
    powers: dict[int, float | None] = {}
    for at, each in enumerate(words):
        if at in times or each & _NOT:
            continue
        unit = next((u for u in UNITS if u in each), "") or _unit_below(at, words, rows, each)
        if unit:
            kind, scale = UNITS[unit]
            (counts if kind == "count" else powers)[at] = scale
        elif each & _POWERS:
            powers[at] = 1.0
        elif each & _COUNTS:
            counts[at] = None
    whole = [at for at in counts if words[at] & _WHOLE_COUNT] or [
        at for at in counts if not words[at] & _PART_COUNT
    ]
    for kind, found, chosen in (
        ("count", counts, whole or list(counts)),
        ("power", powers, list(powers)),
    ):
        if len(chosen) > 1:
            named = one_of([f"'{short(cells[at])}'" for at in chosen])
            raise Refusal(
                f"{len(chosen)} columns may be meant: {named}",
                "one column of power or of the meter's count",
                "delete the others, or rename them",
            )
        if chosen:
            at = chosen[0]
            scale_of = found[at]
            if scale_of is None:
                raise Refusal(
                    f"the column '{short(cells[at])}' does not say its unit",
                    "kWh or Wh in the header",
                    f"write {short(cells[at])} (kWh), if that is the unit",
                )
            return at, kind, scale_of
    raise Refusal(
        "no column is one of power or of the meter's count, among "
        + one_of(["'" + short(cell, 20) + "'" for cell in cells]),
        "a column with W, kW, Wh or kWh in its header",
        "rename the column of the readings to W or to kWh",
    )


def _unit_below(at: int, words: list[set[str]], rows: list[list[str]], own: set[str]) -> str:
    """The unit that stands in a row of units, or beside a column called ``state``."""
    first = rows[0] if rows else []
    if at < len(first) and not re.search(r"\d", "".join(first)):
        return _unit(_words(first[at]))
    if not own & _NAMELESS:
        return ""
    for each, cell in zip(words, first, strict=False):
        if each & _UNIT_COLUMNS and (found := _unit(_words(cell))):
            return found
    for each, cell in zip(words, first, strict=False):
        if each & _NAME_COLUMNS:
            said = _words(cell)
            return _unit(said) or ("w" if said & _POWERS else "kwh" if "kwh" in said else "")
    return ""


def _unit(words: set[str]) -> str:
    return next((unit for unit in UNITS if unit in words), "")
