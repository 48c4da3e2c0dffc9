"""How values are shown: number formats and alignment by what a quantity is."""

from __future__ import annotations

from collections.abc import Mapping

from reportgen.algebra.inputs import Input
from reportgen.algebra.phrases import in_words
from reportgen.algebra.tables import Kind
from reportgen.units import MONEY, Unit

DATE = "yyyy-mm-dd"
MOMENT = "yyyy-mm-dd hh:mm"
YES_NO = '"yes";;"no"'
CHECK = '"look";;"ok"'
TEXT = "@"
"""Of texts that are typed in. A formula in such a cell would turn into its own text when someone
enters it again, so what is worked out has :data:`ANY`."""
ANY = "General"

_DECIMALS = 12
_PLACES = {"lb": 1, "kg": 2, "oz": 1, "g": 0, "kWh": 1, "h": 1, "W": 0, "mL": 0, "d": 0}


def number_format(kind: Kind, slots: Mapping[str, str]) -> str:
    """The number format of a quantity that is worked out."""
    match kind.type:
        case "date":
            return DATE
        case "flag":
            return YES_NO
        case "text":
            return ANY
    if kind.show == "share":
        return "0.0%"
    places = decimal_places(kind, slots)
    if kind.show == "fine":
        least = _plain(0.5 * last_place(places), places + 1)
        return f'[>={least}]{decimals(places)};[=0]0;"{below(places)}"'
    return decimals(places)


def input_format(found: Input, kind: Kind, slots: Mapping[str, str]) -> str:
    """The number format of cells that are typed into."""
    if found.clock:
        return MOMENT
    return TEXT if kind.type == "text" else number_format(kind, slots)


def exact(value: float) -> str:
    """The format that shows all decimals of a constant, and no point without one."""
    written = f"{value:.{_DECIMALS}f}".rstrip("0").partition(".")[2]
    return "0" + ("." + "0" * len(written) if written else "")


def decimals(count: int) -> str:
    """So many decimals, thousands apart."""
    return "#,##0" + ("." + "0" * count if count else "")


def last_place(places: int) -> float:
    """The least that so many decimals tell from nothing, but for rounding: 0.01 of two."""
    return float(10.0**-places)


def below(places: int) -> str:
    """What stands for a number that would round to nothing and is not nothing."""
    return f"<{_plain(last_place(places), places)}"


def too_small(value: float, kind: Kind, slots: Mapping[str, str]) -> bool:
    """Whether a fine number is told by :func:`below`."""
    if kind.show != "fine":
        return False
    return 0 < value < 0.5 * last_place(decimal_places(kind, slots))


def _plain(value: float, places: int) -> str:
    return f"{value:.{places}f}"


def decimal_places(kind: Kind, slots: Mapping[str, str]) -> int:
    """How many decimals a number is shown with, wherever it is; a share in percent."""
    match kind.show:
        case "share":
            return 1
        case "count":
            return 0
        case "fine":
            return _by_unit(kind.unit, slots) + 2
    if kind.of:
        return 1
    return _by_unit(kind.unit, slots)


def _by_unit(unit: Unit, slots: Mapping[str, str]) -> int:
    if len(unit.powers) == 1:
        (name, power) = unit.powers[0]
        shown = slots.get(name, name)
        if power == 1 and shown in _PLACES:
            return _PLACES[shown]
    # Money by weight is compared in cents; by gram it needs more.
    if unit != MONEY and any(n == "money" for n, _ in unit.powers):
        below = [slots.get(n, n) for n, p in unit.powers if p < 0]
        return 4 if "g" in below else 3 if below in (["kWh"], ["mile"], ["km"]) else 2
    return 2


def unit_beside(kind: Kind, slots: Mapping[str, str]) -> str:
    """The unit as it stands beside a number: where its format says it, it is not said again."""
    return "" if kind.show == "share" else unit_text(kind, slots)


def unit_text(kind: Kind, slots: Mapping[str, str]) -> str:
    """The unit as it stands under a header; shares and counts say what they are."""
    if kind.type == "date":
        return "date"
    if kind.type == "flag":
        return "yes or no"
    if kind.type == "text":
        return ""
    if kind.show in ("share", "count"):
        return {"share": "%", "count": "count"}[kind.show]
    return kind.of or in_words(kind.unit, slots) or "ratio"
