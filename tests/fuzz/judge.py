"""What must hold whatever is read: no fault of ours, no hang, no nonsense in what was built."""

from __future__ import annotations

import os
import re
import shutil
import signal
import tempfile
import time
import zipfile
from collections.abc import Sequence
from math import isfinite
from pathlib import Path
from random import Random
from types import FrameType

from click.testing import CliRunner

from fuzz.corpus import parted
from fuzz.mutate import VALUES
from reportgen import program
from reportgen.algebra.numbers import Numbers
from reportgen.cli import app
from reportgen.trade.constants import BALANCE
from reportgen.units import DRIED, FRESH, MONEY

LONGEST = 5.0
"""Seconds of work for one command."""
_COST = re.compile(r"cost_|.*_cost(_|$)|running_(?!to)|full_(?!to)")
_ODD = re.compile(r">\s*(nan|inf|-inf|None|#(REF|VALUE|NUM|DIV/0|NAME\?|N/A)!?)\s*<")
_WORDS = ("--as-of", "-o", "--all", "--force", "--json", "--pack", "--count", "--size", "--start",
          "--depth", "--short", "--sheet", "pear-slices", "season.saving", "loads.wet",
          "products.running_per_packed", "run-1/pears-1", "P-1", "2025-12-31")  # fmt: skip


class Fault(AssertionError):
    """What must not happen, has."""


def commands(rng: Random, built: bool) -> list[list[str]]:
    """Some command lines for a season that is called S."""
    chosen = [["check", "S", "--all"]]
    if built:
        chosen.append(rng.choice((["build", "S", "-o", "out.xlsx"], ["page", "S", "-o", "out.html"],
                                  ["labels", "S", "--doubtful", "-o", "out.html"],
                                  ["sheet", "S", "pear-slices"])))  # fmt: skip
    odd = [rng.choice(("check", "figures", "explain", "recipes", "page", "labels", "build")), "S"]
    odd += [rng.choice((*_WORDS, *VALUES)) for _ in range(rng.randrange(4))]
    return [*chosen, odd]


def judge(text: str, lines: Sequence[Sequence[str]]) -> list[int]:
    """Write the input as a season, give it to commands; their exit codes. Raises :class:`Fault`."""
    codes = []
    here = os.getcwd()
    folder = Path(tempfile.mkdtemp())
    try:
        place = _written(folder, text)
        os.chdir(folder)
        for words in lines:
            codes.append(_run([str(place) if each == "S" else each for each in words]))
        if not codes[0]:
            _sound(place)
        for made in folder.glob("*.*"):
            _clean(made)
    finally:
        os.chdir(here)
        shutil.rmtree(folder)
    return codes


def _written(folder: Path, text: str) -> Path:
    place = folder / "larch"
    place.mkdir()
    for name, held in parted(text).items():
        try:
            (place / name).parent.mkdir(parents=True, exist_ok=True)
            (place / name).write_bytes(held.encode("utf-8", "surrogatepass"))
        except (OSError, ValueError):
            continue  # no such file can be made
    return place


def _run(words: list[str]) -> int:
    signal.signal(signal.SIGALRM, _hangs)
    signal.alarm(60)
    begun = time.process_time()
    try:
        done = CliRunner().invoke(app, words)
    finally:
        signal.alarm(0)
    took = time.process_time() - begun
    if done.exception is not None and not isinstance(done.exception, SystemExit):
        raise Fault(f"{words}: {done.exception!r}") from done.exception
    if done.exit_code not in (0, 1, 2):
        raise Fault(f"{words}: exit {done.exit_code}")
    if took > LONGEST:
        raise Fault(f"{words}: {took:.1f} s")
    if done.exit_code and not done.stderr.strip():
        raise Fault(f"{words}: exit {done.exit_code} without a word")
    return done.exit_code


def _hangs(number: int, frame: FrameType | None) -> None:
    raise Fault("a minute has passed")


def _sound(place: Path) -> None:
    """No number that is none; nothing negative under a verdict that says it can be used."""
    numbers = program.read(place).numbers
    assert numbers is not None
    usable = str(numbers.value("season", "verdict_of_all")).startswith(
        ("The figures can be used", "All")
    )
    lots = numbers.cells["lots"]
    for waiting, prepped, said in zip(
        lots["waiting"], lots["prepped"], lots["used_above_prepped"], strict=True
    ):
        # More loaded than prepped, by more than scales disagree, is a caution: it is said.
        known = isinstance(waiting, float) and isinstance(prepped, float) and not said
        if known and waiting < -BALANCE.value * prepped - 1e-6:
            raise Fault(f"{waiting} waits, and nothing says so")
    for table, columns in numbers.cells.items():
        for name, column in columns.items():
            for value in column:
                if isinstance(value, float) and not isfinite(value):
                    raise Fault(f"{table}.{name} is {value}")
            if usable and _not_below_zero(numbers, table, name):
                known = [each for each in column if isinstance(each, int | float)]
                if known and min(known) < -1e-6:
                    raise Fault(f"{table}.{name} is {min(known)}, and it can be used")


def _not_below_zero(numbers: Numbers, table: str, name: str) -> bool:
    found = numbers.book.tables[table]
    kind = found.definitions[name].kind if name in found.definitions else None
    if kind is None or kind.type != "number" or "waiting" in name:
        return False  # seen to above
    if kind.unit in (FRESH, DRIED):
        return name in ("wet", "dry", "dried", "loaded", "prepped", "packed", "unpacked")
    # How much a cost of theirs rises with a weight may be of either sign.
    rises = table in ("lots", "loads") and "_by_" in name
    return (
        not rises and bool(_COST.match(name)) and kind.unit in (MONEY, MONEY / DRIED, MONEY / FRESH)
    )


def _clean(made: Path) -> None:
    if made.suffix == ".xlsx":
        with zipfile.ZipFile(made) as archive:
            for part in archive.namelist():
                if part.startswith("xl/worksheets/sheet") and b't="e"' in archive.read(part):
                    raise Fault(f"an error value in {part}")
    elif made.suffix == ".html":
        found = _ODD.search(made.read_text("utf-8"))
        if found:
            raise Fault(f"{found.group()!r} on the page")
