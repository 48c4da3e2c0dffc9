"""Whatever happens while edits are written: each file is as it was or as it is to be, as a whole,
and the next call says which and goes on."""

from __future__ import annotations

import errno
import os
import random
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from edits.desk import LIST_FILE, SEASON_FILE, SHORT_FILE, Desk, desk
from reportgen.edits import safely

_DIES = """\
import os, sys
at, left = int(sys.argv.pop(1)), 0
from reportgen.__main__ import main
from reportgen.edits import safely
def dying(real):
    def call(*given, **named):
        global left
        left += 1
        if left == at:
            os._exit(9)
        return real(*given, **named)
    return call
class Os:
    replace, fsync, chmod = dying(os.replace), dying(os.fsync), dying(os.chmod)
    def __getattr__(self, name):
        return getattr(os, name)
safely.os = Os()
safely.open = dying(open)
sys.argv[0] = "reportgen"
main()
"""
"""``take``, that ends like a lamp at its n-th call to the system."""


@pytest.fixture
def at(tmp_path: Path) -> Desk:
    made = desk(tmp_path)
    made.type(
        {
            made.at.cell("rates", "rates", "labor"): 11,
            made.at.cell("lots", "pears-2", "weighed"): 9.5,
            made.at.cell("runs", 1, "duration"): 30.5,
            **{made.at.new("lots", n): v for n, v in
               {"key": "pears-9", "product": "pear-slices", "date": 45950.0, "weighed": 5}.items()},
        }
    )  # fmt: skip
    return made


NEW_FILE = "batches/2025-10-20.yaml"


def wanted(before: dict[str, str]) -> dict[str, str]:
    return {
        SEASON_FILE: before[SEASON_FILE].replace("10 USD/h", "11 USD/h"),
        LIST_FILE: before[LIST_FILE].replace("9 lb}", "9.5 lb}"),
        SHORT_FILE: before[SHORT_FILE].replace("31 h", "30.5 h"),
        NEW_FILE: "lots:\n  - {id: pears-9, product: pear-slices, date: 2025-10-20, "
                  "weighed: 5 lb}\n",
    }  # fmt: skip


def whole(at: Desk, before: dict[str, str], after: dict[str, str]) -> None:
    """Every file is old or new."""
    now = at.texts()
    assert set(before) <= set(now) <= set(after)
    for name, text in now.items():
        assert text in (before.get(name), after[name]), name


def goes_on(at: Desk, before: dict[str, str], after: dict[str, str]) -> str:
    """The next call finishes or takes back, says so, and takes what is left."""
    whole(at, before, after)
    done = at.run("take")
    assert done.exit_code == 0, done.output
    assert at.texts() == after
    left = {each.name for each in at.folder.rglob("*") if each.is_file()}
    assert not [name for name in left if name.endswith((".taking", ".json"))]
    kept = {each.relative_to(at.folder).as_posix() for each in at.folder.rglob("*.before")}
    assert kept <= {f"{name}.before" for name in before}
    for name in kept:
        assert (at.folder / name).read_text("utf-8") == before[name.removesuffix(".before")]
    return done.output


def dies(at: Desk, call: int) -> int:
    return subprocess.run(
        [sys.executable, "-c", _DIES, str(call), "take", str(at.folder), str(at.book)],
        stdin=subprocess.DEVNULL, capture_output=True, timeout=60,
    ).returncode  # fmt: skip


def test_what_is_written_is_what_was_meant(at: Desk) -> None:
    before = at.texts()
    goes_on(at, before, wanted(before))


@pytest.mark.slow
def test_ended_at_every_call_to_the_system(at: Desk) -> None:
    before = at.texts()
    said, call = set(), 0
    while True:
        call += 1
        code = dies(at, call)
        if code != 9:
            break
        output = goes_on(at, before, wanted(before))
        said.add(output.split(":")[0].partition(";")[0] if "earlier call" in output else "")
        for name, text in before.items():
            (at.folder / name).write_text(text, "utf-8")
            (at.folder / f"{name}.before").unlink(missing_ok=True)
        (at.folder / NEW_FILE).unlink()
    assert code == 0 and call > 20, "every open, write, move and settling was one of them"
    assert any("finished" in each for each in said)
    assert any("taken back" in each for each in said)


class Stopped(BaseException):
    """What a signal raises."""


def broken(monkeypatch: pytest.MonkeyPatch, name: str, nth: int, error: BaseException) -> None:
    real: Callable[..., object] = getattr(os, name)
    calls = 0

    def call(*given: object) -> object:
        nonlocal calls
        calls += 1
        if calls == nth:
            raise error
        return real(*given)

    monkeypatch.setattr(safely.os, name, call)


@pytest.mark.parametrize("error", [OSError(errno.ENOSPC, "No space left on device"), Stopped()],
                         ids=["a full disk", "a signal"])  # fmt: skip
