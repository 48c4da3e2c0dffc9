"""A file is written whole or not at all."""

from __future__ import annotations

import os
import stat

import pytest

from reportgen.write import seal
from reportgen.write.files import Target

OLD, NEW = seal.page(b"old\n"), seal.page(b"new\n")


def test_a_new_file_and_a_replaced_one(tmp_path):
    target = tmp_path / "season.xlsx"
    Target(target).save(OLD)
    Target(target).save(NEW)
    assert target.read_bytes() == NEW
    assert os.listdir(tmp_path) == ["season.xlsx"]


def test_a_new_file_has_the_usual_rights_and_an_old_one_keeps_its_own(tmp_path):
    usual = tmp_path / "usual"
    usual.write_bytes(b"")
    target = tmp_path / "season.xlsx"
    Target(target).save(OLD)
    assert stat.S_IMODE(target.stat().st_mode) == stat.S_IMODE(usual.stat().st_mode)
    target.chmod(0o640)
    Target(target).save(NEW)
    assert stat.S_IMODE(target.stat().st_mode) == 0o640


@pytest.mark.parametrize("step", ["fsync", "replace", "chmod", "open", "fstat"])
def test_a_failure_leaves_the_old_file_whole_and_nothing_beside_it(tmp_path, monkeypatch, step):
    target = tmp_path / "season.xlsx"
    target.write_bytes(OLD)
    place = Target(target)

    def fail(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("pathlib.Path.open" if step == "open" else f"os.{step}", fail)
    with pytest.raises(OSError, match=r"No space left on device.*season\.xlsx"):
        place.save(NEW)
    monkeypatch.undo()
    assert target.read_bytes() == OLD
    assert os.listdir(tmp_path) == ["season.xlsx"]


def test_an_interruption_leaves_nothing_behind(tmp_path, monkeypatch):
    target = tmp_path / "season.xlsx"
    target.write_bytes(OLD)

    def stop(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", stop)
    with pytest.raises(KeyboardInterrupt):
        Target(target).save(NEW)
    assert target.read_bytes() == OLD
    assert os.listdir(tmp_path) == ["season.xlsx"]


def test_what_a_kill_left_is_swept_and_what_is_being_written_is_not(tmp_path):
    fcntl = pytest.importorskip("fcntl")
    left, held = tmp_path / ".reportgen-0123.part", tmp_path / ".reportgen-4567.part"
    other = tmp_path / ".other.part"
    for each in (left, held, other):
        each.write_bytes(b"half")
    with held.open("rb") as stream:
        fcntl.flock(stream, fcntl.LOCK_EX)
        Target(tmp_path / "season.xlsx").save(NEW)
    assert sorted(os.listdir(tmp_path)) == [other.name, held.name, "season.xlsx"]


def test_errors_say_what_to_do(tmp_path):
    with pytest.raises(OSError, match=r"there is no folder .*nowhere; make it first"):
        Target(tmp_path / "nowhere" / "season.xlsx")
    with pytest.raises(OSError, match="this is a folder; name a file in it"):
        Target(tmp_path)
