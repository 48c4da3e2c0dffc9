"""Gnumeric, a third engine, strict where the others are lenient: it recalculates every formula.

It comes nearest to what is known of the suite that most people have: a lone blank cell under
SUMPRODUCT is an error in it. ``--recalc`` has it work everything out anew; that it obeys is tested
in ``test_gnumeric.py`` with caches that are wrong.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from engines.cells import Place, Value, values
from engines.need import missing

_REMEDY = "On Debian or Ubuntu: apt-get install gnumeric"
_EXPORT = "--export-type=Gnumeric_Excel:xlsx2"
"""Numbers are written with all their digits, error values as such."""
_LONG = re.compile(r"\d+\.\d{17,}")
_SECONDS = 300
"""How long a workbook may take; a sample takes less than one."""


class EngineFailed(AssertionError):
    """Gnumeric ran and did not deliver."""


def program() -> str | None:
    """The command that starts Gnumeric without a window, or None where it is not installed."""
    return shutil.which("ssconvert")


def recalculate(
    paths: Sequence[Path], out: Path, *, trust_caches: bool = False
) -> dict[Path, dict[Place, Value]]:
    """Every cell's value of each workbook, worked out from nothing.

    ``out`` receives the recalculated workbooks. ``trust_caches`` leaves the recalculation out, to
    show that it makes a difference. Fails or skips the test where Gnumeric is missing; raises
    :class:`EngineFailed` where it does not come back or cannot read a workbook.
    """
    command = program()
    if command is None:
        missing("Gnumeric", _REMEDY)
    out.mkdir(parents=True, exist_ok=True)
    options = [_EXPORT] if trust_caches else ["--recalc", _EXPORT]

    def convert(job: tuple[int, Path]) -> Path:
        number, path = job
        return _convert([command, *options], path, out / f"{number:04d}.xlsx")

    with ThreadPoolExecutor(os.cpu_count()) as pool:
        made = list(pool.map(convert, enumerate(paths, 1)))
    return {path: _read(each) for path, each in zip(paths, made, strict=True)}


def _read(path: Path) -> dict[Place, Value]:
    return {
        place: _usual_digits(value) if type(value) is str else value
        for place, value in values(path).items()
    }


def _usual_digits(text: str) -> str:
    """A text with the 15 digits that others give a number in it.

    Gnumeric reckons with longer numbers, and joins 0.044063 to a text as
    0.044063000000000000001.
    """
    return _LONG.sub(lambda found: f"{float(found[0]):.15g}", text)


def _convert(command: Sequence[str], path: Path, target: Path) -> Path:
    # What is joined into a text is written as an engine in en-US writes it.
    environment = {**os.environ, "LC_ALL": "C.UTF-8"}
    try:
        done = subprocess.run(
            [*command, str(path), str(target)],
            env=environment, stdin=subprocess.DEVNULL, capture_output=True, timeout=_SECONDS,
        )  # fmt: skip
    except subprocess.TimeoutExpired as late:
        raise EngineFailed(f"Gnumeric did not come back from {path} in {_SECONDS} s") from late
    if done.returncode or not target.exists():
        said = done.stderr.decode(errors="replace").strip()[-500:]
        raise EngineFailed(f"Gnumeric could not read {path}: {said}")
    return target


def saved_again(paths: Sequence[Path], out: Path, ending: str) -> list[Path]:
    """Workbooks opened and saved by it as ``xlsx`` or ``ods``, in the order of ``paths``, whose
    names differ."""
    command = program()
    if command is None:
        missing("Gnumeric", _REMEDY)
    out.mkdir(parents=True, exist_ok=True)
    export = {"xlsx": _EXPORT, "ods": "--export-type=Gnumeric_OpenCalc:odf"}[ending]
    return [_convert([command, export], path, out / f"{path.stem}.{ending}") for path in paths]
