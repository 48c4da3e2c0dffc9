"""Rows that follow from the records of other tables: which prices, outcomes, needs and steps there
are. Which rows, not what is in them: that is worked out by definitions."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from reportgen.algebra.book import Book
from reportgen.algebra.numbers import Cells
from reportgen.algebra.operations import Value, as_text, num
from reportgen.model.fields import placed
from reportgen.model.notebook import PLACES
from reportgen.model.tariff import windows_of
from reportgen.trade.constants import AT_A_GLANCE
from reportgen.trade.drivers import DRIVERS
from reportgen.trade.trace_rows import Tables, load_key, records, steps
from reportgen.trade.verdict import typed_inputs

_MOST_WEEKS = 26
"""Weeks of a dryer that are listed: half a year."""
_CHANGE = 0.10
"""The share by which each driver is changed until someone types another."""


def follow(book: Book, tables: Tables) -> dict[str, Cells]:
    """The rows of every table that no record is written for."""
    found = {name: made(tables) for name, made in _MAKERS.items()}
    return {**found, **of_book(book)}


def _positions(what: str, count: int) -> list[Value]:
    return [placed(what, n) for n in range(1, count + 1)]


def _prices(tables: Tables) -> Cells:
    rows: dict[tuple[str, ...], tuple[Value, ...]] = {}
    sized = (each for name in ("packs", "asking", "plan") for each in records(tables[name]))
    for each in sized:
        product, container, net = each["product"], each["container"], each["net"]
        if product and container and net is not None:
            name = (str(product).casefold(), str(container).casefold(), as_text(net))
            rows.setdefault(name, (product, container, net))
    columns = list(zip(*rows.values(), strict=True)) or [(), (), ()]
    return {"product": [*columns[0]], "container": [*columns[1]], "net": [*columns[2]]}


def _price_list(tables: Tables) -> Cells:
    sizes = len(_prices(tables)["net"])
    pairs = [(c, n) for c in tables["channels"]["key"] for n in range(1, sizes + 1)]
    return {"channel": [c for c, _ in pairs], "place": [n for _, n in pairs]}


def _scenarios(tables: Tables) -> Cells:
    pairs = [(c, p) for c in tables["changes"]["key"] for p in tables["products"]["key"]]
    return {"scenario": [c for c, _ in pairs], "product": [p for _, p in pairs]}


def _absorber_needs(tables: Tables) -> Cells:
    pairs = [(p, a) for p in tables["packs"]["key"] for a in tables["absorbers"]["key"]]
    return {
        "key": _positions("need", len(pairs)),
        "pack": [p for p, _ in pairs],
        "absorber": [a for _, a in pairs],
    }


def _trace(tables: Tables) -> Cells:
    found = steps(tables)
    return {
        "key": _positions("trace", len(found)),
        **{
            name: [getattr(step, name) for step in found]
            for name in ("pack", "draw", "part", "item", "load")
        },
        "recalled": [step.lot and f"{step.lot}/{step.pack}" for step in found],
    }


def _recall(tables: Tables) -> Cells:
    """The same, lot by lot, each pack once."""
    found = dict.fromkeys((step.lot, step.pack) for step in steps(tables) if step.lot)
    order = {lot: n for n, lot in enumerate(tables["lots"]["key"])}
    pairs = sorted(found, key=lambda pair: order[pair[0]])
    return {"lot": [lot for lot, _ in pairs], "pack": [pack for _, pack in pairs]}


def _rest_steps(tables: Tables) -> Cells:
    """For each use that took all that was left, what may have moved the bulk of its product: its
    loads, its packs and its uses, itself among them."""
    product_of = dict(zip(tables["lots"]["key"], tables["lots"]["product"], strict=True))
    moves: dict[Value, list[tuple[Value, Value, Value, Value]]] = {}
    for load in records(tables["loads"]):
        move = (load_key(load), None, None, None)
        moves.setdefault(product_of.get(load["lot"]), []).append(move)
    for pack in records(tables["packs"]):
        moves.setdefault(pack["product"], []).append((None, pack["key"], None, None))
    for part in records(tables["mix_parts"]):
        if part["product"]:
            moves.setdefault(part["product"], []).append((None, None, part["key"], None))
    for use in records(tables["uses"]):
        if use["product"]:
            moves.setdefault(use["product"], []).append((None, None, None, use["key"]))
    steps = [
        (use["key"], *move)
        for use in records(tables["uses"])
        if use["rest"]
        for move in moves[use["product"]]
    ]
    return {
        "key": _positions("rest", len(steps)),
        "taken": [taken for taken, *_ in steps],
        "load": [load for _, load, _, _, _ in steps],
        "pack": [pack for _, _, pack, _, _ in steps],
        "part": [part for _, _, _, part, _ in steps],
        "other": [other for *_, other in steps],
    }


def _queue(tables: Tables) -> Cells:
    keys = tables["plan"]["key"]
    pairs = [(n, m) for n in range(len(keys)) for m in range(len(keys))]
    return {
        "key": _positions("queue", len(pairs)),
        "position": [keys[n] for n, _ in pairs],
        "before": [keys[m] for _, m in pairs],
        "written_before": [m <= n for n, m in pairs],
    }


def _weeks(tables: Tables) -> Cells:
    """The weeks of each dryer in the plan, by fours, to four after its last day and half a year at
    most; none where nothing is gone some day or closed some time."""
    plan, closed = tables["plan"], tables["closed"]
    starts = [num(day) for day in plan["start"] if day is not None]
    ends = [num(day) for day in (*plan["until"], *closed["to_day"]) if day is not None]
    wanted = bool(starts and (closed["key"] or any(day is not None for day in plan["until"])))
    fours = int((max([*starts, *ends]) - min(starts)) // 28) + 2 if wanted else 0
    weeks = min(4 * fours, _MOST_WEEKS)
    dryers = dict.fromkeys(d for d in (*plan["dryer"], *closed["dryer"]) if d)
    rows: list[tuple[Value, int]] = [
        (dryer, n)
        for dryer in (tables["dryers"]["key"] if wanted else ())
        if dryer in dryers
        for n in range(1, weeks + 2)
    ]
    return {
        "key": _positions("week", len(rows)),
        "dryer": [dryer for dryer, _ in rows],
        "number": [n for _, n in rows],
        "next": [placed("week", at) if n <= weeks else None for at, (_, n) in enumerate(rows, 2)],
    }


def _drivers(tables: Tables) -> Cells:
    return {
        "key": _positions("driver", len(DRIVERS)),
        "group": ["season"] * len(DRIVERS),
        "what": list(DRIVERS),
        "change": [_CHANGE] * len(DRIVERS),
    }


def _ranking(tables: Tables) -> Cells:
    places = range(1, len(DRIVERS) + 1)
    return {"key": _positions("place", len(places)), "place": [*places]}


def _worth_drying(tables: Tables) -> Cells:
    """A place for each product."""
    places = range(1, len(tables["products"]["key"]) + 1)
    return {"key": _positions("worth", len(places)), "place": [*places]}


def _worth_mixing(tables: Tables) -> Cells:
    """A place for each mix."""
    places = range(1, len(tables["mixes"]["key"]) + 1)
    return {"key": _positions("worth", len(places)), "place": [*places]}


def _windows(tables: Tables) -> Cells:
    """The stretches of a week, from Saturday 0:00, in which one period of the tariff holds."""
    written = list(records(tables["periods"]))
    found = windows_of([_texts(each, "key", "from_clock", "to_clock", "days") for each in written])
    periods = {period["key"]: period for period in written}
    rows = [periods[key] for key, _, _ in found]
    return {
        "key": _positions("window", len(found)),
        "period": [key for key, _, _ in found],
        "begin": [begin for _, begin, _ in found],
        "end": [end for _, _, end in found],
        "from_built": [row["from_clock"] for row in rows],
        "to_built": [row["to_clock"] for row in rows],
        "days_built": [row["days"] for row in rows],
    }


def _texts(record: Mapping[str, Value], *names: str) -> tuple[str, ...]:
    return tuple(str(record[name] or "") for name in names)


def _eat_first(tables: Tables) -> Cells:
    """A place for each pack, as many as are read at a glance."""
    places = range(1, min(len(tables["packs"]["key"]), int(AT_A_GLANCE.value)) + 1)
    return {"key": _positions("eat", len(places)), "place": [*places]}


def _notebook(tables: Tables) -> Cells:
    """Nobody writes it in a file: it has free rows only."""
    return {name: [] for name in PLACES}


def of_book(book: Book) -> dict[str, Cells]:
    """The rows that follow from a book itself: one for each check, one for each input that is a
    number."""
    return {"checks": _checks(book), "typed": _typed(book)}


def _typed(book: Book) -> Cells:
    found = typed_inputs(book.tables.values())
    return {
        "key": [f"{table.name}-{each.name}".replace("_", "-") for table, each in found],
        "of": [table.title for table, _ in found],
        "what": [each.head or each.name.replace("_", " ") for _, each in found],
    }


def _checks(book: Book) -> Cells:
    checks = book.checks
    return {
        "key": [f"{c.table.name}-{c.name}".replace("_", "-") for c in checks],
        "of": [c.table.title for c in checks],
        "severity": [c.severity for c in checks],
        "what": [c.doc for c in checks],
        "do": [c.do for c in checks],
        "is_error": [c.severity == "error" for c in checks],
    }


_MAKERS: dict[str, Callable[[Tables], Cells]] = {
    "prices": _prices,
    "price_list": _price_list,
    "scenarios": _scenarios,
    "absorber_needs": _absorber_needs,
    "trace": _trace,
    "recall": _recall,
    "rest_steps": _rest_steps,
    "queue": _queue,
    "weeks": _weeks,
    "drivers": _drivers,
    "ranking": _ranking,
    "worth_drying": _worth_drying,
    "worth_mixing": _worth_mixing,
    "eat_first": _eat_first,
    "windows": _windows,
    "notebook": _notebook,
}
