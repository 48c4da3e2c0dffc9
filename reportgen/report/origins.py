"""Where an input comes from, in words: file and line, product data and source, or a default."""

from __future__ import annotations

from reportgen.algebra.inputs import Input
from reportgen.model.recipes import SHIPPED
from reportgen.model.season import Origin, Season
from reportgen.read.problem import Place
from reportgen.report.reads import Cell

_LONGEST = 60


def at(place: Place) -> str:
    """``file:line``."""
    return f"{place.file}:{place.line}" if place.line else place.file


def record(season: Season, table: str, row: int) -> str:
    """Where a record begins; empty where the user wrote none."""
    rows = season.tables.get(table)
    place = rows.places[row] if rows is not None and row < len(rows.places) else None
    return at(place) if place is not None and place.line and not _ships(place) else ""


def _ships(place: Place) -> bool:
    return place.file.startswith(SHIPPED)


def given_at(season: Season, cell: Cell) -> Place | None:
    """Where an input was written; none where it was not, or is worked out."""
    if cell.name not in cell.table.inputs:
        return None
    rows = season.tables.get(cell.table.name)
    column = rows.origins.get(cell.name) if rows is not None else None
    origin = column[cell.row] if column is not None else None
    return origin.place if origin is not None and origin.kind == "given" else None


def of_input(season: Season, cell: Cell) -> str:
    """Where the value of an input cell comes from."""
    rows = season.tables.get(cell.table.name)
    if rows is None:
        return "set by the program"
    column = rows.origins.get(cell.name)
    origin = column[cell.row] if column is not None else None
    if origin is None:
        return _left_out(season, cell)
    written = " ".join(origin.text.split())
    if origin == Origin("default", "left out"):
        return "not written: the usual value"
    written = written if len(written) <= _LONGEST else written[: _LONGEST - 3] + "..."
    where = at(origin.place) if origin.place is not None else ""
    match origin.kind:
        case "given":
            said = f'{where}, written "{written}"'
        case "assumed":
            said = f'product data, {where}, "{written}"'
        case "default":
            said = f"{where}, implied: {written}" if where else f"not written: {written}"
    return said + _source(season, origin)


def _left_out(season: Season, cell: Cell) -> str:
    where = record(season, cell.table.name, cell.row)
    where = f" (the {cell.table.one} stands at {where})" if where else ""
    found: Input | None = cell.table.inputs.get(cell.name)
    if found is not None and found.zero:
        return f"not written{where}: counts as {'no' if found.type == 'flag' else '0'}"
    if found is not None and found.one:
        return f"not written{where}: counts as 1"
    return f"not written{where}"


def _source(season: Season, origin: Origin) -> str:
    if not origin.source:
        return ""
    known = season.sources.get(origin.source)
    if known is None:
        return f"; source: {origin.source}{f', {origin.note}' if origin.note else ''}"
    words = [known[each] for each in ("title", "publisher", "year") if known.get(each)]
    if origin.source == "practice":
        words = words[:2]
    return f"; source: {', '.join(words)}"
