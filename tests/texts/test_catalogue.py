"""Every text of workbooks, rules and checks is in every language that ships, and none beside."""

from __future__ import annotations

import re

import pytest
from handout.seasons import TEXTS

from reportgen.model.fields import Choice
from reportgen.model.records import RECORDS
from reportgen.texts import ENGLISH, SAID, Texts
from reportgen.write.limits import checked_once, checked_sheet
from texts.asked import asked, kinds, to_translate
from texts.entries import entry
from texts.sort import in_order

pytestmark = pytest.mark.slow

LANGUAGES = sorted({path.stem for path in TEXTS.glob("*.yaml")} - {ENGLISH})
LONGEST_HEAD = 45
"""Characters of a column's name: three lines of a narrow column."""


def said(texts: Texts) -> dict[str, str]:
    """What a translation keeps by the English text."""
    start = f"{SAID}."
    return {k.removeprefix(start): v for k, v in texts.all.items() if k.startswith(start)}


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_text_is_translated(language: str) -> None:
    texts = Texts(TEXTS, language)
    missing = sorted(text for text in to_translate() if not texts.knows(text))
    paste = "\n".join(entry(text, "") for text in missing)
    assert not missing, f"{language}.yaml lacks translations; fill in, below {SAID}:\n{paste}"


@pytest.mark.parametrize("language", LANGUAGES)
def test_entries_are_in_order(language: str) -> None:
    text = (TEXTS / f"{language}.yaml").read_text(encoding="utf-8")
    assert in_order(text) == text, "run: python tests/texts/sort.py"


def test_sorting_keeps_folded_entries_whole_and_each_once() -> None:
    folded, plain = '  "b {x}":\n    "B\n    {x}"\n', '  "A": "Ä"\n'
    head = "a:\n  z: Z\nsaid:\n"
    assert in_order(head + folded + plain + folded) == head + plain + folded


@pytest.mark.parametrize("language", LANGUAGES)
def test_nothing_is_translated_that_nobody_says(language: str) -> None:
    assert sorted(said(Texts(TEXTS, language)).keys() - asked()) == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_translations_have_the_holes_of_the_english(language: str) -> None:
    for english, text in said(Texts(TEXTS, language)).items():
        assert text.strip(), english
        assert sorted(re.findall(r"\{\w+\}", english)) == sorted(re.findall(r"\{\w+\}", text))


def test_what_the_english_catalogue_holds_is_not_translated_twice() -> None:
    for language in LANGUAGES:
        texts, english = Texts(TEXTS, language), Texts(TEXTS, ENGLISH).all
        by_path = {text: texts.all[path] for path, text in english.items()}
        twice = [text for text, other in said(texts).items() if by_path.get(text) == other]
        assert twice == []


@pytest.mark.parametrize("language", [ENGLISH, *LANGUAGES])
def test_sheets_have_names_that_the_format_allows(language: str) -> None:
    texts = Texts(TEXTS, language)
    for kind in kinds():
        names = [texts.say(sheet.name) for sheet in kind.sheets]
        checked_once(map(checked_sheet, names), "sheet")
        # One suite reads no reference to a sheet that has one, in a formula or a name.
        assert not [name for name in names if "'" in name or "\u2019" in name]
        # A name that is another's English would be taken for that one's.
        assert [texts.say(name) for name in names] == names


@pytest.mark.parametrize("language", LANGUAGES)
def test_words_to_choose_from_stay_apart_and_hold_no_comma(language: str) -> None:
    texts = Texts(TEXTS, language)
    choices = [each for r in RECORDS.values() for each in r.fields if isinstance(each, Choice)]
    verdicts = [("ok", "caution", "error"), ("dry", "not shown", "doubtful", "origin not named")]
    for words in [*(each.words for each in choices), *verdicts]:
        translated = [texts.say(word).casefold() for word in words]
        assert len(set(translated)) == len(words), translated
        # A list of choices is written with commas between them.
        assert not any("," in word or '"' in word for word in translated), translated