@pytest.mark.parametrize("name", ["fsync", "replace"])
def test_any_write_and_move_may_fail(
    tmp_path: Path, name: str, error: BaseException, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At the level of files: all moments, each with its end."""
    old = {"a.yaml": "a: 1\n", "b.yaml": "b: 1\n", "sub/c.yaml": "c: 1\n"}
    new = {"a.yaml": "a: 2\n", "b.yaml": "b: 2\n", "sub/c.yaml": "c: 2\n", "sub/d.yaml": "d: 2\n"}
    outcomes = set()
    for nth in range(1, 40):
        folder = tmp_path / str(nth)
        for file, text in old.items():
            (folder / file).parent.mkdir(parents=True, exist_ok=True)
            (folder / file).write_text(text)
        read = {file: text.encode() for file, text in old.items()}
        with monkeypatch.context() as patched:
            broken(patched, name, nth, error)
            try:
                safely.write_all(folder, new, read)
            except (OSError, Stopped):
                failed = True
            else:
                failed = False
        now = {f: (folder / f).read_text() for f in new if (folder / f).exists()}
        assert all(text in (old.get(f), new[f]) for f, text in now.items())
        noted = (folder / safely.NOTE).exists()
        if not noted:
            assert now in (old, new)
        said = safely.go_on(folder)
        now = {f: (folder / f).read_text() for f in new if (folder / f).exists()}
        assert now == (new if noted or not failed else now) and now in (old, new)
        assert bool(said) or not noted
        assert not list(folder.rglob("*.taking")) and not (folder / safely.NOTE).exists()
        outcomes.add((failed, now == new))
        if not failed:
            break
    assert (False, True) in outcomes and (True, False) in outcomes
    assert name != "replace" or (True, True) in outcomes


def test_a_full_disk_is_said_and_nothing_is_written(
    at: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = at.texts()
    with monkeypatch.context() as patched:
        broken(patched, "fsync", 2, OSError(errno.ENOSPC, "No space left on device"))
        done = at.run("take")
    assert done.exit_code != 0
    assert at.texts() == before and not list(at.folder.rglob("*.taking"))
    goes_on(at, before, wanted(before))


@pytest.mark.parametrize("file", [SEASON_FILE, LIST_FILE, SHORT_FILE])
def test_a_file_that_may_not_be_written(
    at: Desk, file: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = at.texts()
    real = os.access
    with monkeypatch.context() as patched:  # whoever runs the tests may be allowed everything
        patched.setattr(
            safely.os, "access",
            lambda path, mode: Path(path) != at.folder / file and real(path, mode),
        )  # fmt: skip
        done = at.run("take")
    assert done.exit_code != 0
    assert at.texts() == before and not list(at.folder.rglob("*.taking"))
    goes_on(at, before, wanted(before))


@pytest.mark.parametrize("moment", ["before the first write", "after the last write"])
def test_a_file_changed_by_an_editor_meanwhile(
    at: Desk, moment: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = at.texts()
    real, times = safely._unchanged, 0
    edited = before[SHORT_FILE] + "# more\n"

    def looks(*given: object) -> None:
        nonlocal times
        times += 1
        if times == (1 if moment.startswith("before") else 5):
            (at.folder / SHORT_FILE).write_text(edited, "utf-8")
        real(*given)  # type: ignore[arg-type]

    with monkeypatch.context() as patched:
        patched.setattr(safely, "_unchanged", looks)
        done = at.run("take")
    assert done.exit_code != 0 and isinstance(done.exception, safely.Changed | SystemExit)
    assert at.texts() == {**before, SHORT_FILE: edited}
    assert not list(at.folder.rglob("*.taking"))
    now = at.texts()
    goes_on(at, now, {**wanted(before), SHORT_FILE: edited.replace("31 h", "30.5 h")})


def test_a_file_changed_between_a_crash_and_the_next_call(at: Desk) -> None:
    before = at.texts()
    call = 1
    while not (at.folder / safely.NOTE).exists():
        assert dies(at, call) == 9
        call += 1
    path = at.folder / SHORT_FILE
    path.write_text(path.read_text("utf-8") + "# mine\n", "utf-8")
    now = at.texts()
    done = at.run("take")
    assert done.exit_code != 0 and at.texts() == now, "nothing of the editor's is lost"
    assert SHORT_FILE in str(done.exception) + done.output
    assert before[LIST_FILE] == now[LIST_FILE] or now[LIST_FILE] == wanted(before)[LIST_FILE]


@pytest.mark.slow
def test_killed_at_random_moments(at: Desk) -> None:
    """Sixty in the gate; as many as one likes with REPORTGEN_KILLS."""
    before = at.texts()
    after = wanted(before)
    rng = random.Random(10)
    for _ in range(int(os.environ.get("REPORTGEN_KILLS", "20"))):
        process = subprocess.Popen(
            [sys.executable, "-m", "reportgen", "take", str(at.folder), str(at.book)],
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        try:
            process.wait(rng.uniform(0.3, 3.0))
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()
        whole(at, before, after)
    goes_on(at, before, after)
