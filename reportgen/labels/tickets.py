"""A price list to hang up, and a ticket for each size on the shelf, with price and unit price.

Unit prices: Directive 98/6/EC, article 2 (b), read in a quotation: the final price, value-added tax
and all other taxes in it, for one kilogram, or another single quantity that is customary. Uniform
Unit Pricing Regulation (NIST Handbook 130, 2014), section 2 (a), read in a quotation: for what is
sold by weight the kilogram or 100 g, or the pound or ounce, the same for all sizes of a commodity.
ISO 21041:2018: located, not read. Which unit a place asks for is for whoever prints to say.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Kind
from reportgen.labels.choose import DOUBTFUL, NOT_NAMED, NOT_SHOWN
from reportgen.labels.content import Line, allergens_of, warnings_of
from reportgen.labels.texts import Speech
from reportgen.labels.weight import CUSTOMARY, declare
from reportgen.model.season import Season
from reportgen.report.made_of import made_of
from reportgen.units import MONEY, Unit, factor
from reportgen.write import html

TEMPLATE = "prices.html.j2"
SECTION = "on_list."
"""Where the words of list and tickets stand in the catalogue of texts."""
PRICE = Kind("number", MONEY)
"""What a price is, for whoever writes it as the place does."""
UNITS: dict[str, tuple[int, str]] = {
    "lb": (1, "lb"), "oz": (1, "oz"), "kg": (1, "kg"), "100g": (100, "g"),
}  # fmt: skip
"""What a unit price may be for: so much of a unit."""


@dataclass(frozen=True)
class Ticket:
    """One size on the shelf."""

    key: str
    name: str
    container: str
    kind: str
    """Freeze-dried, where nothing in it was bought, and its container."""
    net: str
    price: str
    unit_price: str
    lines: tuple[Line, ...]
    weight: float
    """By which the sizes of a product are in order, the largest first."""


@dataclass(frozen=True)
class PriceList:
    """What the template reads."""

    language: str
    title: str
    maker: str
    subtitle: str
    tax: str
    doubt: str
    texts: dict[str, str]
    tickets: tuple[Ticket, ...]
    letter: bool


def tickets(
    season: Season,
    numbers: Numbers,
    channel: str,
    unit: str,
    money: Callable[[float], str],
    speech: Speech,
) -> tuple[list[Ticket], list[str], list[str]]:
    """The sizes that may be offered, with a price in the channel; what is left out for want of
    something, and what because its day is past."""
    made: list[Ticket] = []
    lacking: list[str] = []
    past: list[str] = []
    for row, its in enumerate(numbers.cells["price_list"]["channel"]):
        if str(its).casefold() != channel.casefold():
            continue
        priced = numbers.found(numbers.book.tables["price_list"], "priced")[row]
        assert priced is not None
        key = str(numbers.value("prices", "key", priced))
        offered = []
        for pack in _on_shelf(numbers, key):
            called = f"pack {numbers.value('packs', 'key', pack)} ({key})"
            if numbers.value("packs", "dryness", pack) == DOUBTFUL:
                lacking.append(
                    f"{called} may not be dry: open it, dry it again and show that it is dry"
                )
            elif numbers.value("packs", "past_best_by", pack):
                past.append(f"{called} is past its best-by day: keep it apart from what is sold")
            else:
                offered.append(pack)
        if not offered:
            continue
        if isinstance(numbers.value("price_list", "price", row), int | float):
            made.append(_ticket(season, numbers, row, priced, offered, unit, money, speech))
        else:
            lacking.append(f"{key} has no price: write what you ask after asked:")
    return sorted(made, key=lambda each: (each.name.casefold(), -each.weight)), lacking, past


def _on_shelf(numbers: Numbers, key: str) -> Iterator[int]:
    """The packs of a size that are on the shelf."""
    cells = numbers.cells["packs"]
    for row, its in enumerate(cells["priced_as"]):
        on_hand = cells["on_hand"][row]
        there = isinstance(on_hand, int | float) and on_hand > 0
        if there and str(its).casefold() == key.casefold():
            yield row


def _ticket(
    season: Season,
    numbers: Numbers,
    row: int,
    priced: int,
    shelf: list[int],
    unit: str,
    money: Callable[[float], str],
    speech: Speech,
) -> Ticket:
    prices = numbers.book.tables["prices"]
    product = numbers.found(prices, "product")[priced]
    container = numbers.found(prices, "container")[priced]
    assert product is not None and container is not None
    net = numbers.value("prices", "net", priced)
    price, by_weight = (numbers.value("price_list", n, row) for n in ("price", "unit_price"))
    assert isinstance(net, float) and isinstance(price, float) and isinstance(by_weight, float)
    amount, of = UNITS[unit]
    by_unit = by_weight * amount * float(factor(Unit.of(of), Unit.of(season.dried)))
    said = f"{amount} {of}" if amount > 1 else of
    dryness = {str(numbers.value("packs", "dryness", pack) or NOT_SHOWN) for pack in shelf}
    worst = next((each for each in (NOT_SHOWN, NOT_NAMED) if each in dryness), "")
    name = numbers.value("products", "name", product) or numbers.value("products", "key", product)
    sort = numbers.value("containers", "name", container)
    made = made_of(season, numbers, shelf)
    packed_in = str(sort or numbers.value("containers", "key", container))
    return Ticket(
        str(numbers.value("prices", "key", priced)),
        str(name),
        packed_in,
        packed_in if made.bought else f"{speech('freeze_dried')}, {packed_in}",
        speech.net(declare(net, season.dried), season.dried in CUSTOMARY),
        money(price),
        speech("by_unit", price=money(by_unit), unit=said),
        (
            *warnings_of(made, worst, speech),
            *allergens_of(made, speech),
        ),
        net,
    )


def render(
    folder: Path,
    season: Season,
    made: list[Ticket],
    speech: Speech,
    channel: str,
    day: str,
    tax: str,
    doubt: str,
) -> bytes:
    """List and tickets as one page to print."""
    maker = season.tables["maker"].values
    known = [str(maker[name][0]) for name in ("name", "address", "permit") if maker[name][0]]
    content = PriceList(
        speech.language,
        speech("list_title"),
        ", ".join(known) or season.name,
        speech("list_day", day=day, channel=channel),
        speech("tax_in", tax=tax) if tax else "",
        doubt,
        {k: v for k, v in speech.texts.items()},
        tuple(made),
        season.slots["distance"] == "mile",
    )
    return html.render(folder, TEMPLATE, content)
