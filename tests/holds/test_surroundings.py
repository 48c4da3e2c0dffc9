"""The surroundings of a command: locale, time zone, home, rights, widths, streams, full disks."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest
from cli.seasons import ROOT, process, run, season
from write.test_files import NEW, OLD

from reportgen.write.files import Target

pytestmark = pytest.mark.slow

ENVIRONMENTS = {
    "C": {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    "a locale that is none": {"LC_ALL": "xx_XX.nothing"},
    "Latin-1": {"LC_ALL": "de_DE.ISO-8859-1", "PYTHONIOENCODING": "latin-1"},
    "Turkish": {"LC_ALL": "tr_TR.UTF-8", "LANGUAGE": "tr"},
    "Kiritimati": {"TZ": "Pacific/Kiritimati"},
    "a zone that is none": {"TZ": "Nowhere/Nothing"},
    "a zone of half hours": {"TZ": "<x>+3:17:09"},
    "no home": {"HOME": "/nonexistent"},
    "an empty home": {"HOME": ""},
    "no variables": None,
    "one column": {"COLUMNS": "1", "LINES": "1"},
    "no columns": {"COLUMNS": "0"},
    "columns in words": {"COLUMNS": "many"},
    "many columns": {"COLUMNS": "100000"},
    "a dumb terminal": {"TERM": "dumb", "NO_COLOR": "1"},
    "no terminal's name": {"TERM": ""},
    "no folder for what is temporary": {"TMPDIR": "/nonexistent"},
    "asserts taken out": {"PYTHONOPTIMIZE": "1"},
    "hashes by chance": {"PYTHONHASHSEED": "12345"},
    "warnings are errors": {"PYTHONWARNINGS": "error"},
    "development mode": {"PYTHONDEVMODE": "1"},
}


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, bytes, bytes]:
    """A season, and what is said of it and made of it in usual surroundings."""
    place = season(tmp_path_factory.mktemp("usual"))
    done = process("check", place)
    assert done.returncode == 0
    assert run("page", place, "-o", place.parent / "a.html").exit_code == 0
    return place, done.stdout, (place.parent / "a.html").read_bytes()


@pytest.mark.parametrize("name", ENVIRONMENTS)
def test_it_says_and_makes_the_same_in(usual, tmp_path: Path, name: str) -> None:
    place, said, page = usual
    given = ENVIRONMENTS[name]
    kept = os.environ if given is not None else {}
    epoch = os.environ["SOURCE_DATE_EPOCH"]
    env = {**kept, "PYTHONPATH": str(ROOT), "SOURCE_DATE_EPOCH": epoch, **(given or {})}
    code = (
        "import sys\nfrom reportgen.cli import app, _streams\n_streams()\n"
        "app(['check', sys.argv[1]], standalone_mode=False)\n"
        "app(['page', sys.argv[1], '-o', sys.argv[2]], standalone_mode=False)\n"
    )
    line = [sys.executable, "-c", code, str(place), str(tmp_path / "a.html")]
    done = subprocess.run(line, cwd=tmp_path, env=env, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith(said)
    assert done.stderr == b""
    assert (tmp_path / "a.html").read_bytes() == page


NOBODY = 65534
needs_root = pytest.mark.skipif(
    not hasattr(os, "geteuid"), reason="a system without users' numbers"
)


def as_nobody(warm: Sequence[object], *words: object) -> subprocess.CompletedProcess[str]:
    """A command by a user who has no rights of root, whoever runs the tests; ``warm`` is one like
    it that may do its work, so that all of the program is there before the rights are given up."""
    code = (
        "import os, sys\nfrom reportgen.cli import app\n"
        "app(sys.argv[2 : 2 + int(sys.argv[1])], standalone_mode=False)\n"
        f"os.geteuid() or os.setuid({NOBODY})\n"
        "app(sys.argv[2 + int(sys.argv[1]) :])\n"
    )
    line = [sys.executable, "-B", "-c", code, str(len(warm)), *map(str, (*warm, *words))]
    return subprocess.run(line, cwd=ROOT, capture_output=True, text=True, check=False)


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that every user may enter, and nobody write into; pytest's own are shut."""
    with tempfile.TemporaryDirectory() as folder:
        Path(folder).chmod(0o755)
        yield Path(folder)


