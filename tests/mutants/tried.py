"""Each fault in a process of its own, forked from one that has everything at hand.

pytest collects the tests once and runs them all, to note which work with seasons in which a fault
shows (``plan.py``); for a few faults those of the files that speak of them first. Then a child for
each fault puts it into the book, runs just those tests, the likeliest to notice first, and ends
with the first that fails.
"""

from __future__ import annotations

import gc
import os
import pickle
import re
import sys
import traceback
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TypeVar

import pytest

from mutants.made import MADE_BY_THE_ALGEBRA, Fault
from mutants.memory import Memory
from mutants.plan import Plan
from reportgen.algebra.book import Book, dependencies
from reportgen.algebra.estimates import rests_on
from reportgen.algebra.expr import DefinitionError
from reportgen.algebra.guards import guards_of
from reportgen.algebra.tables import Definition
from reportgen.algebra.words import words_of

ROOT = Path(__file__).resolve().parents[2]
INDEPENDENT = ("tests/trade", "tests/published", "tests/samples", "tests/oracle")
"""Tests that know what should come out from elsewhere; a comparison of the program with its own
workbook knows only that both come from one tree."""
FEW, NEAR = 40, 3
"""How many faults are too few for a run of all tests, and how many files are near to each."""
BY_ITSELF = "the program itself, which refuses to load it"

Result = TypeVar("Result")


@dataclass
class Trial:
    """What became of a fault: who caught it; in how many tests it showed till then."""

    fault: Fault
    by: str | None
    shows_in: int


def put_in(book: Book, fault: Fault) -> None:
    """Give a definition the faulty tree, and what follows from it once more."""
    definition = book.definition(fault.table, fault.name)
    definition.tree = fault.tree
    table = definition.table
    changed = [definition]
    for mark in MADE_BY_THE_ALGEBRA:
        made = table.definitions.get(f"{fault.name}_{mark}")
        if made is not None and made.role == mark:
            made.tree = rests_on(fault.tree, mark, book.companion)
            changed.append(made)
    guards_of.cache_clear()
    words_of.cache_clear()
    if not all(_comes_after(book, each) for each in changed):
        book.order.clear()
        book._sorted.clear()
        book._sort()


def _comes_after(book: Book, definition: Definition) -> bool:
    """Whether all that a definition reads is worked out before it."""
    assert definition.tree is not None
    before = {each.key for each in book.order[: book.order.index(definition)]}
    read = dependencies(definition.tree)
    return before.issuperset((t, n) for t, n in read if n in book.tables[t].definitions)


def near_first(
    items: Sequence[pytest.Item], faults: Collection[Fault]
) -> Iterator[Sequence[pytest.Item]]:
    """For a few faults the tests of the files that speak of them most, then the oracle's, which
    know something of nearly all, then all others, for those that these let through: most are caught
    before all tests were run once."""
    if len(faults) > FEW:
        yield items
        return
    texts = {path: path.read_text(encoding="utf-8") for path in {item.path for item in items}}
    near: set[Path] = set()
    for fault in faults:
        word = re.compile(rf"\b{fault.name}\b")
        spoken = {path: len(word.findall(text)) for path, text in texts.items()}
        near |= set(sorted(texts, key=lambda path: (-spoken[path], path))[:NEAR])
    parts: list[list[pytest.Item]] = [[], [], []]
    for item in items:
        part = 0 if item.path in near else 1 if item.path.parent.name == "oracle" else 2
        parts[part].append(item)
    yield from parts


@dataclass
class Trials:
    """A plugin of pytest that tries faults in place of running the tests."""

    book: Book
    faults: Sequence[Fault]
    tell: Callable[[Trial], None]
    _failed: str | None = None
    _catchers: dict[tuple[str, str], list[str]] = field(default_factory=dict)

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        memory = Memory(self.book)
        memory.begin()
        left = [(fault, 0) for fault in self.faults]
        for items in near_first(session.items, self.faults):
            if not left:
                break
            plan = Plan(items, self.book, self._run)
            memory.forget_results()
            for name in plan.failing:
                print(f"LEFT OUT, it fails without a fault: {name}", file=sys.__stdout__)
            # What is there stays shared with the children: nobody looks it through for garbage.
            gc.collect()
            gc.freeze()
            sound = {each.nodeid: each for each in items}
            asked, left = left, []
            for fault, shown in asked:
                by, tests = self._try(fault, plan, sound, memory)
                if by is None:
                    left.append((fault, shown + tests))
                else:
                    self._catchers[fault.table, fault.name].insert(0, by)
                    self.tell(Trial(fault, by, shown + tests))
        for fault, shown in left:
            self.tell(Trial(fault, None, shown))
        return True

    def _try(
        self, fault: Fault, plan: Plan, items: Mapping[str, pytest.Item], memory: Memory
    ) -> tuple[str | None, int]:
        names = plan.likeliest(fault, self._catchers.setdefault((fault.table, fault.name), []))

        def work() -> tuple[str | None, int]:
            touched = plan.touched(fault, names, memory.renew)
            return self._caught(fault, (items[name] for name in touched), memory)

        return _in_child(work) or (None, 0)

    def _caught(
        self, fault: Fault, items: Iterable[pytest.Item], memory: Memory
    ) -> tuple[str | None, int]:
        """The first test that fails, and how many were run."""
        memory.fault(fault)
        try:
            put_in(self.book, fault)
        except DefinitionError:
            return BY_ITSELF, 0
        run = 0
        for run, item in enumerate(items, 1):
            if not self._run(item):
                return item.nodeid, run
        return None, run

    def _run(self, item: pytest.Item) -> bool:
        self._failed = None
        item.ihook.pytest_runtest_protocol(item=item, nextitem=None)
        return self._failed is None

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self._failed = report.nodeid


def _in_child(work: Callable[[], Result]) -> Result | None:
    """What the work gives, done in a forked process: nothing of it stays in this one. None, and
    why, where that broke off."""
    read, write = os.pipe()
    child = os.fork()
    if not child:
        code = 1
        gc.disable()
        try:
            os.close(read)
            with os.fdopen(write, "wb") as out:
                pickle.dump(work(), out)
            code = 0
        except BaseException:
            traceback.print_exc(file=sys.__stderr__)
        os._exit(code)
    os.close(write)
    with os.fdopen(read, "rb") as into:
        said = into.read()
    _, status = os.waitpid(child, 0)
    return None if status else pickle.loads(said)


def try_all(book: Book, faults: Sequence[Fault], tell: Callable[[Trial], None]) -> None:
    """Try faults one by one against the independent tests."""
    options = ["-p", "no:cacheprovider", "-p", "no:terminal", "--capture=sys"]
    options += ["-o", "addopts=--import-mode=importlib", "-o", "tmp_path_retention_policy=none"]
    with TemporaryDirectory() as folder:
        where = [*INDEPENDENT, f"--basetemp={folder}/pytest", "--rootdir", str(ROOT)]
        pytest.main(
            [*options, "-m", "not engine and not slow", *where],
            plugins=[Trials(book, faults, tell)],
        )
