"""Only plain files inside the season are read, and nothing that looks like one is passed over."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest
from cli.seasons import BATCH, SEASON, run, season

from reportgen.read import files
from reportgen.read.opened import contents

pytestmark = pytest.mark.seasons

MORE = "lots: [{id: pears-9, product: pear-slices, weighed: 4 lb}]\n"


def told(place: Path) -> tuple[int, str, str]:
    done = run("check", place)
    return done.exit_code, " ".join(done.stderr.split()), done.stdout


TEXTS = {
    "season.yaml": SEASON,
    "batches/more.yaml": MORE,
    "recipes/plum-halves.yaml": "name: Plums\n",
    "logs/a.csv": "time,W\n2025-09-05 18:00,700\n2025-09-06 18:00,700\n",
}
LOGGED = BATCH.replace("    energy: 20 kWh\n", "    meter: logs/a.csv\n")


@pytest.mark.parametrize("at", TEXTS)
@pytest.mark.parametrize("kind", ["pipe", "socket", "device", "folder", "link out", "link in"])
def test_only_plain_files_inside_are_read(tmp_path: Path, at: str, kind: str) -> None:
    place = season(tmp_path, LOGGED if at == "logs/a.csv" else BATCH)
    target = place / at
    target.parent.mkdir(exist_ok=True)
    text = TEXTS[at]
    target.unlink(missing_ok=True)
    elsewhere = (tmp_path if kind == "link out" else place) / "else.txt"
    elsewhere.write_text(text)
    if kind == "pipe":
        os.mkfifo(target)
    elif kind == "socket":
        with socket.socket(socket.AF_UNIX) as end:
            here = os.getcwd()
            os.chdir(target.parent)  # the path of a socket is short
            end.bind(target.name)
            os.chdir(here)
    elif kind == "folder":
        target.mkdir()
        (target / "x").touch()
    else:
        target.symlink_to("/dev/zero" if kind == "device" else elsewhere)
    if at.startswith("recipes"):
        with (place / "batches" / "2025-09-05.yaml").open("a") as file:
            file.write(
                "  - {id: o-2, product: plum-halves, date: 2025-08-01, net: 4 oz, price: 9 USD}\n"
            )
    code, said, _ = told(place)
    if kind == "link in":
        assert code == 0, said
    elif kind == "folder" and at.startswith(("batches", "recipes")):
        assert code == 0, said  # a folder may have any name; nothing of ours is in it
    else:
        assert code == 1, said
        assert at in said
        assert at.startswith("logs") or "link that leads out" in said or "not a file" in said


@pytest.mark.parametrize("name", ["batches", "recipes"])
def test_a_folder_that_leads_out_is_refused(tmp_path: Path, name: str) -> None:
    place = season(tmp_path, batch="")
    (place / "batches").rmdir()
    (tmp_path / "away").mkdir()
    (place / name).symlink_to(tmp_path / "away")
    code, said, _ = told(place)
    assert code == 1
    assert f"{name}: this is a link that leads out of the season's folder" in said


ODD = {
    "batches/pears.YAML": "batches/pears.YAML: caution: this file is not read",
    "batches/pears.yaml.txt": "batches/pears.yaml.txt: caution: this file is not read",
    "batches/2025/pears.Yml": "batches/2025/pears.Yml: caution: this file is not read",
    "batches/pears.yml (copy)": "batches/pears.yml (copy): caution: this file is not read",
    "pears.yaml": "pears.yaml: caution: this file is not read",
    "season.yaml.txt": "season.yaml.txt: caution: this file is not read",
    "batch/pears.yaml": "batch: caution: the files in this folder are not read",
    "Batches/pears.yaml": "Batches: caution: the files in this folder are not read",
    "recipes/plums.YAML": "recipes/plums.YAML: caution: this file is not read",
    "recipes/more/plums.yaml": "recipes/more: caution: the files in this folder are not read",
}


@pytest.mark.parametrize("name", ODD)
def test_what_looks_like_a_batch_and_is_not_read_is_named(tmp_path: Path, name: str) -> None:
    place = season(tmp_path)
    (place / name).parent.mkdir(exist_ok=True, parents=True)
    (place / name).write_text(MORE)
    code, said, shown = told(place)
    assert code == 0
    assert ODD[name] in said
    assert "1 lot," in shown


@pytest.mark.parametrize("name", ["batches/.pears.yaml", "batches/#pears.yaml#", "batches/a.yaml~",
                                  "logs/run.csv", "notes.txt", "schema/batch.json"])  # fmt: skip
def test_what_does_not_look_like_one_is_not_named(tmp_path: Path, name: str) -> None:
    place = season(tmp_path)
    (place / name).parent.mkdir(exist_ok=True)
    (place / name).write_text("x")
    assert told(place)[:2] == (0, "")


@pytest.mark.parametrize("name", ["batches", "recipes"])
def test_a_folder_that_is_a_file(tmp_path: Path, name: str) -> None:
    place = season(tmp_path, batch="")
    (place / "batches").rmdir()
    (place / name).write_text(MORE)
    code, said, _ = told(place)
    assert code == 1
    assert f"{name}: this is no folder" in said


def test_a_link_to_a_folder_of_batches_is_named(tmp_path: Path) -> None:
    place = season(tmp_path)
    (place / "more").mkdir()
    (place / "batches" / "more").symlink_to(place / "more")
    code, said, _ = told(place)
    assert code == 0 and "batches/more: caution: this file is not read" in said


@pytest.mark.parametrize("at", ["", "batches", "batches/2025", "recipes"])
def test_a_folder_that_cannot_be_listed_is_an_error_with_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: str
) -> None:
    place = season(tmp_path)
    (place / at).mkdir(exist_ok=True)
    scandir = os.scandir

    def refuse(folder: Path) -> object:
        if Path(folder) == place / at:
            raise PermissionError(13, "Permission denied", str(folder))
        return scandir(folder)

    monkeypatch.setattr(os, "scandir", refuse)
    code, said, _ = told(place)
    assert code == 1
    assert f"{at or 'larch'}: the folder cannot be listed (permission denied)" in said


def test_a_named_file_may_be_a_link_but_no_pipe(tmp_path: Path) -> None:
    place = season(tmp_path, batch="")
    link = tmp_path / "one.yaml"
    link.symlink_to(place / "season.yaml")
    assert told(link)[0] == 0
    os.mkfifo(tmp_path / "pipe.yaml")
    code, said, _ = told(tmp_path / "pipe.yaml")
    assert code == 1 and "pipe.yaml: this is a pipe, not a file" in said


def test_no_more_than_the_limit_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = season(tmp_path)
    (place / "batches" / "large.yaml").write_bytes(b"# " + b"x" * files.LARGEST)
    code, said, _ = told(place)
    assert code == 1 and "batches/large.yaml: the file is larger than 5 MB" in said
    # Not by what the system says of its size: what grows meanwhile, too.
    assert contents(place / "batches" / "large.yaml", 10) is None
    assert contents(place / "season.yaml", 10_000) is not None


def test_a_log_past_its_limit_is_refused(tmp_path: Path) -> None:
    place = season(tmp_path, LOGGED)
    (place / "logs").mkdir()
    with (place / "logs" / "a.csv").open("wb") as file:
        file.truncate(400_000_001)  # holes take no room on the disk
    code, said, _ = told(place)
    assert code == 1 and "logs/a.csv: the log is larger than 400 MB" in said
