"""What must be known before any value is read: currency, units, the season's name."""

from __future__ import annotations

from dataclasses import dataclass, field

from reportgen.model.readers import text_
from reportgen.model.season import slots_of
from reportgen.read.currencies import CURRENCIES
from reportgen.read.near import near, one_of, short
from reportgen.read.nodes import Mapping, Node, Scalar
from reportgen.read.problem import Place, Problem, Refusal
from reportgen.read.zones import Zone

KEYS = ("season", "currency", "locale", "timezone", "units", "as_of")
"""The keys of ``season.yaml`` that are no tables."""

WEIGHTS = ("g", "kg", "oz", "lb")
_ALMOST_A_CODE = 4
"""Letters of a slip of a code, at most."""


@dataclass
class SeasonHead:
    """The season's name, currency, language and the units that weights are shown in."""

    season: str = ""
    currency: str = "USD"
    locale: str = ""
    fresh: str = "kg"
    dried: str = "g"
    zone: Zone = field(default_factory=Zone)

    @property
    def slots(self) -> dict[str, str]:
        """What the slots of the units stand for."""
        return slots_of(self.fresh, self.dried, self.currency)


def read_head(node: Node | None, file: str, problems: list[Problem]) -> SeasonHead:
    """The head from the season's file; what is missing is noted, and guessed for the rest."""
    head = SeasonHead()
    held = node if isinstance(node, Mapping) else Mapping(file, 1, 1, [])
    head.season = _text(held, "season", problems)
    head.locale = _text(held, "locale", problems)
    head.zone = _zone(held, problems)
    currency = _text(held, "currency", problems)
    for key, value, wanted, add in (
        ("season", head.season, "the season's name", "Windrow Lane 2026, or what you call it"),
        ("currency", currency, "a code of ISO 4217", "USD, or that of your country"),
    ):
        if not value and not _broken(held, key):
            problems.append(
                Problem(Place(file, 1), f"the key '{key}' is missing", wanted, f"add {key}: {add}")
            )
    if currency in CURRENCIES:
        head.currency = currency
    elif currency:
        value_node = held.get("currency")
        assert value_node is not None
        # A whole word is like some code by chance alone: dollars are no ARS.
        match = near(currency, sorted(CURRENCIES)) if len(currency) <= _ALMOST_A_CODE else ""
        problems.append(
            Problem(
                value_node.place,
                f"'{short(currency)}' is no currency code",
                "three capitals of ISO 4217, as USD or EUR",
                f"did you mean {match}?" if match else "write the code of yours",
            )
        )
    if head.currency == "USD":
        head.fresh, head.dried = "lb", "oz"
    _units(held, head, problems)
    return head


def _units(held: Mapping, head: SeasonHead, problems: list[Problem]) -> None:
    node = held.get("units")
    if node is None:
        return
    if not isinstance(node, Mapping):
        problems.append(
            Problem(node.place, f"{node.shape} stands here", "units: {fresh: lb, dried: oz}",
                    "write both units")
        )  # fmt: skip
        return
    for key, value in node.entries:
        if key.text not in ("fresh", "dried"):
            match = near(key.text, ("fresh", "dried"))
            problems.append(
                Problem(key.place, f"'{short(key.text)}' is not a key of units", "fresh or dried",
                        f"did you mean {match}?" if match else "delete it")
            )  # fmt: skip
        elif isinstance(value, Scalar) and value.empty:
            continue
        elif not isinstance(value, Scalar) or value.text not in WEIGHTS:
            problems.append(
                Problem(value.place, "weights cannot be shown in this unit", one_of(WEIGHTS),
                        "write one of them")
            )  # fmt: skip
        elif key.text == "fresh":
            head.fresh = value.text
        else:
            head.dried = value.text


def _zone(held: Mapping, problems: list[Problem]) -> Zone:
    name, node = _text(held, "timezone", problems), held.get("timezone")
    try:
        return Zone(name)
    except Refusal as refusal:
        assert node is not None
        problems.append(Problem(node.place, refusal.what, refusal.expected, refusal.do))
        return Zone()


def _broken(held: Mapping, key: str) -> bool:
    node = held.get(key)
    return node is not None and not isinstance(node, Scalar)


def _text(held: Mapping, key: str, problems: list[Problem]) -> str:
    node = held.get(key)
    if node is None:
        return ""
    if not isinstance(node, Scalar):
        problems.append(
            Problem(node.place, f"{node.shape} stands here", "a single value", "write one text")
        )
        return ""
    try:
        return text_(node.text)
    except Refusal as refusal:
        problems.append(Problem(node.place, refusal.what, refusal.expected, refusal.do))
        return ""
