"""How long ``compare`` and ``take`` need, as a ratio to the build; their memory; the memory sheet.

    python benchmarks/edits.py [--sizes 250 2500] [--rounds 3]

To reach, at 250 runs: each in no more than twice the time of the build; at 2,500 runs: under
300 MB; the sheet that remembers adds at most a tenth to the file.
"""

from __future__ import annotations

import argparse
import io
import re
import statistics
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[1] / "tests")]

from memory import PEAK  # noqa: E402

from benchmarks import large  # noqa: E402

_RUN = (
    PEAK
    + """\
import gc, sys, time
begun = time.process_time()
sys.argv[0] = "reportgen"
gc.disable()  # as the entry point does, which would leave at once
from reportgen.cli import main
assert not main()
print(f"took {time.process_time() - begun:.3f} {peak()}", file=sys.stderr)
"""
)
EDITED = 50
"""Cells that are changed: every weight of a prepped lot among the first."""


def run(*arguments: str) -> tuple[float, float]:
    """Seconds of the processor and megabytes of one command: the machine may be busy."""
    done = subprocess.run(
        [sys.executable, "-c", _RUN, *arguments], capture_output=True, text=True, check=True
    )
    found = re.search(r"took ([\d.]+) (\d+)", done.stderr)
    assert found is not None, done.stderr
    return float(found[1]), int(found[2])


def edited(book: Path, out: Path) -> None:
    """A copy with other weights in it, changed in the text of the sheet."""
    with zipfile.ZipFile(book) as source, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name in source.namelist():
            data = source.read(name)
            if name.startswith("xl/worksheets/sheet") and data.count(b"<v>58.4</v>") > 20:
                data = data.replace(b"<v>58.4</v>", b"<v>58.5</v>", EDITED)
            made.writestr(name, data)


def memory_share(book: Path) -> float:
    """The part of the file that the memory is, packed: its sheet and its texts."""
    with zipfile.ZipFile(book) as source:
        sheets = [each for each in source.namelist() if "worksheets/sheet" in each]
        last = max(sheets, key=lambda name: int(re.sub(r"\D", "", name)))
        texts = source.read("xl/sharedStrings.xml").decode()
        packed = source.getinfo("xl/sharedStrings.xml").compress_size
        without = re.sub(r"<si><t[^>]*>\[.*?</t></si>", "", texts, flags=re.DOTALL)
        out = io.BytesIO()
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
            made.writestr("x", without)
        rest = zipfile.ZipFile(out).getinfo("x").compress_size
        added = source.getinfo(last).compress_size + packed - rest
        return added / (book.stat().st_size - added)


def main() -> None:
    """Print what was measured."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--sizes", nargs="+", type=int, default=[250, 2500])
    asked.add_argument("--rounds", type=int, default=3)
    given = asked.parse_args()
    for runs in given.sizes:
        with tempfile.TemporaryDirectory() as beside:
            season = large.write(Path(beside) / "season", runs)
            book, typed = Path(beside) / "book.xlsx", Path(beside) / "typed.xlsx"
            ratios: dict[str, list[float]] = {"compare": [], "take": []}
            seconds, most = 0.0, 0.0
            for _ in range(given.rounds):
                seconds, _ = run("build", str(season), "-o", str(book), "--force")
                edited(book, typed)
                for command, more in (("compare", []), ("take", ["--dry-run"])):
                    took, memory = run(command, str(season), str(typed), *more)
                    ratios[command].append(took / seconds)
                    most = max(most, memory)
            said = ", ".join(f"{k} {statistics.median(v):.2f}" for k, v in ratios.items())
            print(
                f"{runs:6,} runs: build {seconds:.2f} s; times that: {said}; {most:.0f} MB; "
                f"the memory adds {memory_share(book):.1%}"
            )


if __name__ == "__main__":
    main()
