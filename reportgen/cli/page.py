"""``page``: the season as a web page in one file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from reportgen.cli.output import force_option, page_target, put_page
from reportgen.cli.reading import as_of_option, season_argument, season_of, there

if TYPE_CHECKING:
    from pathlib import Path

    from reportgen.algebra.numbers import Numbers
    from reportgen.handout.gather import Gather
    from reportgen.model.season import Season
    from reportgen.write.files import Target


@click.command(short_help="Write the season as a web page, to read on a phone or print.")
@season_argument
@click.option("-o", "--output", metavar="FILE", help="The page to write, ending in .html.")
@force_option
@as_of_option
def page(season: str, output: str | None, force: bool, as_of: float | None) -> None:
    """Write a season as one web page, to read on a phone or a screen, or to print.

    SEASON is the folder with season.yaml, or a single file that holds everything. Without -o the
    page is named after it and written into the current folder. The page asks nothing of the
    network: it can be sent as it is. Its language and the way it writes numbers, money and days
    follow the season's locale, as in: locale: fr-FR. A page that was changed since it was
    written is left alone, unless --force is given.
    """
    from pathlib import Path

    there(season)
    into = page_target(Path(output or f"{usual_name(Path(season))}.html"), force)
    found, numbers = season_of(season, as_of=as_of, nothing="no page was written")

    from reportgen.handout.season_page import season_page

    write(into, "page.html.j2", season_page(gathered(found, numbers)))
    click.echo(f"{into.path}: {numbers.value('season', 'verdict_of_all')}.")


def gathered(season: Season, numbers: Numbers) -> Gather:
    """What a hand-out of the season is made from; ends the command where its locale is unknown."""
    from reportgen import program
    from reportgen.handout.gather import Gather
    from reportgen.handout.locale_format import LocaleFormat, UnknownLocale

    try:
        place = LocaleFormat(season.locale, season.slots)
    except UnknownLocale:
        click.echo(
            f"season.yaml: the locale '{season.locale}' is not known, expected a language and a "
            "place, as en-US or fr-FR; correct it, or leave it out for English",
            err=True,
        )
        raise click.exceptions.Exit(1) from None
    return Gather(season, numbers, program.texts(season.locale), place)


def write(into: Target, template: str, content: object) -> None:
    """Render a hand-out and put it in its place."""
    from reportgen import program
    from reportgen.write.html import render

    data = render(program.data("templates") / "handout", template, content)
    put_page(into, data)


def usual_name(season: Path) -> str:
    """What a file is named after: the season's folder, or its file."""
    place = season.resolve()
    if place.is_file():
        place = place.parent if place.stem == "season" else place.with_suffix("")
    return place.name or "season"
