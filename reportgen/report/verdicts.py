"""What is wrong or doubtful in a season that could be read, and what is still open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Definition, Table
from reportgen.model.season import Season
from reportgen.report.figures import keys
from reportgen.report.origins import given_at, record
from reportgen.report.reads import Cell, Read, Reads
from reportgen.report.show import shown, shows_nothing
from reportgen.trade import safety
from reportgen.trade.safety import beside

CAUTIONS = beside(safety.CAUTIONS)
"""What stands beside verdicts: they are no promise."""
RECORDED = ("lots", "runs", "packs", "uses", "markets", "counts", "offers")
_OPEN = (
    ("packs", "net_missing"), ("packs", "day_missing"), ("uses", "price_missing"),
    ("market_packs", "price_missing"), ("markets", "not_written_up"),
)  # fmt: skip
"""Checks that say what has not been written yet; they are told with what is still open."""


@dataclass(frozen=True)
class Failing:
    """A check that fails, and where: each row with the place of its record."""

    check: Definition
    rows: tuple[tuple[str, str], ...]


def doubt(numbers: Numbers) -> str:
    """The verdict over all checks where there are errors: it stands beside every figure that is
    handed out or told. Empty where there are none."""
    wrong = numbers.value("season", "errors")
    return str(numbers.value("season", "verdict_of_all")) if wrong else ""


def recorded(season: Season) -> bool:
    """Whether anything has been recorded yet."""
    return any(season.tables[name].keys for name in RECORDED)


def failing(season: Season, numbers: Numbers) -> list[Failing]:
    """Every check that fails, errors first, without those told as still open."""
    found = [
        _failing(season, numbers, check) for check in numbers.book.checks if check.key not in _OPEN
    ]
    return sorted((each for each in found if each.rows), key=lambda f: f.check.severity != "error")


def still_open(season: Season, numbers: Numbers) -> list[list[tuple[str, str]]]:
    """What the season still waits for, kind by kind: each in words, with its record's place."""
    tables = numbers.book.tables
    kinds = [_runs(season, numbers), _lots(season, numbers)]
    kinds += [_unwritten(season, numbers, tables[table].definitions[name]) for table, name in _OPEN]
    kinds.append(_bulk(numbers))
    return [kind for kind in map(list, kinds) if kind]


_DAY = len("2026-12-31")


def eat_first(numbers: Numbers) -> list[str]:
    """What is to be eaten first, in words, as far as the list goes; then what it leaves out."""
    table = numbers.book.tables["eat_first"]
    names = ("on_hand", "what", "container", "pack", "best_by", "pack_dryness")
    found = []
    for row in range(numbers.rows(table)):
        if numbers.value("eat_first", "pack", row) is None:
            continue
        number, what, container, pack, day, dryness = (
            shown(numbers.value("eat_first", name, row), table.kind_of(name), numbers.slots)
            for name in names
        )
        left = numbers.value("eat_first", "days_left", row)
        known = numbers.value("eat_first", "best_by", row) is not None
        until = f"best by {day[:_DAY]}" if known else "no best-by day"
        past = ", past its day" if isinstance(left, float) and left < 0 else ""
        moist = f", dryness: {dryness}" if dryness != "dry" else ""
        found.append(f"{pack}: {number} × {what} ({container}), {until}{past}{moist}")
    season = numbers.book.tables["season"]
    for name, said in (
        ("shelf_not_listed", "more on the shelf"),
        ("shelf_without_day", "on the shelf without a best-by day"),
    ):
        more = numbers.value("season", name)
        if more:
            found.append(f"{shown(more, season.kind_of(name), numbers.slots)} {said}")
    return found


def _runs(season: Season, numbers: Numbers) -> Iterator[tuple[str, str]]:
    """Runs that are not done: which of their loads have no dry weight."""
    group = numbers.group(numbers.book.tables["loads"], "run")
    cells = numbers.cells["loads"]
    for row, run in enumerate(keys(numbers, numbers.book.tables["runs"])):
        if numbers.value("runs", "done", row) or numbers.value("runs", "given_up", row):
            continue
        loads = group.get(run.casefold(), [])
        lots = [str(cells["lot"][each] or cells["again"][each]) for each in loads
                if cells["weight_out"][each] is None]  # fmt: skip
        what = f"no dry weight for {', '.join(lots)}" if lots else "no wet weight"
        yield f"run {run}: {what if loads else 'no loads'}", record(season, "runs", row)


