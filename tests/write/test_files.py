"""A file is written whole or not at all."""

from __future__ import annotations

import os
import stat

import pytest

from reportgen.write.files import save


def test_a_new_file_and_a_replaced_one(tmp_path):
    target = tmp_path / "season.xlsx"
    save(target, b"one")
    save(target, b"two")
    assert target.read_bytes() == b"two"
    assert os.listdir(tmp_path) == ["season.xlsx"]


def test_a_new_file_has_the_usual_rights_and_an_old_one_keeps_its_own(tmp_path):
    usual = tmp_path / "usual"
    usual.write_bytes(b"")
    target = tmp_path / "season.xlsx"
    save(target, b"one")
    assert stat.S_IMODE(target.stat().st_mode) == stat.S_IMODE(usual.stat().st_mode)
    target.chmod(0o640)
    save(target, b"two")
    assert stat.S_IMODE(target.stat().st_mode) == 0o640


@pytest.mark.parametrize("step", ["fsync", "replace", "chmod"])
def test_a_failure_leaves_the_old_file_whole_and_nothing_beside_it(tmp_path, monkeypatch, step):
    target = tmp_path / "season.xlsx"
    target.write_bytes(b"old")

    def fail(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(OSError, match=r"season\.xlsx: could not be written \(No space left"):
        save(target, b"new")
    assert target.read_bytes() == b"old"
    assert os.listdir(tmp_path) == ["season.xlsx"]


def test_an_interruption_leaves_nothing_behind(tmp_path, monkeypatch):
    target = tmp_path / "season.xlsx"
    target.write_bytes(b"old")

    def stop(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", stop)
    with pytest.raises(KeyboardInterrupt):
        save(target, b"new")
    assert target.read_bytes() == b"old"
    assert os.listdir(tmp_path) == ["season.xlsx"]


def test_errors_say_what_to_do(tmp_path):
    with pytest.raises(OSError, match=r"there is no folder .*nowhere; make it first"):
        save(tmp_path / "nowhere" / "season.xlsx", b"")
    with pytest.raises(OSError, match="this is a folder; name a file in it"):
        save(tmp_path, b"")


def test_a_link_stays_a_link(tmp_path):
    real, link = tmp_path / "real.xlsx", tmp_path / "link.xlsx"
    real.write_bytes(b"old")
    link.symlink_to(real)
    save(link, b"new")
    assert link.is_symlink()
    assert real.read_bytes() == b"new"


def test_refused_rights(tmp_path, monkeypatch):
    def refuse(*_args, **_kwargs):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("tempfile.mkstemp", refuse)
    with pytest.raises(PermissionError, match="not allowed to write here; close the file"):
        save(tmp_path / "season.xlsx", b"")
