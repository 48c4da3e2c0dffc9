"""What changed is changed, as another reading of the file says, and every other byte stays."""

from __future__ import annotations

import copy
import difflib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from reportgen.pen.pen import Pen
from reportgen.pen.scalars import flow, scalar
from reportgen.read.spans import Listing, Mapping, Marked, Scalar, Span

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parent.parent.parent
FILES = sorted([*ROOT.glob("samples/*/**/*.yaml"), *ROOT.glob("recipes/pe*.yaml")])

FLOWS = """\
# every line has a comment
lots:   # lots
  - {id: a, product: pears,   # one
     weighed: 3 lb, }         # two
  - id: b                     # three
    # between
    wet:                      # four
      - 4.0 lb                # five
      # six
      - '3.9 lb'              # seven
    note: >                   # eight
      several
      lines

    lost: 1 lb                # nine
  -   # ten
    id: "c"                   # eleven
    empty:                    # twelve
    last: x                   # thirteen
uses: [{pack: P, count: 1}, {pack: Q}]   # fourteen
none: {}                      # fifteen
"""


_QUICK: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


def plain(text: str, loader: Any = _QUICK) -> Any:
    """The file as another reader has it, each value as text."""
    return yaml.load(text.removeprefix("\ufeff"), Loader=loader)


def told(span: Span | None) -> Any:
    """The marks as plain data."""
    match span:
        case Scalar():
            return span.text
        case Listing():
            return [told(each) for each in span.items]
        case Mapping():
            return {key.text: told(value) for key, value in span.entries}
    return None


Path_ = tuple[str | int, ...]


def spans(span: Span | None, path: Path_ = ()) -> Iterator[tuple[Path_, Span]]:
    """Every value with the way to it."""
    if span is None:
        return
    yield path, span
    if isinstance(span, Listing):
        for at, each in enumerate(span.items):
            yield from spans(each, (*path, at))
    elif isinstance(span, Mapping):
        for key, each in span.entries:
            yield from spans(each, (*path, key.text))


def at(tree: Any, path: Path_) -> Any:
    for step in path:
        tree = tree[step]
    return tree


def texts() -> Iterator[Any]:
    for path in FILES:
        yield pytest.param(path.read_text("utf-8"), id=path.stem)
    yield pytest.param(FLOWS, id="flows")
    yield pytest.param(FLOWS.replace("\n", "\r\n"), id="crlf")
    yield pytest.param("\ufeff" + FLOWS.rstrip("\n"), id="bom, no last line break")


TEXTS = list(texts())


def lines_kept(before: str, after: str, but: int) -> bool:
    """Whether all lines of the file are in the new one, in their order, but so many."""
    old, new = before.splitlines(keepends=True), after.splitlines(keepends=True)
    alike = difflib.SequenceMatcher(None, old, new, autojunk=False).get_matching_blocks()
    return len(old) - sum(each.size for each in alike) <= but


def comments(text: str) -> list[str]:
    found = [each for _, each in Marked(text).comments(0, len(text))]
    return sorted(found)


@pytest.mark.parametrize("text", TEXTS)
def test_marks_say_what_another_reader_says(text: str) -> None:
    marked = Marked(text)
    assert told(marked.root) == plain(text, yaml.BaseLoader)
    for _, span in spans(marked.root):
        if isinstance(span, Scalar) and span.start < span.end and text[span.start] not in "|>":
            assert plain(f"- {text[span.start : span.end]}") == [span.text]
        elif isinstance(span, Mapping | Listing) and span.flow:
            assert (text[span.start], text[span.end - 1]) in (("{", "}"), ("[", "]"))


@pytest.mark.parametrize("text", TEXTS)
def test_a_value_takes_the_place_of_each(text: str) -> None:
    tree = plain(text)
    for path, old in list(spans(Marked(text).root)):
        if not path or isinstance(path[-1], int):
            continue
        pen = Pen(text)
        whole = dict(spans(pen.root))
        holder = whole[path[:-1]]
        assert isinstance(holder, Mapping)
        entry = holder.find(str(path[-1]))
        assert entry is not None
        pen.put(entry[0], entry[1], "12.5 lb", note="was: something")
        after = pen.text()
        wanted = copy.deepcopy(tree)
        at(wanted, path[:-1])[path[-1]] = "12.5 lb"
        assert plain(after) == wanted, path
        touched = text[entry[0].start : old.end].count("\n") + 1
        assert lines_kept(text, after, but=touched), path
        kept = "\n".join(comments(after))
        assert all(each in kept for each in comments(text)), path
        assert "was: something" in kept


