"""The page of a season: what it gave and cost, how sure that is, and what to do next."""

from __future__ import annotations

from collections.abc import Iterator

from reportgen.handout.content import Card, Figure, Grid, Item, SeasonPage, Sentence, Todo
from reportgen.handout.costing_groups import PARTS, names
from reportgen.handout.gather import Gather
from reportgen.handout.pictures import against_shops, made_of, market_days, power
from reportgen.report.verdicts import failing, still_open
from reportgen.texts import ENGLISH

CAUTIONS = 6
"""The general cautions of the catalogue, ``cautions.1`` and on."""
_SEASON = (
    "spent", "running_cost", "full_cost", "saving_taken", "saving_on_hand", "saving", "revenue",
    "profit", "money_in", "money_out", "paid_beyond_spent", "money_left",
    "estimated_share", "dried", "packed",
)  # fmt: skip
_CARD = (
    "dried", "packed_good", "running_per_packed", "full_per_packed", "retail_median",
    "running_to_retail", "saving_taken", "saving_on_hand",
)  # fmt: skip
_MIXED_CARD = ("mixes_out", "running_mixed", "full_mixed", "retail_median")
"""The same of what is only mixed."""
_GRIDS = {
    "eat": (
        "eat_first",
        ("what", "container", "net", "on_hand", "best_by", "days_left", "best_by_basis",
         "pack_dryness"),
    ),
    "cost": ("products", names(*PARTS)),
    "kept": (
        "products",
        ("sold_weight", "kept_taken", "kept_on_hand", "instead", "kept_cost",
         "saving_taken", "saving_on_hand"),
    ),
    "worth": (
        "worth_drying",
        ("earned", "machine_hours", "earned_per_machine_hour", "earned_per_run", "earned_per_hour"),
    ),
    "sure": (
        "products",
        ("running_per_packed", "running_per_packed_u", "estimated_share", "worth_measuring"),
    ),
    "prices": (
        "prices",
        ("container", "net", "on_hand", "running_each", "full_each", "price_floor", "price_asked",
         "retail_equivalent"),
    ),
    "markets": (
        "markets",
        ("day", "packs_sold", "expected", "takings", "difference", "left",
         "left_per_hour", "left_full"),
    ),
    "counts": (
        "counts",
        ("date", "pack", "counted", "product", "weight", "missing", "missing_weight", "cost"),
    ),
    "shelf": ("packs", ("product", "container", "net", "on_hand", "date", "best_by", "dryness")),
    "plan": (
        "plan",
        ("container", "count", "count_left", "buy_weight", "buy_count", "runs_needed", "finish",
         "running_needed"),
    ),
    "payback": (
        "dryers",
        ("runs_done", "hours_run", "saving_per_run", "payback_left", "payback_date",
         "payback_word", "payback_without", "payback_before"),
    ),
}  # fmt: skip
"""The tables below the pictures: which table, which quantities."""
_IF_WRITTEN = {
    "prices": ("asked", ("asked", "asked_to_floor")),
    "plan": ("goes", ("begin", "runs_fit", "runs_over", "weight_over")),
}
"""Of a table, a quantity, and what stands there as well where any row has it."""
_PLACED = {"eat_first": "pack", "worth_drying": "called"}
"""Lists of places: what each place is headed by, where it is taken."""
_MOST = 40
"""Open items that are listed; past them only how many more there are."""
_FEW = 6
"""Rows that are named where a check fails."""


def season_page(gather: Gather) -> SeasonPage:
    """All that the page of a season shows."""
    texts = gather.texts
    products = rows_of(gather, "products")
    verdict, language = texts.said(str(gather.numbers.value("season", "verdict_of_all")))
    tables = {name: _grid(gather, name) for name in _GRIDS}
    days = rows_of(gather, "markets")
    pictures = (against_shops(gather, products), made_of(gather, products)) if products else ()
    return SeasonPage(
        language=texts.language,
        title=gather.season.name,
        subtitle=subtitle(gather),
        verdict=Item(verdict, language=language),
        good=not gather.numbers.value("season", "errors"),
        cautions=cautions(gather),
        terms=tuple(gather.term("season", name) for name in _SEASON),
        cards=tuple(_card(gather, row, name) for row, name in products),
        pictures=(*pictures, market_days(gather, days)) if days else pictures,
        power=power(gather),
        grids=tuple(each for each in tables.values() if each.rows),
        todos=tuple(_todos(gather)),
        texts=texts.all,
    )


