"""``new``: a season to start from."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from pathlib import Path


@click.command(short_help="Write a season to start from, with comments.")
@click.argument("folder", metavar="DIR")
def new(folder: str) -> None:
    """Write a season to start from, with comments, into a new or empty folder DIR.

    The files hold a small invented season that can be checked and built as it stands. Editors that
    know YAML complete and check while you type: each file names its schema.
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
    written = _write(place)
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


def _write(place: Path) -> list[Path]:
    import json

    from reportgen.model.schema import batch_schema, recipe_schema, season_schema
    from reportgen.program import data
    from reportgen.write.files import Target

    source = data("templates") / "season"
    files = {
        path.relative_to(source): path.read_bytes()
        for path in sorted(source.rglob("*"))
        if path.is_file()
    }
    written = []
    for name, content in files.items():
        (place / name).parent.mkdir(parents=True, exist_ok=True)
        Target(place / name).save(content)
        written.append(place / name)
    (place / "schema").mkdir()
    for kind, schema in (
        ("season", season_schema()), ("batch", batch_schema()), ("recipe", recipe_schema()),
    ):  # fmt: skip
        text = json.dumps(schema, indent=1, ensure_ascii=False) + "\n"
        Target(place / "schema" / f"{kind}.json").save(text.encode())
        written.append(place / "schema" / f"{kind}.json")
    return written