@pytest.mark.parametrize("text", TEXTS)
def test_a_key_is_added_to_each_mapping(text: str) -> None:
    tree = plain(text)
    for path, span in list(spans(Marked(text).root)):
        if not isinstance(span, Mapping):
            continue
        pen = Pen(text)
        holder = dict(spans(pen.root))[path]
        assert isinstance(holder, Mapping)
        pen.add(holder, "more", {"gross": "9.8 lb", "tare": "no: 1"})
        pen.add(holder, "again", "yes")
        after = pen.text()
        wanted = copy.deepcopy(tree)
        at(wanted, path).update(more={"gross": "9.8 lb", "tare": "no: 1"}, again="yes")
        assert plain(after) == wanted, path
        assert lines_kept(text, after, but=1), path
        assert comments(after) == comments(text), path


@pytest.mark.parametrize("text", TEXTS)
def test_a_key_is_taken_from_each_mapping_and_its_comment_stays(text: str) -> None:
    tree = plain(text)
    for path, _ in list(spans(Marked(text).root)):
        if not path or isinstance(path[-1], int):
            continue
        pen = Pen(text)
        holder = dict(spans(pen.root))[path[:-1]]
        assert isinstance(holder, Mapping)
        pen.drop(holder, str(path[-1]))
        after = pen.text()
        wanted = copy.deepcopy(tree)
        del at(wanted, path[:-1])[path[-1]]
        # A block that has lost all its keys is nothing, and so is a file.
        emptied = len(holder.entries) == 1 and not holder.flow
        if not emptied:
            assert plain(after) == wanted, path
        assert comments(after) == comments(text), path


@pytest.mark.parametrize("text", TEXTS)
def test_a_record_is_taken_from_each_list_and_put_to_each(text: str) -> None:
    tree = plain(text)
    for path, span in list(spans(Marked(text).root)):
        if not isinstance(span, Listing) or not span.items:
            continue
        for number in range(len(span.items)):
            pen = Pen(text)
            holder = dict(spans(pen.root))[path]
            assert isinstance(holder, Listing)
            pen.remove(holder, holder.items[number])
            pen.append(holder, {"id": "new", "for": "stall, co-op"})
            wanted = copy.deepcopy(tree)
            del at(wanted, path)[number]
            at(wanted, path).append({"id": "new", "for": "stall, co-op"})
            if span.flow and len(span.items) == 1:
                continue  # nothing is left for the new one to stand behind
            assert plain(pen.text()) == wanted, (path, number)
        pen = Pen(text)
        holder = dict(spans(pen.root))[path]
        assert isinstance(holder, Listing)
        pen.remove(holder, holder.items[-1])
        left = at(plain(pen.text()), path)
        assert (left or []) == at(tree, path)[:-1]


@given(st.text(st.characters(blacklist_categories=("Cs", "Cc"))))
def test_a_text_is_read_back_as_it_was(text: str) -> None:
    for place in ("{}", "[{}]", "a: {}  # b", "- {}", "{{a: {}, b: c}}"):
        read = plain(place.format(scalar(text)))
        found = (
            read
            if isinstance(read, str)
            else next(iter(read.values() if isinstance(read, dict) else read))
        )
        assert found == text


def test_a_value_that_need_not_be_quoted_is_not() -> None:
    assert (
        flow({"net": "11.0 oz", "for": "no", "at": "18:30"}) == "{net: 11.0 oz, for: no, at: 18:30}"
    )
    assert scalar("a: b") == '"a: b"'
    assert scalar("") == '""'


def test_a_change_inside_another_is_refused() -> None:
    pen = Pen("a: {b: c}\n")
    assert isinstance(pen.root, Mapping)
    key, value = pen.root.entries[0]
    pen.put(key, value, "x")
    assert isinstance(value, Mapping)
    pen.put(*value.entries[0], "y")
    with pytest.raises(ValueError, match="inside"):
        pen.text()


def test_a_key_and_an_item_of_a_list_that_stands_as_far_left() -> None:
    """A list may stand as far left as its key; what is added below both goes to the list first."""
    pen = Pen("runs:\n  - id: r-1\n    loads:\n    - {lot: a}\n")
    (run,) = pen.root.find("runs")[1].items
    pen.add(run, "labor", "1 h")
    pen.append(run.find("loads")[1], {"lot": "b"})
    assert pen.text() == (
        "runs:\n  - id: r-1\n    loads:\n    - {lot: a}\n    - {lot: b}\n    labor: 1 h\n"
    )
