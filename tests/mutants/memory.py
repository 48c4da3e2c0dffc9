"""What need not be worked out again for each fault: seasons that were read, columns far from it.

A fault changes its own column and those that lead back to it. All others are those of the run
without a fault, by the same inputs; so a season of six hundred columns is there in a moment.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from mutants.made import MADE_BY_THE_ALGEBRA, Fault
from reportgen import program
from reportgen.algebra.book import Book, dependencies
from reportgen.algebra.guards import guards_of
from reportgen.algebra.numbers import Cells, Numbers

TESTS = Path(__file__).resolve().parents[1]
_LOAD, _MAKE = program.load, Numbers.__init__


class Memory:
    """Stands between the tests and the program's reading and reckoning while faults are tried."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._seasons: dict[object, Any] = {}
        self._sound: dict[object, dict[str, Cells]] = {}
        self._changed: set[tuple[str, str]] | None = None
        self._readers: dict[tuple[str, str], set[tuple[str, str]]] = {}
        for definition in book.order:
            assert definition.tree is not None
            for read in dependencies(definition.tree):
                self._readers.setdefault(read, set()).add(definition.key)

    def begin(self) -> None:
        """Remember from now on."""
        memory = self

        def make(self: Numbers, book: Book, inputs: Any, slots: Mapping[str, str]) -> None:
            memory._make(self, book, inputs, slots)

        program.load = self._load
        Numbers.__init__ = make  # type: ignore[method-assign]

    def forget_results(self) -> None:
        """Empty what the tests themselves keep, but for the oracle, which knows no definitions: it
        was worked out without a fault."""
        for module in list(sys.modules.values()):
            home = getattr(module, "__file__", None) or ""
            if home.startswith(str(TESTS)) and not home.startswith(str(TESTS / "oracle")):
                for each in vars(module).values():
                    if callable(getattr(each, "cache_clear", None)):
                        each.cache_clear()

    def fault(self, fault: Fault) -> None:
        """What may be taken from the run without a fault is no longer all."""
        follow = [each.key for each in self._book if each.role in MADE_BY_THE_ALGEBRA]
        self._changed = self.behind([(fault.table, fault.name), *follow])

    def renew(self, numbers: Numbers) -> None:
        """Work out again what the fault changes, in a season that a test keeps from its import."""
        assert self._changed is not None
        for table, name in self._changed:
            numbers.cells.get(table, {}).pop(name, None)
        numbers._groups.clear()
        numbers._found.clear()
        numbers.guards = guards_of(self._book)
        for definition in self._book.order:
            numbers.compute(definition)

    def behind(self, keys: Iterable[tuple[str, str]]) -> set[tuple[str, str]]:
        """All columns that lead back to one of these, themselves included."""
        found, left = set(), list(keys)
        while left:
            key = left.pop()
            if key not in found:
                found.add(key)
                left += self._readers.get(key, ())
        return found

    def _load(self, path: Path, recipes: Path) -> Any:
        files = sorted(path.rglob("*")) if path.is_dir() else [path]
        texts = tuple(
            (str(each.relative_to(path)), each.read_bytes()) for each in files if each.is_file()
        )
        if texts not in self._seasons:
            self._seasons[texts] = _LOAD(path, recipes)
        return self._seasons[texts]

    def _make(
        self,
        numbers: Numbers,
        book: Book,
        inputs: Mapping[str, Mapping[str, Sequence[Any]]],
        slots: Mapping[str, str],
    ) -> None:
        if book is not self._book:
            _MAKE(numbers, book, inputs, slots)
            return
        key = repr(inputs), tuple(sorted(slots.items()))
        if self._changed is None:
            _MAKE(numbers, book, inputs, slots)
            cells = numbers.__dict__["cells"]
            self._sound[key] = {table: dict(columns) for table, columns in cells.items()}
        elif key not in self._sound:
            _MAKE(numbers, book, inputs, slots)
        else:
            kept = {
                table: {n: v for n, v in columns.items() if (table, n) not in self._changed}
                for table, columns in self._sound[key].items()
            }
            _MAKE(numbers, book, kept, slots)
