"""``new``: a season to start from, or the one that follows another."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from reportgen.cli.reading import as_of_option, season_of, there, warn_of_errors

if TYPE_CHECKING:
    from pathlib import Path

    from reportgen.algebra.numbers import Numbers


@click.command(short_help="Write a season to start from, with comments.")
@click.argument("folder", metavar="DIR")
@click.option("--after", metavar="SEASON", help="Begin from what this season ends with.")
@as_of_option
def new(folder: str, after: str | None, as_of: float | None) -> None:
    """Write a season to start from, with comments, into a new or empty folder DIR.

    The files hold a small invented season that can be checked and built as it stands. Editors that
    know YAML complete and check while you type: each file names its schema.

    With --after, it is the season that follows SEASON: rates, dryers, containers, pricing,
    overheads and scenarios as they stand there, the runs done and money saved so far, and what is
    left with its weight and cost: packs, bulk, prepared lots. All runs of SEASON must be done.

    \b
    For example:
      reportgen new season-2026 --after season-2025
    """
    from pathlib import Path

    place = Path(folder)
    if place.exists() and not place.is_dir():
        raise click.BadParameter(f"{folder} is a file; name a new folder", param_hint="DIR")
    if place.is_dir() and any(place.iterdir()):
        raise click.BadParameter(
            f"the folder {folder} is not empty; name a new one, so that nothing of yours is lost",
            param_hint="DIR",
        )
    if after is not None:
        _follow(place, folder, after, as_of)
        return
    source = _template()
    written = _write(place, source)
    click.echo(
        f"{place}: a season to start from, {len(written)} files.\n"
        "Read season.yaml first, change what is not yours, then:\n"
        f"  reportgen check {folder}\n"
        f"  reportgen build {folder}\n"
        "\n"
        "Before anyone eats it: freeze-drying does not make food safe. Moist food sealed without\n"
        "oxygen can carry botulism; raw meat, egg and dairy stay raw. Weight alone cannot prove\n"
        "that food is dry; a weight that stays the same, or a water-activity reading, can. Labels\n"
        "and sale follow your local food rules, and the licensed authority has the last word."
    )


def _template() -> dict[str, bytes]:
    from reportgen.program import data

    source = data("templates") / "season"
    return {
        path.relative_to(source).as_posix(): path.read_bytes()
        for path in sorted(source.rglob("*"))
        if path.is_file()
    }


def _write(place: Path, files: dict[str, bytes]) -> list[Path]:
    import json

    from reportgen.model.schema import batch_schema, recipe_schema, season_schema
    from reportgen.write.files import Target

    schemas = {"season": season_schema(), "batch": batch_schema(), "recipe": recipe_schema()}
    texts = {
        f"schema/{kind}.json": json.dumps(schema, indent=1, ensure_ascii=False) + "\n"
        for kind, schema in schemas.items()
    }
    written = []
    for name, content in {**files, **{k: v.encode() for k, v in texts.items()}}.items():
        (place / name).parent.mkdir(parents=True, exist_ok=True)
        Target(place / name).save(content)
        written.append(place / name)
    return written


def _follow(place: Path, folder: str, after: str, as_of: float | None) -> None:
    """Write the season that follows, once it is read again and opens with what the last closed
    with."""
    from reportgen.next.closing import not_done
    from reportgen.next.opening import LEFT, opening

    season, numbers = season_of(after, nothing="nothing was written", as_of=as_of)
    warn_of_errors(after, numbers)
    if unfinished := not_done(season, numbers):
        click.echo(
            "\n".join(unfinished) + "\n\nNothing was written: write the dry weights of these runs, "
            "or failed: true, and begin the next season then.",
            err=True,
        )
        raise click.exceptions.Exit(1)
    files, notes = opening(there(after), season, numbers)
    _try(files, numbers)
    written = _write(place, files)
    for note in notes:
        click.echo(f"Not carried over: {note}.", err=True)
    left = f"{LEFT} and carried_over" if LEFT in files else "carried_over"
    click.echo(
        f"{place}: the season after {season.name}, {len(written)} files.\n"
        f"What was left is in {left}, with its weight and cost as they were.\n"
        "Read season.yaml first, change what is no longer so, then:\n"
        f"  reportgen check {folder}"
    )


def _try(files: dict[str, bytes], last: Numbers) -> None:
    """Read the season in a folder of its own; what it opens with must be what the last closed
    with."""
    import tempfile
    from pathlib import Path

    from reportgen import program
    from reportgen.next.same import differences
    from reportgen.read.report import text

    with tempfile.TemporaryDirectory() as folder:
        for name, content in files.items():
            (Path(folder) / name).parent.mkdir(parents=True, exist_ok=True)
            (Path(folder) / name).write_bytes(content)
        done = program.read(Path(folder))
        if done.numbers is None:
            wrong = [text(each, lambda name: []) for each in done.problems]
        else:
            wrong = differences(last, done.numbers)
    if wrong:
        click.echo(
            "\n".join(wrong) + "\n\nNothing was written: the season that follows would not begin "
            "with what this one ends with.",
            err=True,
        )
        raise click.exceptions.Exit(1)
