"""LibreOffice Calc, recalculating every formula of a workbook from nothing.

It gets a copy without the rows that are repeated on paper: for each sheet that has some it makes
room for all 16,384 columns, four fifths of the time of opening. What it works out comes as text.

By default LibreOffice believes the numbers cached in an .xlsx file, so a comparison with them would
only confirm what was written. The profile made here tells it to recalculate always; that it obeys
is tested in ``test_libreoffice.py`` with caches that are wrong.
"""

from __future__ import annotations

import atexit
import os
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from pathlib import Path
from queue import SimpleQueue

from engines import sheets_csv
from engines.cells import Place, Value
from engines.need import missing

_REMEDY = "On Debian or Ubuntu: apt-get install libreoffice-calc-nogui"
_BATCH = 20
"""Workbooks a call: enough to forget the second that a start takes."""
_SECONDS = 300
"""How long a call may take; a workbook of 18,000 formulas takes two seconds."""

# 0 always, 1 never, 2 ask. Both formats: what is converted is .xlsx, ODF in case it ever is not.
_SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"
 xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>{mode}</value></prop>
<prop oor:name="ODFRecalcMode" oor:op="fuse"><value>{mode}</value></prop>
</item></oor:items>
"""

_ENVIRONMENT = {
    **os.environ,
    "GLIBC_TUNABLES": "glibc.malloc.hugetlb=1:glibc.malloc.top_pad=67108864"
    ":glibc.malloc.mmap_threshold=1000000000:glibc.malloc.trim_threshold=1000000000",
}
"""It asks for memory in large pieces and gives none back: a tenth of its time less."""


class EngineFailed(AssertionError):
    """LibreOffice ran and did not deliver."""


def program() -> str | None:
    """The command that starts LibreOffice, or None where it is not installed."""
    return shutil.which("soffice") or shutil.which("libreoffice")


def recalculate(
    paths: Sequence[Path], out: Path, *, trust_caches: bool = False
) -> dict[Path, dict[Place, Value]]:
    """Every cell's value of each workbook after a hard recalculation.

    ``out`` receives what was worked out, a file a sheet, numbered in the order of ``paths``.
    ``trust_caches`` leaves the recalculation out, to show that it makes a difference.
    Fails or skips the test where LibreOffice is missing; raises :class:`EngineFailed` where it
    does not come back or leaves a workbook out.
    """
    command = program()
    if command is None:
        missing("LibreOffice Calc", _REMEDY)
    out.mkdir(parents=True, exist_ok=True)
    results: dict[Path, dict[Place, Value]] = {}
    with tempfile.TemporaryDirectory(prefix="recalculate-") as staging:
        staged = _stage(paths, Path(staging))
        names = list(staged)
        batches = [names[first : first + _BATCH] for first in range(0, len(names), _BATCH)]
        workers = max(1, min(os.cpu_count() or 1, len(batches)))
        profiles: SimpleQueue[Path] = SimpleQueue()
        for worker in range(workers):
            profiles.put(_profile(worker, 1 if trust_caches else 0))
        with ThreadPoolExecutor(workers) as pool:
            calls = [pool.submit(_convert, command, each, out, profiles) for each in batches]
            for call, batch in zip(calls, batches, strict=True):
                call.result()
                for each in batch:
                    found = sheets_csv.values(out, each.stem)
                    if not found:
                        raise EngineFailed(f"LibreOffice could not read {staged[each]}")
                    results[staged[each]] = found
    return results


def printed(paths: Sequence[Path], out: Path) -> list[Path]:
    """Each workbook as it prints it, with the values that it brings: a PDF each."""
    command = program()
    if command is None:
        missing("LibreOffice Calc", _REMEDY)
    out.mkdir(parents=True, exist_ok=True)
    profile = f"-env:UserInstallation={_profile(0, 1).as_uri()}"
    with tempfile.TemporaryDirectory(prefix="print-") as staging:
        copies = [Path(staging) / path.name for path in paths]
        for path, copy in zip(paths, copies, strict=True):
            sheets_csv.without_notes(path, copy)
        _run([command, profile, "--headless", "--norestore", "--convert-to", "pdf", "--outdir",
              str(out), *map(str, copies)])  # fmt: skip
    found = [out / f"{path.stem}.pdf" for path in paths]
    for each in found:
        if not each.exists():
            raise EngineFailed(f"LibreOffice did not print {each.stem}")
    return found


def _stage(paths: Sequence[Path], folder: Path) -> dict[Path, Path]:
    """Copies under names of their own: workbooks of several folders may be called alike."""
    staged = {}
    for number, path in enumerate(paths, 1):
        copy = folder / f"{number:04d}-{path.stem}.xlsx"
        sheets_csv.made_ready(path, copy)
        staged[copy] = path
    return staged


@cache
def _profile(worker: int, mode: int) -> Path:
    """A profile folder for one process at a time, removed when the tests end."""
    folder = Path(tempfile.mkdtemp(prefix=f"calc-profile-{worker}-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    settings = folder / "user" / "registrymodifications.xcu"
    settings.parent.mkdir(parents=True)
    settings.write_text(_SETTINGS.format(mode=mode), encoding="utf-8")
    return folder


def _convert(command: str, batch: Sequence[Path], out: Path, profiles: SimpleQueue[Path]) -> None:
    profile = profiles.get()
    try:
        _run(
            [
                command,
                f"-env:UserInstallation={profile.as_uri()}",
                "--headless",
                "--norestore",
                "--convert-to",
                sheets_csv.FILTER,
                "--outdir",
                str(out),
                *map(str, batch),
            ]
        )
    finally:
        profiles.put(profile)


def _run(arguments: Sequence[str]) -> None:
    # A session of its own: the program starts others, and all must end when the time is over.
    process = subprocess.Popen(
        arguments,
        env=_ENVIRONMENT,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        start_new_session=True,
    )
    try:
        said, _ = process.communicate(timeout=_SECONDS)
    except subprocess.TimeoutExpired as late:
        os.killpg(process.pid, signal.SIGKILL)
        process.communicate()
        raise EngineFailed(f"LibreOffice did not come back within {_SECONDS} s") from late
    if process.returncode != 0:
        raise EngineFailed(f"LibreOffice ended with {process.returncode}: {said.strip()}")


def saved_again(paths: Sequence[Path], out: Path, ending: str) -> list[Path]:
    """Workbooks opened and saved by it as ``xlsx`` or ``ods``, in the order of ``paths``, whose
    names differ; they come back without the rows that are repeated on paper."""
    command = program()
    if command is None:
        missing("LibreOffice Calc", _REMEDY)
    out.mkdir(parents=True, exist_ok=True)
    profile = f"-env:UserInstallation={_profile(0, 1).as_uri()}"
    filter_ = {"xlsx": "xlsx:Calc MS Excel 2007 XML", "ods": "ods"}[ending]
    with tempfile.TemporaryDirectory(prefix="save-again-") as staging:
        copies = [Path(staging) / path.name for path in paths]
        for path, copy in zip(paths, copies, strict=True):
            sheets_csv.without_titles(path, copy)
        _run([command, profile, "--headless", "--norestore", "--convert-to", filter_, "--outdir",
              str(out), *map(str, copies)])  # fmt: skip
    return [out / f"{path.stem}.{ending}" for path in paths]