def _lots(season: Season, numbers: Numbers) -> Iterator[tuple[str, str]]:
    """Lots of which something waits."""
    lots = numbers.book.tables["lots"]
    for row, lot in _marked(numbers, lots, "some_waiting"):
        waiting = shown(
            numbers.value("lots", "waiting", row), lots.kind_of("waiting"), numbers.slots
        )
        product = numbers.value("lots", "product", row)
        yield f"lot {lot}: {waiting} of {product} to be dried", record(season, "lots", row)


def _unwritten(season: Season, numbers: Numbers, check: Definition) -> Iterator[tuple[str, str]]:
    """Records that lack something, as a check says it."""
    table = check.table
    what = f"{check.doc[0].lower()}{check.doc[1:].rstrip('.')}"
    do = f"{check.do[0].lower()}{check.do[1:]}"
    for row, key in _marked(numbers, table, check.name):
        yield f"{_named(table, key)}: {what}; {do}", record(season, table.name, row)


def _bulk(numbers: Numbers) -> Iterator[tuple[str, str]]:
    """Products of which some is dried and not packed."""
    products = numbers.book.tables["products"]
    kind = products.kind_of("unpacked")
    for row, product in enumerate(keys(numbers, products)):
        value = numbers.value("products", "unpacked", row)
        if not shows_nothing(value, kind, numbers.slots) and isinstance(value, float) and value > 0:
            yield f"product {product}: {shown(value, kind, numbers.slots)} dried, not packed", ""


def _failing(season: Season, numbers: Numbers, check: Definition) -> Failing:
    table = check.table
    rows: list[tuple[str, str]] = []
    reads = Reads(numbers)
    for row, key in _marked(numbers, table, check.name):
        if table.name == "products":
            rows += _weights_missing(season, numbers, key)
        named = _named(table, key, note_of(numbers, table, row))
        where = record(season, table.name, row)
        lines = _lines(season, reads.of(Cell(table, check.name, row)), where)
        both = f", lines {' and '.join(map(str, lines))}" if len(lines) > 1 else ""
        rows.append((f"{named}{both}", where))
        if (table.name, check.name) == ("packs", "used_above_count"):
            rows += _taken(season, numbers, row)
    return Failing(check, tuple(rows))


def _lines(season: Season, reads: Sequence[Read], where: str) -> list[int]:
    """The lines of the record's file that a check holds against each other."""
    places = (given_at(season, each) for each in reads if isinstance(each, Cell))
    own = (each for each in places if each and where.startswith(f"{each.file}:"))
    return sorted({place.line for place in own if place.line})


def _taken(season: Season, numbers: Numbers, pack: int) -> Iterator[tuple[str, str]]:
    """What took of a pack, by its row: where more was used than was there, one of these is the
    slip."""
    for name, number in (("uses", "containers"), ("market_packs", "took")):
        table = numbers.book.tables[name]
        for row, its in enumerate(numbers.found(table, "pack")):
            taken = numbers.value(name, number, row)
            if its == pack and taken:
                one = _named(table, str(numbers.value(name, "key", row)))
                yield f"{one}: {taken:g}", record(season, name, row)


def _weights_missing(season: Season, numbers: Numbers, product: str) -> Iterator[tuple[str, str]]:
    """Loads of a product that lack a weight: what is wrong with the product may come of that."""
    cells = numbers.cells["loads"]
    for row, key in enumerate(cells["key"]):
        own = str(cells["product"][row] or "").casefold() == product.casefold()
        if own and not cells["given_up"][row]:
            for name, what in (("weight_in", "wet"), ("weight_out", "dry")):
                if cells[name][row] is None:
                    yield f"load {key}: no {what} weight", record(season, "loads", row)


def note_of(numbers: Numbers, table: Table, row: int) -> str:
    """The note that its maker wrote beside a record."""
    return str(numbers.cells[table.name]["note"][row] or "") if "note" in table.inputs else ""


def _marked(numbers: Numbers, table: Table, name: str) -> Iterator[tuple[int, str]]:
    column = numbers.cells[table.name][name]
    for row, key in enumerate(keys(numbers, table)):
        if column[row]:
            yield row, key


def _named(table: Table, key: str, note: str = "") -> str:
    name = table.one if table.single else f"{table.one} {key}"
    return f"{name} ({note})" if note else name