def subtitle(gather: Gather) -> str:
    """Up to which day it was recorded."""
    day = gather.figure("season", "as_of").text
    return gather.texts["page.subtitle"].replace("{day}", day)


def cautions(gather: Gather) -> tuple[str, ...]:
    """What stands before all else: where the food can hurt someone."""
    return tuple(gather.texts[f"cautions.{n}"] for n in range(1, CAUTIONS + 1))


def rows_of(gather: Gather, table: str) -> list[tuple[int, str]]:
    """Each row's number with its head: its name, its product's, else its id."""
    keys = gather.keys(table)
    found = gather.table(table)
    if table in ("prices", "plan"):
        named = [str(each) for each in gather.numbers.cells[table]["product"]]
        found_rows = [(row, gather.name_of("products", each)) for row, each in enumerate(named)]
        if table == "plan":
            return found_rows
        # A product's packs stand together, the products in the order of the other tables.
        order = {each.casefold(): n for n, each in enumerate(gather.keys("products"))}
        return sorted(
            found_rows, key=lambda found: order.get(named[found[0]].casefold(), len(order))
        )
    if table in _PLACED:
        heads = gather.numbers.cells[table][_PLACED[table]]
        return [(row, str(head)) for row, head in enumerate(heads) if head]
    if "name" in found.inputs:
        return [(row, gather.name_of(table, key)) for row, key in enumerate(keys)]
    return list(enumerate(keys))


def sentence(gather: Gather, row: int) -> Sentence:
    """A product in a sentence: its cost by weight, against the shops, and how sure."""
    if _only_mixed(gather, row):
        cost = gather.figure("products", "running_mixed", row)
        known = "known" if cost.known else "unknown"
        return (*gather.texts.fill(f"sentence.mixed_{known}", cost=cost), ".")
    figures = {
        "cost": gather.figure("products", "running_per_packed", row),
        "to_shops": gather.figure("products", "running_to_retail", row),
        "estimated": gather.figure("products", "estimated_share", row),
    }
    said: list[str | Figure] = []
    for name, figure in figures.items():
        known = "known" if figure.known else "unknown"
        said += [gather.texts["sentence.joint"] + " "] if said else []
        said += gather.texts.fill(f"sentence.{name}_{known}", **{name: figure})
        if name == "cost" and not figure.known:
            break
    return (*said, ".")


def _only_mixed(gather: Gather, row: int) -> bool:
    """Whether a product came out of mixes and none of it was dried."""
    return bool(gather.numbers.value("products", "only_mixed", row))


def _card(gather: Gather, row: int, name: str) -> Card:
    mixed = _only_mixed(gather, row)
    return Card(
        f"product-{gather.keys('products')[row]}",
        name,
        gather.figure("products", "running_mixed" if mixed else "running_per_packed", row),
        sentence(gather, row),
        tuple(gather.term("products", each, row) for each in (_MIXED_CARD if mixed else _CARD)),
    )


def _grid(gather: Gather, name: str) -> Grid:
    table, names = _GRIDS[name]
    if name in _IF_WRITTEN:
        what, more = _IF_WRITTEN[name]
        names = (*names, *more) if any(gather.numbers.cells[table][what]) else names
    return gather.grid(name, table, names, rows_of(gather, table))


def _todos(gather: Gather) -> Iterator[Todo]:
    """What to look at, and what is still open."""
    texts = gather.texts
    said_in = "" if texts.language == ENGLISH else ENGLISH
    listed = []
    for each in failing(gather.season, gather.numbers):
        what, language = texts.said(each.check.doc)
        do = texts.said(each.check.do)[0]
        names = ", ".join(name for name, _ in each.rows[:_FEW])
        more = len(each.rows) - _FEW
        where = f"{names}, +{more}" if more > 0 else names
        listed.append(Item(what, where, do, language))
    if listed:
        yield Todo(texts["todo.failing"], tuple(listed))
    opened = [
        Item(what, place, language=said_in)
        for kind in still_open(gather.season, gather.numbers)
        for what, place in kind
    ]
    if opened:
        more = len(opened) - _MOST
        rest = [Item(f"+{more}")] if more > 0 else []
        yield Todo(texts["todo.open"], (*opened[:_MOST], *rest))
