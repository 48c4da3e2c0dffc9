"""Values are those of YAML 1.2, whatever YAML 1.1 would have made of them.

YAML 1.2.2 (yaml.org/spec/1.2.2, revision of 2021-10-01), section 10.3.2 'Tag Resolution': null is
``null | Null | NULL | ~`` or empty, booleans are ``true | True | TRUE | false | False | FALSE``,
integers and floats are decimal; ``34:30``, ``no``, ``1_000`` and ``2026-09-05`` are strings.
From memory, not seen.
"""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from reportgen.model.readers import flag
from reportgen.read import yaml as ours
from reportgen.read.nodes import Mapping, Node, Scalar, Sequence
from reportgen.read.problem import Refusal

pytestmark = pytest.mark.slow


def value(text: str) -> Scalar:
    node, problems = ours.parse(f"key: {text}\n", "file")
    assert not problems and isinstance(node, Mapping)
    found = node.entries[0][1]
    assert isinstance(found, Scalar)
    return found


@pytest.mark.parametrize("text", ["null", "Null", "NULL", "~", ""])
def test_nulls_are_left_out(text: str) -> None:
    assert value(text).empty


@pytest.mark.parametrize("text", ["nULL", "none", '""', "'null'", '"~"', "0", "false"])
def test_other_texts_are_not_null(text: str) -> None:
    assert not value(text).empty


@pytest.mark.parametrize("text", ["true", "True", "TRUE"])
def test_true(text: str) -> None:
    assert flag(value(text).text) is True


@pytest.mark.parametrize("text", ["false", "False", "FALSE"])
def test_false(text: str) -> None:
    assert flag(value(text).text) is False


@pytest.mark.parametrize("text", ["yes", "no", "on", "off", "y", "n", "tRUE", "1", "0"])
def test_the_booleans_of_yaml_1_1_are_none(text: str) -> None:
    with pytest.raises(Refusal):
        flag(value(text).text)


@pytest.mark.parametrize("text", ["34:30", "no", "0123", "1_000", "2026-09-05", "1e3", "0o14", "="])
def test_nothing_is_guessed_at(text: str) -> None:
    assert value(text).text == text


def plain(node: Node | None) -> object:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Sequence):
        return [plain(each) for each in node.items]
    if isinstance(node, Mapping):
        return {key.text: plain(each) for key, each in node.entries}
    return None


PUT_IN_FRONT = "•◦▪‣·–—“”„‘’«»"
"""Bullets and curly quotes: in front of a text they are read as if they were not there."""
texts = st.text(
    st.characters(codec="utf-8", exclude_categories=("Cc", "Cs"), exclude_characters=PUT_IN_FRONT),
    max_size=12,
)
trees = st.recursive(
    texts,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(texts, inner, max_size=4),
    max_leaves=12,
)


@given(st.dictionaries(texts, trees, min_size=1, max_size=5), st.booleans())
def test_what_a_yaml_library_writes_is_read_back(tree: dict[str, object], flow: bool) -> None:
    # PyYAML's writer is the independent side: strings only, in block or flow style.
    text = yaml.safe_dump(tree, default_flow_style=flow, allow_unicode=True, sort_keys=False)
    node, problems = ours.parse(text, "file")
    assert plain(node) == tree or any("nested" in each.what for each in problems)


@given(st.dictionaries(texts.filter(str.strip), trees, min_size=1, max_size=5))
def test_the_parser_in_python_gives_the_same(tree: dict[str, object]) -> None:
    text = yaml.safe_dump(tree, allow_unicode=True)
    fast, slow = ours.parse(text, "file"), None
    loader = ours._Loader
    try:
        ours._Loader = yaml.SafeLoader
        slow = ours.parse(text, "file")
    finally:
        ours._Loader = loader
    assert plain(fast[0]) == plain(slow[0])
    assert [each.place.line for each in fast[1]] == [each.place.line for each in slow[1]]


@given(st.text(max_size=60) | st.text("[]{}:,-&*!|>'\"%@` \n#ab1", max_size=60))
def test_any_text_is_read_or_explained(text: str) -> None:
    node, problems = ours.parse(text, "file")
    for each in problems:
        assert each.what and each.expected and each.do and each.place.line >= 1
        assert each.what[:16] != "this is not YAML", text
    assert node is None or not problems or "twice" in problems[0].what


def test_places() -> None:
    node, _ = ours.parse("lots:\n  - weighed: 72.4 lb  # by hand\n", "file")
    assert isinstance(node, Mapping)
    lots = node.get("lots")
    assert isinstance(lots, Sequence) and isinstance(lots.items[0], Mapping)
    weighed = lots.items[0].get("weighed")
    assert weighed is not None and tuple(weighed.place) == ("file", 2, 14, 7)
