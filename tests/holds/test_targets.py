"""What stands at the place of a file that is written: nobody's work is lost, nothing odd is hit."""

from __future__ import annotations

import os
import re
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from cli.seasons import run, season
from click.testing import Result

from reportgen.write import seal
from reportgen.write.files import Target

pytestmark = pytest.mark.slow

WRITERS = {
    "build": "shelf.xlsx",
    "page": "shelf.html",
    "labels": "shelf.html",
    "sheet": "pear-slices.html",
    "sheet's workbook": "pear-slices.xlsx",
}
SAVED = b"what somebody saved"
OURS = seal.page(b"<p>ours</p>\n")
LATER = seal.page(b"<p>later</p>\n")
forced = pytest.mark.parametrize("force", [False, True])


@pytest.fixture(params=WRITERS)
def writer(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[Path, Callable[..., Result]]:
    """The file that a command writes, and the command; options go to it."""
    place = season(tmp_path)
    target = tmp_path / "out" / WRITERS[request.param]
    target.parent.mkdir()
    command = request.param.removesuffix("'s workbook")
    words = ("pear-slices", "-o", target.parent) if command == "sheet" else ("-o", target)
    words = (*words, "--pack", "P-1", "--doubtful") if command == "labels" else words
    return target, lambda *more: run(command, place, *words, *more)


def told(done: Result) -> str:
    return " ".join(done.stderr.split())


def test_a_command_leaves_alone_what_someone_wrote_or_saved(writer, monkeypatch) -> None:
    target, command = writer
    target.write_bytes(SAVED)
    done = command()
    assert done.exit_code == 2
    assert "changed since reportgen wrote it, or reportgen did not write it" in told(done)
    assert str(target) in done.stderr.replace("\n", "")
    assert target.read_bytes() == SAVED

    assert command("--force").exit_code == 0
    whole = target.read_bytes()
    assert seal.untouched(BytesIO(whole))

    # Saved while the command is at work: looked at again right before the file is moved there.
    fsync = os.fsync
    monkeypatch.setattr(os, "fsync", lambda handle: (fsync(handle), target.write_bytes(SAVED)))
    done = command("--force")
    assert done.exit_code == 2
    assert "was saved while" in told(done)
    assert target.read_bytes() == SAVED
    assert not list(target.parent.glob(".*"))


def test_a_command_looks_at_the_place_before_any_work(tmp_path: Path, monkeypatch) -> None:
    def read(*_: object) -> None:
        raise AssertionError("the season was read")

    monkeypatch.setattr("reportgen.program.read", read)
    for command, name in (("build", "a.xlsx"), ("page", "a.html"), ("labels", "a.html")):
        (tmp_path / name).write_bytes(SAVED)
        assert run(command, tmp_path, "-o", tmp_path / name).exit_code == 2


def save_while(monkeypatch: pytest.MonkeyPatch, act: Callable[[], object]) -> None:
    """Do something at the last moment before the place is looked at again."""
    waiting = [act]
    monkeypatch.setattr(os, "fsync", lambda handle: waiting and waiting.pop()())


def test_ours_is_replaced_and_so_is_an_empty_file(tmp_path: Path) -> None:
    place = tmp_path / "a.html"
    for before in (OURS, b""):
        place.write_bytes(before)
        Target(place).save(LATER)
        assert place.read_bytes() == LATER


@pytest.mark.parametrize("saved", [SAVED, OURS + b" "])
@pytest.mark.parametrize("before", [None, OURS, SAVED + b" ", b""])
@forced
def test_a_save_while_we_are_at_work_is_not_lost(tmp_path, monkeypatch, before, saved, force):
    place = tmp_path / "a.html"
    if before is not None:
        place.write_bytes(before)
        if not force and before.startswith(SAVED):
            with pytest.raises(OSError, match="changed since reportgen wrote it"):
                Target(place)
            return
    target = Target(place, force)
    save_while(monkeypatch, lambda: place.write_bytes(saved))
    with pytest.raises(OSError, match="was saved while"):
        target.save(LATER)
    assert place.read_bytes() == saved
    assert os.listdir(tmp_path) == ["a.html"]


@forced
def test_the_same_content_in_another_file_is_another_file(tmp_path, monkeypatch, force) -> None:
    """Programs that save write a new file and move it there: it is told by its identity, too."""
    place, other = tmp_path / "a.html", tmp_path / "b.html"
    place.write_bytes(SAVED)
    target = Target(place, force=True)
    other.write_bytes(SAVED)
    save_while(monkeypatch, lambda: other.rename(place))
    with pytest.raises(OSError, match="was saved while"):
        target.save(LATER)


@pytest.mark.parametrize("before", [None, OURS])
@forced
def test_two_runs_at_once_both_end_well(tmp_path, monkeypatch, before, force) -> None:
    """What another run of the program wrote meanwhile is no one's work."""
    place = tmp_path / "a.html"
    if before:
        place.write_bytes(before)
    target = Target(place, force)
    save_while(monkeypatch, lambda: place.write_bytes(LATER))
    target.save(OURS)
    assert place.read_bytes() == OURS


def test_a_file_that_turns_up_between_the_last_look_and_the_move_stays(tmp_path, monkeypatch):
    place = tmp_path / "a.html"
    link = os.link

    def just_before(source: str, to: str) -> None:
        place.write_bytes(SAVED)
        link(source, to)

    monkeypatch.setattr(os, "link", just_before)
    with pytest.raises(OSError, match="was saved while"):
        Target(place).save(OURS)
    assert place.read_bytes() == SAVED
    assert os.listdir(tmp_path) == ["a.html"]


def test_a_disk_without_hard_links(tmp_path: Path, monkeypatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", refuse)
    Target(tmp_path / "a.html").save(OURS)
    assert (tmp_path / "a.html").read_bytes() == OURS
    assert os.listdir(tmp_path) == ["a.html"]


@forced
@pytest.mark.parametrize("kind", ["pipe", "device", "link to a pipe", "link to a device"])
def test_only_a_plain_file_is_written(tmp_path: Path, kind: str, force: bool) -> None:
    place = tmp_path / "a.html"
    odd = tmp_path / "odd" if "link" in kind else place
    if "pipe" in kind:
        os.mkfifo(odd)
    else:
        odd.symlink_to("/dev/null")
    if odd != place:
        place.symlink_to(odd)
    with pytest.raises(OSError, match=r"a\.html: this is no plain file"):
        Target(place, force)
    assert not odd.is_file()


@forced
def test_what_may_only_be_read_is_left_alone(tmp_path: Path, force: bool) -> None:
    place = tmp_path / "a.html"
    place.write_bytes(OURS)
    place.chmod(0o444)
    with pytest.raises(OSError, match=r"a\.html: this file may only be read"):
        Target(place, force)


def test_it_is_looked_for_again_what_it_became(tmp_path: Path, monkeypatch) -> None:
    place = tmp_path / "a.html"
    target = Target(place)
    save_while(monkeypatch, lambda: os.mkfifo(place))
    with pytest.raises(OSError, match="no plain file"):
        target.save(OURS)
    assert os.listdir(tmp_path) == ["a.html"]


def test_links_that_go_in_a_circle_are_named(tmp_path: Path) -> None:
    (tmp_path / "a.html").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a.html")
    done = run("page", season(tmp_path), "-o", tmp_path / "a.html")
    assert done.exit_code == 2
    assert f"{tmp_path / 'a.html'}: links lead in a circle" in told(done)


@pytest.mark.parametrize("before", [None, OURS])
def test_a_link_to_a_plain_file_stays_one(tmp_path: Path, before: bytes | None) -> None:
    place, real = tmp_path / "a.html", tmp_path / "real"
    if before:
        real.write_bytes(before)
    place.symlink_to(real)
    Target(place).save(LATER)
    assert place.is_symlink() and real.read_bytes() == LATER


def flips(data: bytes) -> set[int]:
    step = max(1, len(data) // 200)
    return {*range(0, len(data), step), *range(max(0, len(data) - 4000), len(data), 7)}


@pytest.mark.parametrize("kind", ["workbook", "page"])
def test_every_byte_counts(tmp_path: Path, kind: str) -> None:
    """A bit that flips anywhere, in any part, and bytes before or after, break the seal."""
    data = OURS
    if kind == "workbook":
        assert run("build", season(tmp_path), "-o", tmp_path / "a.xlsx").exit_code == 0
        data = (tmp_path / "a.xlsx").read_bytes()
        for changed in (
            repacked(data, other_title),
            repacked(data, more_properties),
            repacked(data, lambda _, part: part, b"mine"),
        ):
            assert changed != data and not seal.untouched(BytesIO(changed))
    assert seal.untouched(BytesIO(data))
    for at in flips(data):
        flipped = bytearray(data)
        flipped[at] ^= 1 << at % 8
        assert not seal.untouched(BytesIO(bytes(flipped))), at
    for other in (b" " + data, data + b" ", data + data, data[:-1], data[1:], b""):
        assert not seal.untouched(BytesIO(other))


def repacked(data: bytes, change: Callable[[str, bytes], bytes], comment: bytes = b"") -> bytes:
    made = BytesIO()
    with zipfile.ZipFile(BytesIO(data)) as old, zipfile.ZipFile(made, "w") as new:
        for info in old.infolist():
            new.writestr(info, change(info.filename, old.read(info)))
        new.comment = comment
    return made.getvalue()


def other_title(name: str, part: bytes) -> bytes:
    return re.sub(rb"(<dc:title>)", rb"\1My ", part) if name == "docProps/core.xml" else part


def more_properties(name: str, part: bytes) -> bytes:
    return part.replace(b"</Properties>", b" </Properties>") if "custom" in name else part
