"""Every formula of the trade, in the workbook, gives in two engines what Python gave."""

from __future__ import annotations

from pathlib import Path
from random import Random

from engines import audit, iron
from engines.cells import cells
from engines.compare import differences
from seasons import Season, sample_seasons, tiny
from seasons.as_written import as_people_write
from thorough import some

from reportgen.program import build


def built(season: Season, folder: Path) -> Path:
    folder.mkdir()
    content, problems = build(season.write(folder))
    assert content is not None, problems
    path = folder / "season.xlsx"
    path.write_bytes(content)
    return path


def test_both_engines_agree_with_the_caches(tmp_path: Path) -> None:
    plain, other = sample_seasons(2, 5, "medium")
    seasons = [tiny(), plain, as_people_write(Random(5), other, about=True)]
    paths = [built(season, tmp_path / str(n)) for n, season in enumerate(seasons)]
    assert audit.faults(paths, tmp_path / "out") == {}


def test_the_faster_engine_agrees_on_more(tmp_path: Path) -> None:
    plain = sample_seasons(some(of=4, at_every_change=1), 6)
    others = sample_seasons(some(of=3, at_every_change=1), 13, "medium")
    told = [as_people_write(Random(n), each, about=True) for n, each in enumerate(others)]
    for n, season in enumerate([*plain, *told]):
        path = built(season, tmp_path / str(n))
        contents = cells(path)
        assert sum(cell.formula is not None for cell in contents.values()) > 1000
        assert differences(contents, iron.recalculate(path)) == []
