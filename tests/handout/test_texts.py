"""The catalogue of texts: whole, used, and the same in every language."""

from __future__ import annotations

import re

import pytest
from lxml import html

from handout.seasons import TEXTS, gathered, page
from reportgen.handout.season_page import CAUTIONS, cautions
from reportgen.sheets import summary
from reportgen.texts import Texts

LANGUAGES = sorted(path.stem for path in TEXTS.glob("??.yaml"))


def test_there_is_a_second_language() -> None:
    assert {"en", "fr"} <= set(LANGUAGES)


@pytest.mark.parametrize("language", LANGUAGES)
def test_each_language_has_the_same_texts_with_the_same_holes(language: str) -> None:
    english, other = Texts(TEXTS, "en").all, Texts(TEXTS, language).all
    own = {key for key in other if not key.startswith("said.")}
    wanted = {key for key in english if not key.startswith("said.")}
    assert own == wanted
    for key in own:
        assert sorted(re.findall(r"\{\w+\}", english[key])) == sorted(
            re.findall(r"\{\w+\}", other[key])
        ), key
        assert other[key], key


def test_a_language_without_texts_gets_the_english_ones() -> None:
    assert Texts(TEXTS, "eo").language == "en"
    assert gathered("colline", "es-MX").texts.language == "en"


def test_the_general_cautions_are_those_of_the_workbook() -> None:
    said = cautions(gathered("windrow-lane"))
    assert len(said) == CAUTIONS
    assert " ".join(said) == " ".join(summary.CAUTIONS)


def test_a_page_in_french_is_french_and_says_where_it_is_not() -> None:
    made = html.fromstring(page("colline", "fr-FR").decode())
    assert made.get("lang") == "fr"
    text = made.text_content()
    assert "Avant d'en manger" in text and "€/g" in text
    assert re.search(r"\d,\d", text)
    # Rules and checks are in the catalogue; what is open is not yet, and is marked as English.
    assert made.xpath("//div[@class='origin']")
    assert not made.xpath("//div[@class='origin'][@lang]")
