"""Numbers, money, shares and days as a place writes them, by the Unicode CLDR (through Babel)."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal

from babel import Locale, UnknownLocaleError
from babel.dates import format_date
from babel.numbers import format_currency, format_decimal, format_percent

from reportgen.algebra.numbers import Value
from reportgen.algebra.operations import rounded_half_away
from reportgen.algebra.tables import Kind
from reportgen.layout.formats import decimal_places, last_place, too_small
from reportgen.report.show import DIGITS
from reportgen.units import MONEY
from reportgen.units.days import date_of

NARROW = "\N{NO-BREAK SPACE}"
_DECIMALS = re.compile(r"0(\.0+)?")


class UnknownLocale(ValueError):
    """The locale that a season names is none that is known."""


class LocaleFormat:
    """How one place writes values. ``name`` is a locale as ``en-US``; without one, English."""

    def __init__(self, name: str, slots: Mapping[str, str]) -> None:
        try:
            self._locale = Locale.parse((name or "en").replace("_", "-"), sep="-")
        except (ValueError, UnknownLocaleError):
            raise UnknownLocale(name) from None
        self._slots = slots

    @property
    def language(self) -> str:
        """Its language, as ``fr``."""
        return str(self._locale.language)

    def unit(self, kind: Kind) -> str:
        """The unit at the head of a column."""
        if kind.type != "number":
            return ""
        return "%" if kind.show == "share" else kind.unit.text(self._slots, raised=True)

    def bare(self, value: Value, kind: Kind) -> str:
        """A number without its unit, with the decimals that the workbook shows."""
        if kind.type == "number" and isinstance(value, int | float):
            if too_small(value, kind, self._slots):
                return f"<{self.bare(self._least(kind), kind)}"
            share = kind.show == "share"
            shown = _rounded(value * 100 if share else value, decimal_places(kind, self._slots))
            return str(format_decimal(shown, self._pattern(kind), locale=self._locale))
        return self.whole(value, kind)

    def whole(self, value: Value, kind: Kind) -> str:
        """A value with its unit: ``$1.94/oz``, ``12,5 %``, ``Sep 5, 2025``."""
        if kind.type == "date" and isinstance(value, int | float):
            return self.day(value)
        if kind.type != "number" or not isinstance(value, int | float):
            return str(value)
        if too_small(value, kind, self._slots):
            return f"<{self.whole(self._least(kind), kind)}"
        decimals = decimal_places(kind, self._slots)
        if kind.show == "share":
            return self._share(value, decimals)
        shown = _rounded(value, decimals)
        unit = kind.unit.text(self._slots, raised=True)
        money = self._slots["money"]
        if kind.unit == MONEY or unit.startswith(f"{money}/"):
            return self._money(shown, decimals) + unit.removeprefix(money)
        number = self.bare(value, kind)
        return f"{number}{NARROW}{unit}" if unit else number

    def amount(self, value: Value, kind: Kind) -> str:
        """A value with its unit, in enough digits to follow a calculation by hand."""
        if kind.type != "number" or not isinstance(value, int | float):
            return self.whole(value, kind)
        number = Decimal(f"{value * 100 if kind.show == 'share' else value:.{DIGITS}g}")
        unit = self.unit(kind)
        return f"{self.number(number)}{NARROW}{unit}" if unit else self.number(number)

    def number(self, value: Decimal) -> str:
        """A number as it is declared: all its decimals but for zeros at their end."""
        return str(format_decimal(value, locale=self._locale, decimal_quantization=False))

    def day(self, days: float) -> str:
        """A day, counted as a spreadsheet counts, as the place writes it."""
        return str(format_date(date_of(days), "medium", self._locale))

    def _least(self, kind: Kind) -> float:
        return last_place(decimal_places(kind, self._slots))

    def _pattern(self, kind: Kind) -> str:
        whole = str(self._locale.decimal_formats[None].pattern).partition(".")[0]
        decimals = decimal_places(kind, self._slots)
        return f"{whole}.{'0' * decimals}" if decimals else whole

    def _share(self, value: float, places: int) -> str:
        pattern = str(self._locale.percent_formats[None].pattern)
        shown = _rounded(value * 100, places) / 100
        decimals = f"0.{'0' * places}" if places else "0"
        return str(
            format_percent(shown, _DECIMALS.sub(decimals, pattern, count=1), locale=self._locale)
        )

    def _money(self, shown: Decimal, places: int) -> str:
        pattern = str(self._locale.currency_formats["standard"].pattern)
        decimals = f"0.{'0' * places}" if places else "0"
        return str(
            format_currency(
                shown, self._slots["money"], _DECIMALS.sub(decimals, pattern),
                locale=self._locale, currency_digits=False,
            )
        )  # fmt: skip


def _rounded(number: float, places: int) -> Decimal:
    """As the workbook rounds; a zero has no sign."""
    shown = rounded_half_away(number, places)
    return shown if shown else abs(shown)
