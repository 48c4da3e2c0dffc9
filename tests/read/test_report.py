"""A message points at what it means, whatever stands in the line."""

from __future__ import annotations

from reportgen.read.problem import Place, Problem
from reportgen.read.report import text


def said(line: str, column: int, length: int = 1) -> list[str]:
    problem = Problem(Place("a.yaml", 1, column, length), "wrong", "right", "do it")
    return text(problem, lambda name: [line]).split("\n")


def test_all_parts_in_order() -> None:
    assert said("dry: 5 o", 6, 3) == [
        "a.yaml:1: wrong; expected right; do it",
        "    dry: 5 o",
        "         ^^^",
    ]


def test_a_caution_says_so() -> None:
    problem = Problem(Place("a.yaml"), "odd", severity="caution")
    assert text(problem, lambda name: []) == "a.yaml: caution: odd"


def test_a_caret_stands_under_wide_and_combined_letters() -> None:
    # Two columns for each ideograph (Unicode Annex 11), none for a combining accent.
    assert said("梨: x", 4)[2] == "     " + "   ^"
    assert said("e\u0301: x", 5)[2] == "       ^"


def test_a_long_line_is_cut_around_the_caret() -> None:
    _, line, caret = said("a" * 500 + "HERE" + "b" * 500, 501, 4)
    assert len(line) <= 110 and line.startswith("    ...") and line.endswith("...")
    assert line[caret.index("^") : caret.rindex("^") + 1] == "HERE"


def test_what_could_play_tricks_on_a_terminal_is_left_out() -> None:
    assert "\x1b" not in "".join(said("a\x1b[31m: b", 1))
    assert said("a:\tb", 4)[2] == "       ^"