@needs_root
@pytest.mark.parametrize("at", ["", "batches", "season.yaml", "batches/2025-09-05.yaml", "recipes"])
def test_no_right_to_read(open_folder: Path, at: str) -> None:
    place = season(open_folder)
    (place / "recipes").mkdir()
    other = shutil.copytree(place, open_folder / "other")
    (place / at).chmod(0)
    try:
        done = as_nobody(("check", other), "check", place)
    finally:
        (place / at).chmod(0o755)
    assert done.returncode in (1, 2), done.stderr
    assert (at or "larch") in done.stderr.replace("\n", "")
    assert "permission denied" in done.stderr.lower() or "no right" in done.stderr
    assert "Traceback" not in done.stderr and "fault of reportgen" not in done.stderr


@needs_root
@pytest.mark.parametrize("command", ["build", "page", "new", "sheet"])
def test_no_right_to_write(open_folder: Path, command: str) -> None:
    place = season(open_folder)
    shut = open_folder / "shut"
    shut.mkdir(mode=0o555)
    may = open_folder / "may"
    may.mkdir()

    def words(to: Path) -> tuple[object, ...]:
        return {
            "build": ("build", place, "-o", to / "a.xlsx"),
            "page": ("page", place, "-o", to / "a.html"),
            "new": ("new", to / "mine"),
            "sheet": ("sheet", place, "pear-slices", "-o", to),
        }[command]

    done = as_nobody(words(may), *words(shut))
    assert done.returncode == 2, done.stderr
    assert "you have no right to this" in " ".join(done.stderr.split())
    assert str(shut) in done.stderr.replace("\n", "")
    assert list(shut.iterdir()) == []


def calls(monkeypatch: pytest.MonkeyPatch, fails_at: int) -> list[str]:
    """Every call that writes or changes a file; the one of this number finds the disk full."""
    made: list[str] = []

    def counted(name: str, plain: Callable[..., object]) -> Callable[..., object]:
        def call(*args: object, **named: object) -> object:
            made.append(name)
            if len(made) == fails_at:
                raise OSError(28, "No space left on device")
            return plain(*args, **named)

        return call

    for name in ("fsync", "link", "replace", "chmod", "fdopen", "mkdir"):
        monkeypatch.setattr(os, name, counted(name, getattr(os, name)))
    monkeypatch.setattr(Path, "open", counted("open", Path.open))
    return made


@pytest.mark.parametrize("before", [None, OLD])
def test_the_disk_is_full_at_every_call(tmp_path: Path, before: bytes | None) -> None:
    place = tmp_path / "a.html"
    for number in range(1, 20):
        place.unlink(missing_ok=True)
        if before:
            place.write_bytes(before)
        with pytest.MonkeyPatch.context() as patch:
            made = calls(patch, number)
            try:
                Target(place).save(NEW)
                full = False
            except OSError as refused:
                full = True
                assert refused.filename == str(place)
        assert [each.name for each in tmp_path.iterdir() if each != place] == [], made
        held = place.read_bytes() if place.exists() else None
        assert held in ((before, NEW) if full else (NEW,)), made
        if len(made) < number:
            return
    raise AssertionError("it never came to an end")


@pytest.mark.parametrize("command", ["build", "page", "labels", "sheet", "new"])
@pytest.mark.parametrize("most", [0, 4096])
def test_files_may_only_be_so_large(tmp_path: Path, command: str, most: int) -> None:
    """As a full disk is: the first byte, or one in the middle, is refused."""
    place = season(tmp_path)
    out = tmp_path / "out"
    out.mkdir()
    words: dict[str, list[object]] = {
        "build": [place, "-o", out / "a.xlsx"],
        "page": [place, "-o", out / "a.html"],
        "labels": [place, "--pack", "P-1", "--doubtful", "-o", out / "a.html"],
        "sheet": [place, "pear-slices", "-o", out],
        "new": [out / "mine"],
    }
    code = (
        "import resource, signal, sys\nfrom reportgen.cli import main\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "most = int(sys.argv[1])\nresource.setrlimit(resource.RLIMIT_FSIZE, (most, most))\n"
        "del sys.argv[1]\nsys.exit(main())\n"
    )
    line = [sys.executable, "-B", "-c", code, str(most), command, *map(str, words[command])]
    done = subprocess.run(line, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 2, done.stderr
    assert "Traceback" not in done.stderr
    said = " ".join(done.stderr.split())
    assert "larger than the system allows" in said or "no folder takes temporary files" in said
    assert [each for each in out.rglob("*") if each.is_file() and not each.stat().st_size] == []
    assert list(out.rglob(".reportgen-*")) == []
