"""The fixed words of a label in one language, and numbers and days as the place writes them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from reportgen.labels.weight import Declared

SECTION = "on_label."
"""Where a label's words stand in the catalogue of texts."""


@dataclass(frozen=True)
class Speech:
    """``speech("best_by", day=...)`` is the text of that name with its holes filled."""

    language: str
    texts: Mapping[str, str]
    number: Callable[[Decimal], str]
    day: Callable[[float], str]
    """Takes a day as a spreadsheet counts."""

    def __call__(self, name: str, **parts: str) -> str:
        """The text of a name."""
        return self.texts[name].format(**parts)

    def weight(self, number: Decimal, unit: str) -> str:
        """``11.2 oz``, held together on one line."""
        return f"{self.number(number)}\N{NO-BREAK SPACE}{unit}"

    def net(self, declared: Declared, customary: bool) -> str:
        """The declaration of a net weight; ``customary``: ounces come first."""
        ounces = self.weight(declared.ounces, "oz")
        metric = self.weight(declared.metric, "kg" if declared.in_kg else "g")
        pounds = self.weight(Decimal(declared.pounds), "lb")
        if declared.rest:
            pounds += f" {self.weight(declared.rest, 'oz')}"
        if declared.dual:
            first = f"{ounces} ({pounds}) {metric}"
            second = f"{metric} ({ounces}, {pounds})"
        else:
            whole = pounds if declared.pounds else ounces
            first, second = f"{whole} ({metric})", f"{metric} ({whole})"
        return self("net", weight=first if customary else second)
