"""One input made into another: by tokens, by lines, by characters, by another input."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from random import Random

_TOKEN = re.compile(r"[\w.%/-]+|[^\w\s]")
_NUMBER = re.compile(r"\d+(?:\.\d+)?")

VALUES = (
    "0", "-1", "1e9", "999999999", "0.000001", "1e308", "nan", "inf", "-0", "1/3", "½", "٣", "1,5",
    "~2 oz", "about 3 lb", "0 oz", "1 oz", "1 g", "1 kg", "1000000 lb", "0.1 oz", "1 h", "9999 h",
    "2 min", "0 USD", "0.01 USD", "1000000 USD", "1 EUR", "1 USD/lb", "1 USD/oz", "1 USD/kWh",
    "99 %", "0 %", "100 %", "150 %", "1 run", "1 mile", "2025-09-05", "1990-01-01", "2199-12-31",
    "2025-09-05 18:00", "2025-03-30 02:30", "24:00", "18:30", "true", "false", "null", "TRUE", "",
    "pear-slices", "pears-1", "run-1", "P-1", "jar", "lug", "stall", "household", "crumbs", "porch",
    "{}", "[]", "[1 lb, 2 lb]", "{gross: 9 lb, tare: 1 lb}", "{from: 1 kWh, to: 2 kWh}", "x" * 300,
    "=1+1", "'", '"', "&a", "*a", "!!x", "<<", "?", "|", ">", "%", "@", "`", "\t", "\u202e",
    "\ufeff", "\x00", "\x85", "\u2028", "\ud7ff", "🍐", "e\u0301", "<script>",
    "</style>", "{{ 7 }}", "#REF!",
)  # fmt: skip
KEYS = (
    "lots", "runs", "packs", "uses", "offers", "plan", "trips", "scenarios", "dryers", "containers",
    "pricing", "overheads", "carried_over", "id", "product", "date", "weighed", "prepped", "lost",
    "set_aside", "finished", "water", "wet", "dry", "lot", "again", "loads", "started", "ended",
    "duration", "energy", "meter", "labor", "travel", "trip", "count", "net", "from", "container",
    "price", "for", "pack", "weight", "carried", "dryness", "as_of", "timezone", "locale", "scale",
    "bought", "packed", "run", "resale", "life", "price_step", "margin", "fees", "form", "keeps",
)  # fmt: skip


def mutated(text: str, rng: Random, others: Sequence[str]) -> str:
    """The input changed in one to eight places."""
    for _ in range(rng.choice((1, 1, 1, 2, 2, 3, 5, 8))):
        text = rng.choice(_WAYS)(text, rng, others)[:200_000]
    return text.encode("utf-8", "replace").decode()


def _value(text: str, rng: Random, others: Sequence[str]) -> str:
    return _one(_TOKEN, text, rng, lambda old: rng.choice(VALUES))


def _key(text: str, rng: Random, others: Sequence[str]) -> str:
    return _one(re.compile(r"\w+(?=:)"), text, rng, lambda old: rng.choice(KEYS))


def _number(text: str, rng: Random, others: Sequence[str]) -> str:
    def other(old: str) -> str:
        number = float(old) * rng.choice((0, -1, 0.001, 0.1, 0.5, 0.99, 1.01, 2, 10, 1e3, 1e6))
        return f"{number:.6g}" if abs(number) < 1e6 else f"{number:.0f}"

    return _one(_NUMBER, text, rng, other)


def _one(pattern: re.Pattern[str], text: str, rng: Random, other: Callable[[str], str]) -> str:
    found = list(pattern.finditer(text))
    if not found:
        return text
    at = rng.choice(found)
    return text[: at.start()] + other(at.group()) + text[at.end() :]


def _line(text: str, rng: Random, others: Sequence[str]) -> str:
    lines = text.split("\n")
    at, to = rng.randrange(len(lines)), rng.randrange(len(lines))
    match rng.randrange(5):
        case 0:
            del lines[at]
        case 1:
            lines.insert(to, lines[at])
        case 2:
            lines[at], lines[to] = lines[to], lines[at]
        case 3:
            lines[at] = " " * rng.randrange(8) + lines[at].lstrip()
        case _:
            lines.insert(at, f"{' ' * rng.randrange(6)}{rng.choice(KEYS)}: {rng.choice(VALUES)}")
    return "\n".join(lines)


def _characters(text: str, rng: Random, others: Sequence[str]) -> str:
    at = rng.randrange(len(text) + 1)
    return text[:at] + rng.choice((*VALUES, *"[]{}:,-\n")) + text[at + rng.randrange(12) :]


def _splice(text: str, rng: Random, others: Sequence[str]) -> str:
    lines, more = text.split("\n"), rng.choice(others).split("\n")
    at, start = rng.randrange(len(lines) + 1), rng.randrange(len(more))
    return "\n".join([*lines[:at], *more[start : start + rng.randrange(1, 9)], *lines[at:]])


def _grow(text: str, rng: Random, others: Sequence[str]) -> str:
    lines = text.split("\n")
    at = rng.randrange(len(lines))
    end = at + rng.randrange(1, 6)
    return "\n".join([*lines[:end], *lines[at:end] * rng.choice((1, 9, 99)), *lines[end:]])


_WAYS = (_value, _value, _number, _number, _key, _line, _line, _characters, _splice, _grow)
