"""``prices``: a price list to hang up, and shelf tickets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from reportgen.cli.output import force_option, page_target, put_page
from reportgen.cli.page import gathered, usual_name
from reportgen.cli.reading import (
    as_of_option,
    counted,
    season_argument,
    season_of,
    there,
    warn_of_errors,
)

if TYPE_CHECKING:
    from reportgen.algebra.numbers import Numbers


@click.command(short_help="Make a price list to hang up, and tickets for the shelf.")
@season_argument
@click.option("--channel", default="stall", metavar="NAME",
              help="Where it is sold: stall, or another channel of the season.")  # fmt: skip
@click.option("--unit", type=click.Choice(["lb", "oz", "kg", "100g"]),
              help="What unit prices are for; left out, lb or kg, as it weighs.")  # fmt: skip
@click.option("-o", "--output", metavar="FILE", help="The page to write, ending in .html.")
@force_option
@as_of_option
def prices(
    season: str,
    channel: str,
    unit: str | None,
    output: str | None,
    force: bool,
    as_of: float | None,
) -> None:
    """Write a price list to hang up, and below it a ticket for each size on the shelf.

    SEASON is the folder with season.yaml, or a single file that holds everything. The price is what
    asked: says for that day, less the channel's discount; where nothing is asked, the price that
    leaves the margin. Tax is in it. Each has its unit price beside it, in the unit that the place's
    rule asks for. Packs that may not be dry, or are past their best-by day, are not offered: they
    are left out, and named.

    \b
    For example:
      reportgen prices my-season
      reportgen prices my-season --channel cafe --unit kg
    """
    from decimal import Decimal
    from pathlib import Path

    from reportgen.labels import texts, tickets
    from reportgen.program import data

    there(season)
    into = page_target(Path(output or f"{usual_name(Path(season))}-prices.html"), force)
    found, numbers = season_of(season, as_of=as_of, nothing="no price list was made")
    warn_of_errors(season, numbers)
    row = _row_of(numbers, channel)
    made = gathered(found, numbers)
    words = {
        key.removeprefix(section): text
        for key, text in made.texts.all.items()
        for section in (texts.SECTION, tickets.SECTION)
        if key.startswith(section)
    }
    speech = texts.Speech(made.texts.language, words, made.place.number, made.place.day)
    unit = unit or ("lb" if found.slots["distance"] == "mile" else "kg")
    printed, lacking, past = tickets.tickets(
        found, numbers, channel, unit, lambda value: made.place.whole(value, tickets.PRICE), speech
    )
    for each in (*lacking, *past):
        click.echo(f"Left out: {each}.", err=True)
    if not printed:
        click.echo(
            "No price list was made: nothing on the shelf may be sold and has a price; write what "
            "you ask after asked:, or margin and price_step after pricing:",
            err=True,
        )
        raise click.exceptions.Exit(1)
    tax = numbers.value("channels", "tax", row)
    day = numbers.value("season", "as_of")
    assert isinstance(day, float | int)
    page = tickets.render(
        data("templates") / "labels",
        found,
        printed,
        speech,
        made.texts.say(channel),
        made.place.day(day),
        f"{made.place.number(Decimal(f'{tax * 100:.6g}'))} %" if tax else "",
        made.doubt,
    )
    put_page(into, page)
    click.echo(
        f"{into.path}: {counted(len(printed), 'size')}, unit prices by the "
        f"{'100 g' if unit == '100g' else unit}.\n"
        "In which unit a price by weight must stand, and where, the local rule decides; the "
        "licensed authority has the last word."
    )
    if lacking:
        raise click.exceptions.Exit(1)


def _row_of(numbers: Numbers, channel: str) -> int:
    """The row of a channel; ends the command where there is none."""
    from reportgen.read.near import near, one_of

    keys = [str(each) for each in numbers.cells["channels"]["key"]]
    folded = [each.casefold() for each in keys]
    if channel.casefold() in folded:
        return folded.index(channel.casefold())
    match = near(channel, keys)
    raise click.BadParameter(
        f"there is no channel called '{channel}'; "
        + (f"did you mean {match}?" if match else f"there are: {one_of(keys)}"),
        param_hint="--channel",
    )
