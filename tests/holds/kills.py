"""Hundreds of kills and races, by hand: ``python tests/holds/kills.py [KILLS] [RACES]``.

Kills are aimed evenly at every stage of each command, from the start of Python to the move into
place. Each must leave the old file or the new one, whole; signals that can be caught must leave
nothing beside it, say nothing of a traceback, and end with their own exit code. A race saves
another content over the target at a random moment of the command: the save must be found afterwards
unless it was made before the command took its first look.
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from io import BytesIO
from pathlib import Path

ROOT = Path(__file__).parents[2]
if __name__ == "__main__":
    sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from cli.seasons import season  # noqa: E402

from reportgen.write import seal  # noqa: E402

COMMANDS = {"build": "a.xlsx", "page": "a.html", "sheet": "pear-slices.xlsx"}
SIGNALS = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)
SAVED = b"what somebody saved"
_HELD = """
import os, sys, time
fsync = os.fsync
def held(handle):
    fsync(handle)
    print("here", flush=True)
    time.sleep(float(os.environ["HELD"]))
os.fsync = held
from reportgen.__main__ import main
sys.argv[0] = "reportgen"
main()
"""


def prepared(folder: Path) -> Path:
    return season(folder)


def _as_by_a_terminal() -> None:
    """Heed the signals: whoever runs the tests in the background may have had them ignored, and
    that is handed down."""
    for number in SIGNALS:
        signal.signal(number, signal.SIG_DFL)


class Killing:
    """One command of one season, and what went wrong when it was killed."""

    def __init__(self, place: Path, command: str) -> None:
        self.season = place
        self.folder = place.parent / f"out-{command}"
        self.folder.mkdir()
        self.target = self.folder / COMMANDS[command]
        where = self.folder if command == "sheet" else self.target
        self.words = [command, str(place), *(["pear-slices"] if command == "sheet" else [])]
        self.words += ["-o", str(where)]
        self.faults: list[str] = []
        begun = time.monotonic()
        self._start().communicate()
        self.takes = time.monotonic() - begun
        self.good = {seal_of(each) for each in self.folder.iterdir()}
        assert self.good

    def _start(self, held: float | None = None, before: str = "") -> subprocess.Popen[str]:
        line = [sys.executable, *(["-m", "reportgen"] if held is None else ["-c", _HELD])]
        if before:
            line = ["sh", "-c", f'{before}exec "$@"', "sh", *line]
        env = {**os.environ, "PYTHONPATH": str(ROOT), "HELD": str(held)}
        return subprocess.Popen(
            [*line, *self.words], env=env, text=True, stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True,
            preexec_fn=_as_by_a_terminal,
        )  # fmt: skip

    def try_one(self, number: int, share: float) -> None:
        """Send a signal after a share of the time that the command takes."""
        if random.random() < 0.3:
            self.target.unlink(missing_ok=True)
        fresh = not self.target.exists()
        process = self._start()
        time.sleep(share * self.takes)
        process.send_signal(number)
        _, said = process.communicate(timeout=60)
        code = process.returncode
        # Before its first line runs, Python ends by the signal itself, and is killed or has ended.
        expected = {0, -number, 128 + number}
        what = f"{self.words[0]}, signal {number} at {share:.3f}: "
        if code not in expected:
            self.faults.append(f"{what}exit {code}: {said[-300:]}")
        if "Traceback" in said and "reportgen" in said:
            self.faults.append(f"{what}{said[-500:]}")
        if number != signal.SIGKILL and self.left():
            self.faults.append(f"{what}left {self.left()}")
        if not self.whole(missing=fresh):
            self.faults.append(f"{what}the file is not whole")

    def while_writing(self, number: int, before: str = "") -> tuple[int, str, list[str]]:
        """Send a signal while half a file lies beside the target: code, stderr, what is left."""
        process = self._start(held=2 if before else 30, before=before)
        assert process.stdout is not None
        process.stdout.readline()
        process.send_signal(number)
        _, said = process.communicate(timeout=60)
        return process.returncode, said, self.left()

    def left(self) -> list[str]:
        """Files half written."""
        return [each.name for each in self.folder.iterdir() if each.name.startswith(".")]

    def whole(self, missing: bool = False) -> bool:
        """Whether the target is as the command writes it."""
        if not self.target.exists():
            return missing
        return seal_of(self.target) in self.good

    def races(self, count: int) -> list[str]:
        """Save over the target at random moments; what was lost."""
        lost = []
        for number in range(count):
            self.target.unlink(missing_ok=True)
            self._start().communicate()
            process = self._start()
            time.sleep(random.random() * self.takes * 1.1)
            if number % 2:
                self.target.write_bytes(SAVED)
            else:
                other = self.target.with_name("other")
                other.write_bytes(SAVED)
                os.replace(other, self.target)
            process.communicate(timeout=60)
            if self.target.read_bytes() != SAVED:
                lost.append(f"race {number}: the save is gone, exit {process.returncode}")
        return lost


def seal_of(path: Path) -> bytes:
    data = path.read_bytes()
    return data if seal.untouched(BytesIO(data)) else b""


def main(kills: int = 500, races: int = 200) -> int:
    """Print the counts; 1 where something went wrong."""
    random.seed(9)
    wrong: list[str] = []
    numbers = (*SIGNALS, signal.SIGKILL)
    for command in COMMANDS:
        with tempfile.TemporaryDirectory() as folder:
            killing = Killing(prepared(Path(folder)), command)
            done = kills // len(COMMANDS)
            for each in range(done):
                killing.try_one(numbers[each % 4], each / done * 1.05)
            lost = killing.races(races // len(COMMANDS))
            killing._start().communicate()
            if killing.left():
                wrong.append(f"{command}: not swept: {killing.left()}")
            raced = races // len(COMMANDS)
            found = len(killing.faults)
            print(f"{command}: {done} kills, {found} faults; {raced} races, {len(lost)} saves lost")
            sys.stdout.flush()
            wrong += killing.faults + lost
    print("\n".join(wrong))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
