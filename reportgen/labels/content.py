"""What stands on the label of one pack, all of it as text in the reader's language."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from reportgen.algebra.numbers import Numbers
from reportgen.labels.choose import DOUBTFUL, NOT_NAMED, NOT_SHOWN, Chosen, loads_of
from reportgen.labels.code import trace
from reportgen.labels.texts import Speech
from reportgen.labels.weight import CUSTOMARY, about, declare
from reportgen.marks import seen
from reportgen.model.season import Season
from reportgen.report.made_of import MadeOf, made_of
from reportgen.units.days import date_of


@dataclass(frozen=True)
class Line:
    """A paragraph: what it is and what it says. A ``blank`` is ruled, to be filled in by hand."""

    kind: Literal["plain", "warning", "blank"]
    head: str
    text: str = ""
    figure: str = ""
    """The figure in it, as ``packs.best_by``."""


@dataclass(frozen=True)
class Label:
    """``beside`` stands next to the code, ``below`` across the label; the net weight at the foot.
    A ``short`` label has everything next to the code."""

    pack: str
    name: str
    form: str
    net: str
    beside: tuple[Line, ...]
    below: tuple[Line, ...]
    code: str
    code_text: str
    """What a screen reader says of the code."""
    short: bool


def label(
    season: Season, numbers: Numbers, chosen: Chosen, speech: Speech, short: bool = False
) -> Label:
    """The label of a pack."""
    made = _Content(season, numbers, chosen, speech)
    warnings, rest = tuple(made.warnings()), tuple(made.rest())
    allergens = tuple(made.allergens())
    if short:
        beside = (*made.dates(), *warnings, *(a for a in allergens if a.text != speech("none_named")
                                              and a.kind != "blank"))  # fmt: skip
    else:
        beside = (*made.dates(), *warnings)
    return Label(
        made.pack,
        made.text("name") or made.product,
        "" if made.of.bought else speech("freeze_dried"),
        made.net(),
        beside,
        () if short else (*made.ingredients(), *allergens, *rest, *made.maker()),
        made.code(),
        speech("code", pack=made.pack),
        short,
    )


class _Content:
    def __init__(self, season: Season, numbers: Numbers, chosen: Chosen, speech: Speech) -> None:
        self.season, self.numbers, self.chosen, self.speech = season, numbers, chosen, speech
        row = numbers.found(numbers.book.tables["packs"], "product")[chosen.row]
        assert row is not None, "a pack's product is checked on reading"
        self.product_row = row
        self.product = str(numbers.value("products", "key", row))
        self.pack = str(numbers.value("packs", "key", chosen.row))
        self.of = made_of(season, numbers, [chosen.row])

    def text(self, name: str) -> str:
        """A text of the product data; empty where there is none."""
        return _one_line(self.numbers.value("products", name, self.product_row))

    def _number(self, name: str) -> float | None:
        value = self.numbers.value("packs", name, self.chosen.row)
        return float(value) if isinstance(value, int | float) else None

    def _day(self, name: str) -> int | None:
        """A day of the pack; a best-by day is cut to the whole day, never put later."""
        days = self._number(name)
        return None if days is None else int(days)

    def net(self) -> str:
        """The net weight in both systems."""
        net = self._number("net")
        assert net is not None, "packs without one are not chosen"
        return self.speech.net(declare(net, self.season.dried), self.season.dried in CUSTOMARY)

    def dates(self) -> Iterator[Line]:
        """Pack, packed on, best by; food that may not be dry has no day up to which it keeps."""
        say = self.speech
        packed, best = self._day("date"), self._day("best_by")
        if packed is None:
            yield Line("plain", say("pack"), self.pack)
            yield Line("blank", say("packed_on"))
        else:
            yield Line(
                "plain",
                say("pack"),
                f"{self.pack}, {say('packed')} {say.day(packed)}",
                "packs.date",
            )
        if self.chosen.dryness == DOUBTFUL:
            return
        if best is None:
            yield Line("blank", say("best_by"))
        else:
            by_maker = self._number("keeps_by_maker") is not None
            said = say("best_by_maker" if by_maker else "best_by_if", day=say.day(best))
            yield Line("plain", say("best_by"), said, "packs.best_by")

    def warnings(self) -> Iterator[Line]:
        """What whoever opens it must know first."""
        past = self.numbers.value("packs", "past_best_by", self.chosen.row)
        yield from warnings_of(self.of, self.chosen.dryness, self.speech, bool(past))

    def ingredients(self) -> Iterator[Line]:
        """As the product data names them; else, of a mix, its parts from the heaviest down."""
        text = self.text("ingredients") or ", ".join(map(_one_line, self.of.ingredients))
        yield Line("plain" if text else "blank", self.speech("ingredients"), text)

    def allergens(self) -> Iterator[Line]:
        """As the product data names them; where it says nothing, room to write."""
        return allergens_of(self.of, self.speech)

    def rest(self) -> Iterator[Line]:
        """How to bring it back, and how to keep it."""
        water = self._water()
        use = " ".join(filter(None, (self.text("rehydrate"), water)))
        if use:
            yield Line("plain", self.speech("use"), use, "packs.water_to_add" if water else "")
        if self.text("storage"):
            yield Line("plain", self.speech("keep"), self.text("storage"))

    def _water(self) -> str:
        """Water for what one container holds, in both systems."""
        water, unit = self._number("water_to_add"), self.season.fresh
        if water is None or water <= 0:
            return ""
        pounds, kilograms = about(water, unit, "lb"), about(water, unit, "kg")
        said = [
            self.speech.weight(pounds, "lb")
            if pounds >= 1
            else self.speech.weight(about(water, unit, "oz"), "oz"),
            self.speech.weight(kilograms, "kg")
            if kilograms >= 1
            else self.speech.weight(about(water, unit, "g"), "g"),
        ]
        first, second = said if unit in CUSTOMARY else reversed(said)
        return self.speech("water", first=first, second=second)

    def maker(self) -> Iterator[Line]:
        """Who made it, in the season's own words; where something is missing, room for it."""
        values = self.season.tables["maker"].values
        name, address, permit, statement = (
            _one_line(values[each][0]) for each in ("name", "address", "permit", "statement")
        )
        made_by = ", ".join(filter(None, (name, address)))
        yield Line("plain" if name and address else "blank", self.speech("maker"), made_by)
        if permit:
            yield Line("plain", self.speech("permit"), permit)
        if statement:
            yield Line("plain", "", statement)
        if not (permit and statement):
            yield Line("blank", self.speech("law"))
            yield Line("blank", "")

    def code(self) -> str:
        """What the code says: the pack, its day, its runs and lots."""
        packed = self._day("date")
        cells = self.numbers.cells["loads"]
        loads = loads_of(self.numbers, self.chosen.row)
        return trace(
            self.season.name,
            self.pack,
            "" if packed is None else date_of(packed).isoformat(),
            list(dict.fromkeys(str(cells["run"][load]) for load in loads)),
            list(dict.fromkeys(str(cells["lot"][load]) for load in loads if cells["lot"][load])),
        )


def warnings_of(of: MadeOf, dryness: str, speech: Speech, past: bool = False) -> Iterator[Line]:
    """What must be known first of food that is dry as said, and may be past its day."""
    names = {DOUBTFUL: "doubtful", NOT_SHOWN: "not_shown", NOT_NAMED: "not_recorded"}
    if dryness in names:
        yield Line("warning", speech(names[dryness]))
    if past:
        yield Line("warning", speech("past_best_by"))
    if of.cook:
        yield Line("warning", speech("cook"))


def allergens_of(of: MadeOf, speech: Speech) -> Iterator[Line]:
    """The allergens of all that is in it; of what nobody wrote them of, that they are not known,
    and room to write."""
    if of.allergens:
        yield Line("plain", speech("contains"), ", ".join(map(_one_line, of.allergens)))
    elif not of.unknown:
        yield Line("plain", speech("allergens"), speech("none_named"))
    if of.unknown and of.mixed:
        items = ", ".join(map(_one_line, of.unknown))
        yield Line("warning", speech("allergens_unknown", items=items))
    if of.unknown:
        yield Line("blank", speech("allergens"))


def _one_line(value: object) -> str:
    """A text without line breaks and control characters; empty for what is unknown."""
    text = "" if value is None else seen(str(value))
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())
