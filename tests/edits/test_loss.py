"""Whatever happens while edits are written: each file is as it was or as it is to be, as a whole,
and the next call says which and goes on."""

from __future__ import annotations

import errno
import json
import os
import random
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from edits.desk import LIST_FILE, SEASON_FILE, SHORT_FILE, Desk, desk
from reportgen.edits import safely

pytestmark = pytest.mark.slow

_WRITES = """\
import json, os, sys
from pathlib import Path
from reportgen.edits import safely
folder, dies_at, versions = Path(sys.argv[1]), int(sys.argv[2]), json.load(sys.stdin)
calls = 0
def dying(real):
    def call(*given, **named):
        global calls
        calls += 1
        if calls == dies_at:
            os._exit(9)
        return real(*given, **named)
    return call
safely.open = dying(open)
for name in ("replace", "fsync", "chmod"):
    setattr(os, name, dying(getattr(os, name)))
print("begun", flush=True)
before, *after = versions
for version in after:
    safely.write_all(folder, version, {name: text.encode() for name, text in before.items()})
    before = version
"""
"""Writes one version of some files after another; ends like a lamp at its n-th call to the
system."""


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
    }


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


def test_what_is_written_is_what_was_meant(at: Desk) -> None:
    before = at.texts()
    goes_on(at, before, wanted(before))


OLD = {"a.yaml": "a: 1\n" * 9, "b.yaml": "b: 1\n" * 9000, "sub/c.yaml": "c: 1\n"}
NEW = {"a.yaml": "a: 2\n" * 9, "b.yaml": "b: 2\n" * 9000, "sub/c.yaml": "c: 2\n"}


def put(folder: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text)


def there(folder: Path) -> dict[str, str]:
    return {
        each.relative_to(folder).as_posix(): each.read_text() for each in folder.rglob("*.yaml")
    }


def writing(
    folder: Path, versions: list[dict[str, str]], dies_at: int = 0
) -> subprocess.Popen[str]:
    """A process that writes, and has begun."""
    process = subprocess.Popen(
        [sys.executable, "-c", _WRITES, str(folder), str(dies_at)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert process.stdin is not None and process.stdout is not None
    process.stdin.write(json.dumps(versions))
    process.stdin.close()
    assert process.stdout.readline() == "begun\n"
    return process


def settled(folder: Path) -> str:
    """Each file is old or new; the next call makes all of them the one or the other, and says
    which. What it said."""
    found = there(folder)
    assert all(text in (OLD[name], NEW[name]) for name, text in found.items())
    assert set(found) == set(OLD)
    noted = (folder / safely.NOTE).exists()
    said = safely.go_on(folder)
    assert there(folder) in (OLD, NEW)
    assert "finished" in said if noted else "finished" not in said
    if not noted:
        assert there(folder) == found, "what had not begun was taken back"
    assert not list(folder.rglob("*.taking")) and not (folder / safely.NOTE).exists()
    assert safely.go_on(folder) == ""
    return said.partition(":")[0]


@pytest.mark.slow
def test_ended_at_every_call_to_the_system(tmp_path: Path) -> None:
    said, call, code = set(), 0, 9
    while code == 9:
        call += 1
        folder = tmp_path / str(call)
        put(folder, OLD)
        code = writing(folder, [OLD, NEW], call).wait(60)
        said.add(settled(folder))
    assert code == 0 and there(folder) == NEW
    assert call > 20, "every open, move and settling was one of them"
    assert any("finished" in each for each in said) and any("taken back" in each for each in said)


@pytest.mark.slow
def test_killed_at_random_moments(tmp_path: Path) -> None:
    """Sixty in the gate; as many as one likes with REPORTGEN_KILLS."""
    rng = random.Random(10)
    moments = set()
    for number in range(int(os.environ.get("REPORTGEN_KILLS", "60"))):
        folder = tmp_path / str(number)
        put(folder, OLD)
        process = writing(folder, [OLD, NEW] * 200)
        time.sleep(rng.uniform(0, 0.05))
        process.kill()
        process.wait()
        moments.add(settled(folder))
    assert len(moments) > 1, "some were killed on the way"


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
            safely.os,
            "access",
            lambda path, mode: Path(path) != at.folder / file and real(path, mode),
        )
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


def test_a_file_changed_between_a_crash_and_the_next_call(tmp_path: Path) -> None:
    call = 0
    folder = tmp_path
    while not (folder / safely.NOTE).exists():
        call += 1
        folder = tmp_path / str(call)
        put(folder, OLD)
        assert writing(folder, [OLD, NEW], call).wait(60) == 9
    (folder / "b.yaml").write_text("b: mine\n")
    now = there(folder)
    with pytest.raises(safely.Changed, match=r"b\.yaml was changed"):
        safely.go_on(folder)
    assert there(folder) == now, "nothing of the editor's is lost"
    assert (folder / "b.yaml.taking").read_text() == NEW["b.yaml"], "nor what was to be"
