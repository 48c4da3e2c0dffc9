"""What may be an id.

A letter, then letters, digits and hyphens. A spreadsheet's criteria (SUMIFS, MATCH) read a text
before they compare it: ``mar-1`` becomes a day, ``TRUE`` a truth value, and the sum silently
misses the rows. So an id that some spreadsheet would read is refused.
"""

from __future__ import annotations

import re
from functools import lru_cache

from reportgen.read.near import short
from reportgen.read.problem import Refusal

LONGEST = 60
"""Letters of an id; it must fit on a label, and criteria end at 255."""

PATTERN = rf"^[A-Za-z][A-Za-z0-9-]{{0,{LONGEST - 1}}}$"

# Names of months, whole and short, in the languages spreadsheets are often set to. Three short
# names of Italian and Portuguese are left out: lug, set and out are words of the trade.
_MONTHS = """
    jan feb mar apr may jun jul aug sep sept oct nov dec january february march april june july
    august september october november december
    mrz mai okt dez januar februar juni juli oktober dezember
    janv fevr mars avr avril juin juil aout janvier fevrier juillet septembre octobre novembre
    decembre
    ene abr ago dic enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre
    diciembre
    gen mag giu ott gennaio febbraio aprile maggio giugno luglio settembre ottobre dicembre
    fev janeiro fevereiro marco maio junho julho setembro outubro novembro dezembro
    mrt mei maart januari februari augustus des kwi
"""
_DATE = re.compile(rf"(?:{'|'.join(_MONTHS.split())})-?\d{{1,4}}(?:-\d{{1,4}})?", re.I)
_TRUTH = ("true", "false", "wahr", "falsch", "vrai", "faux", "verdadero", "falso", "vero", "waar")
_WORD = re.compile(PATTERN[1:-1])
_EXPECTED = "a letter, then letters, digits and hyphens, as pears-1"


@lru_cache(maxsize=16384)
def check(text: str) -> None:
    """Raise :class:`Refusal` where a text can be no id."""
    if not _WORD.fullmatch(text):
        if len(text) > LONGEST:
            raise Refusal(
                f"the id '{short(text, 20)}' is too long",
                f"at most {LONGEST} letters",
                "shorten it",
            )
        made = re.sub(r"[^A-Za-z0-9]+", "-", text).strip("-")
        if made and not made[0].isalpha():
            made = f"n-{made}"
        raise Refusal(
            f"'{short(text)}' cannot be an id",
            _EXPECTED,
            f"write for instance {made}" if made and _WORD.fullmatch(made) else "rename it",
        )
    if text.lower() in _TRUTH:
        raise Refusal(
            f"a spreadsheet reads the id '{text}' as true or false",
            "an id that is nothing but a name",
            f"write for instance {text}-1",
        )
    if _DATE.fullmatch(text):
        raise Refusal(
            f"a spreadsheet reads the id '{text}' as a day",
            "an id that is nothing but a name",
            f"write for instance lot-{text}",
        )
