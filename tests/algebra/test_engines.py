"""For every subset of unknown inputs, Python and three spreadsheet engines agree on every cell."""

from __future__ import annotations

from pathlib import Path

import pytest

from algebra.ferries import sailings
from algebra.random_trees import random_numbers
from algebra.toy_workbook import disagreements
from reportgen.algebra import expr, nodes
from reportgen.algebra.nodes import children


@pytest.mark.parametrize(("fee", "slow"), [(1.25, True), (None, False)])
def test_every_subset_of_unknown_inputs(tmp_path: Path, fee: float | None, slow: bool) -> None:
    assert disagreements(sailings(fee, None if fee is None else 45900.0), tmp_path, slow=slow) == []


def test_the_toy_book_leaves_no_kind_of_node_out() -> None:
    kinds = {
        each.__name__
        for each in (*vars(expr).values(), *vars(nodes).values())
        if isinstance(each, type) and issubclass(each, expr.Expr) and each is not expr.Expr
    }
    found: set[str] = set()

    def visit(node: expr.Expr) -> None:
        found.add("Column" if type(node).__name__ == "Link" else type(node).__name__)
        for part in children(node):
            visit(part)

    for definition in sailings().book:
        assert definition.tree is not None
        visit(definition.tree)
    # PerRow stands in the table of checks alone; Rests is gone once the book has run.
    assert kinds - found == {"PerRow", "Rests"}


@pytest.mark.parametrize("seed", range(8))
def test_expressions_made_up_at_random(tmp_path: Path, seed: int) -> None:
    made = random_numbers(seed, 60)
    assert len(made.book.order) > 30, "too many were refused"
    assert disagreements(made, tmp_path, slow=not seed) == []
