"""Examples in docstrings are true."""

from __future__ import annotations

import doctest
import importlib
from pathlib import Path

import pytest

import reportgen

ROOT = Path(reportgen.__file__).parent
WITH_EXAMPLES = [
    ".".join(path.relative_to(ROOT.parent).with_suffix("").parts)
    for path in sorted(ROOT.rglob("*.py"))
    if ">>> " in path.read_text(encoding="utf-8")
]


def test_there_are_examples() -> None:
    assert "reportgen.trade.ice" in WITH_EXAMPLES


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_examples_in_docstrings_are_true(name: str) -> None:
    found = doctest.testmod(importlib.import_module(name))
    assert found.attempted and not found.failed
