"""Every formula of the trade, in the workbook, gives in two engines what Python gave."""

from __future__ import annotations

from pathlib import Path

from engines import audit, iron
from engines.cells import cells
from engines.compare import differences
from seasons import Season, sample_seasons, tiny

from reportgen.program import build


def built(season: Season, folder: Path) -> Path:
    folder.mkdir()
    content, problems = build(season.write(folder))
    assert content is not None, problems
    path = folder / "season.xlsx"
    path.write_bytes(content)
    return path


def test_both_engines_agree_with_the_caches(tmp_path: Path) -> None:
    seasons = [tiny(), *sample_seasons(2, 5, "medium")]
    paths = [built(season, tmp_path / str(n)) for n, season in enumerate(seasons)]
    assert audit.faults(paths, tmp_path / "out") == {}


def test_the_faster_engine_agrees_on_more(tmp_path: Path) -> None:
    for n, season in enumerate(sample_seasons(6, 6)):
        path = built(season, tmp_path / str(n))
        contents = cells(path)
        assert sum(cell.formula is not None for cell in contents.values()) > 1000
        assert differences(contents, iron.recalculate(path)) == []
