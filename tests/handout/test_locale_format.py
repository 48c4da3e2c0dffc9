"""Numbers, money and days as places write them.

Source: the Unicode CLDR's patterns, typed by hand (from memory, not seen); ``test_browser.py`` asks
the browser's own Intl (ICU), which knows nothing of Babel.
"""

from __future__ import annotations

import pytest

from reportgen.algebra.tables import COUNT, DATE, SHARE, Kind
from reportgen.handout.locale_format import LocaleFormat, UnknownLocale
from reportgen.units import DRIED, MONEY

US = {"fresh": "lb", "dried": "oz", "money": "USD", "distance": "mile"}
EU = {"fresh": "kg", "dried": "g", "money": "EUR", "distance": "km"}
GAP, THIN = "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}"
"""CLDR changes its mind on which of them French takes; both hold a number together."""


@pytest.mark.parametrize(
    ("place", "slots", "kind", "value", "whole"),
    [
        ("en-US", US, Kind("number", MONEY), 1234.5, "$1,234.50"),
        ("en-US", US, Kind("number", MONEY), -12.798, "-$12.80"),
        ("en-US", US, Kind("number", MONEY / DRIED), 1.935, "$1.94/oz"),
        ("en-US", US, Kind("number", DRIED), 1170.04, f"1,170.0{GAP}oz"),
        ("en-US", US, SHARE, 0.5705, "57.1%"),
        ("en-US", US, COUNT, 12000.0, "12,000"),
        ("en-US", US, DATE, 45905.0, "Sep 5, 2025"),
        ("", US, Kind("number", MONEY), -0.001, "$0.00"),
        ("fr-FR", EU, Kind("number", MONEY), 1234.5, f"1{THIN}234,50{GAP}€"),
        ("fr-FR", EU, SHARE, 0.5705, f"57,1{THIN}%"),
        ("fr-FR", EU, DATE, 45905.0, "5 sept. 2025"),
        ("de-DE", EU, Kind("number", MONEY), 1234.5, f"1.234,50{GAP}€"),
        ("de-DE", EU, SHARE, 0.5705, f"57,1{GAP}%"),
        ("de-CH", EU, Kind("number", DRIED), 12345.0, f"12’345{GAP}g"),
        ("en-IN", US, Kind("number", MONEY), 1234567.0, "$12,34,567.00"),
    ],
)
def test_values_are_written_as_the_place_does(
    place: str, slots: dict[str, str], kind: Kind, value: float, whole: str
) -> None:
    # CLDR wrote the Swiss separator of thousands as a curly apostrophe up to 47, straight after it.
    said = LocaleFormat(place, slots).whole(value, kind).replace(THIN, GAP).replace("'", "’")
    assert said == whole.replace(THIN, GAP)


def test_the_unit_of_a_gram_needs_more_decimals() -> None:
    # As the workbook shows it: money by gram in four.
    assert LocaleFormat("en-US", EU).whole(0.0432, Kind("number", MONEY / DRIED)) == "€0.0432/g"


def test_an_unknown_place_is_refused() -> None:
    with pytest.raises(UnknownLocale):
        LocaleFormat("xx-YY-zz", US)
