"""``labels``: a printable sheet of labels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import click

from reportgen.cli import label_sizes
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
    from reportgen.labels.content import Label
    from reportgen.labels.texts import Speech
    from reportgen.model.season import Season

MOST = 2000
"""Labels in one file; browsers slow down beyond."""


@click.command(short_help="Make a printable sheet of labels.")
@season_argument
@click.option(
    "--pack", "packs", metavar="ID", multiple=True, help="Only this pack; may be repeated."
)
@click.option("--count", type=click.IntRange(1, MOST), metavar="N",
              help="Labels for each pack; else one for each container on hand.")  # fmt: skip
@click.option("--sheet", metavar="NAME", help="A sheet by paper, grid and label: a4-2x7-99x38.")
@click.option("--size", metavar="WxH", help="Labels of any size, as 99x38 (mm) or 4x2in.")
@click.option("--paper", metavar="NAME", help="With --size: letter, a4, or as 210x297.")
@click.option("--grid", metavar="CxR", help="With --size: labels across and down, as 2x7.")
@click.option("--margin", metavar="LxT", help="With --size: left and top margin, as 4.7x15.2.")
@click.option("--gap", metavar="HxV", help="With --size: gaps across and down, as 2.5x0.")
@click.option("--start", type=click.IntRange(1), default=1, metavar="N",
              help="First free label of a part-used sheet, along the rows.")  # fmt: skip
@click.option(
    "--short", is_flag=True, help="Only name, weight, pack, days, warnings, code: for your shelf."
)
@click.option("--least", type=click.FloatRange(5, 14), metavar="PT",
              help="Smallest type in points; left out, 9, or 7 with --short.")  # fmt: skip
@click.option("--panel", metavar="AREA",
              help="The container's display panel, as 54in2 or 350cm2: the type of the net "
              "weight goes by it. Of a can it is 40 % of height times circumference.")  # fmt: skip
@click.option("--outline", is_flag=True, help="Print outlines too, to cut plain paper.")
@click.option("--doubtful", is_flag=True, help="Label doubtful packs too, and say so on them.")
@click.option("-o", "--output", metavar="FILE", help="The page to write, ending in .html.")
@force_option
@as_of_option
def labels(
    season: str,
    packs: tuple[str, ...],
    count: int | None,
    start: int,
    short: bool,
    least: float | None,
    panel: str | None,
    outline: bool,
    doubtful: bool,
    output: str | None,
    force: bool,
    as_of: float | None,
    **sizes: str | None,
) -> None:
    """Make a page of labels to be printed from a browser, one for each container on hand.

    SEASON is the folder with season.yaml, or a single file that holds everything. What stands under
    maker: in season.yaml is printed as it stands; where something is missing there is a ruled
    space. The local food code decides what a label must say.

    \b
    For example:
      reportgen labels my-season --pack P-0922
      reportgen labels my-season --sheet a4-2x7-99x38 --short --start 5
      reportgen labels my-season --size 4x3in --paper letter --grid 2x3
    """
    from pathlib import Path

    from reportgen.labels import html_file
    from reportgen.labels.fit import TooSmall, fit
    from reportgen.labels.label_sheet import size_text
    from reportgen.labels.type_size import SMALLEST, SMALLEST_AT_HOME
    from reportgen.program import data

    there(season)
    into = page_target(Path(output or f"{usual_name(Path(season))}-labels.html"), force)
    area = label_sizes.area(panel)
    found, numbers = season_of(season, as_of=as_of, nothing="no labels were made")
    warn_of_errors(season, numbers)
    sheets = label_sizes.sheets(sizes, "letter" if found.slots["distance"] == "mile" else "a4")
    speech = _speech(found, numbers)
    printed, refused = _printed(found, numbers, speech, packs, count, short, doubtful)
    least = least or (SMALLEST_AT_HOME if short else SMALLEST)
    for sheet in sheets:
        look = fit(printed, sheet, least, area)
        if not isinstance(look, TooSmall):
            break
    if isinstance(look, TooSmall):
        raise label_sizes.too_small(look, sheet, least)
    if start > sheet.count:
        raise click.BadParameter(f"the sheet has {sheet.count} labels", param_hint="--start")
    page = html_file.render(
        data("templates") / "labels",
        found.name,
        printed,
        sheet,
        look,
        speech,
        start,
        outline,
        gathered(found, numbers).doubt,
    )
    put_page(into, page)
    pages = html_file.pages(len(printed), sheet, start)
    click.echo(
        f"{into.path}: {counted(len(printed), 'label')} of {size_text(sheet)} mm on "
        f"{counted(pages, 'page')}, {sheet.count} on a page, in type of {look.body:g} points."
    )
    click.echo("\n".join(_advice(printed, short, not short and look.body < SMALLEST, area is None)))
    if refused:
        raise click.exceptions.Exit(1)


def _printed(
    season: Season, numbers: Numbers, speech: Speech, packs: Sequence[str], count: int | None,
    short: bool, doubtful: bool,
) -> tuple[list[Label], bool]:  # fmt: skip
    """The labels in the order they are printed, and whether a pack was refused one."""
    from reportgen.labels.choose import Unknown, choose
    from reportgen.labels.content import label
    from reportgen.read.files import lines_of
    from reportgen.read.near import near, one_of
    from reportgen.read.report import text

    try:
        chosen, problems = choose(season, numbers, packs, count, doubtful)
    except Unknown as wrong:
        match = near(wrong.pack, wrong.known)
        do = (
            f"did you mean {match}?" if match else f"there are: {one_of(wrong.known) or 'none yet'}"
        )
        raise click.BadParameter(
            f"there is no pack called '{wrong.pack}'; {do}",
            param_hint="--pack",
        ) from None
    for each in problems:
        click.echo(text(each, lines_of(season.folder)), err=True)
    total = sum(each.count for each in chosen)
    if not total:
        click.echo("No labels were made: no pack is on hand that can be labelled.", err=True)
        raise click.exceptions.Exit(1)
    if total > MOST:
        raise click.UsageError(
            f"{total:,} labels are more than one file is made for ({MOST:,}); name packs with "
            "--pack, or give --count"
        )
    made = [(label(season, numbers, each, speech, short), each.count) for each in chosen]
    return [each for each, number in made for _ in range(number)], bool(problems)


def _speech(season: Season, numbers: Numbers) -> Speech:
    """The words, numbers and days of the season's locale."""
    from reportgen.labels.texts import SECTION, Speech

    made = gathered(season, numbers)
    texts = made.texts
    if texts.language != made.place.language:
        click.echo(f"The words are English: there are none in '{made.place.language}' yet.")
    own = {k.removeprefix(SECTION): v for k, v in texts.all.items() if k.startswith(SECTION)}
    return Speech(texts.language, own, made.place.number, made.place.day)


def _advice(printed: Sequence[Label], short: bool, tiny: bool, own_area: bool) -> Iterator[str]:
    """What whoever prints, gives or sells them must know."""
    lines = [line for each in dict.fromkeys(printed) for line in (*each.beside, *each.below)]
    blanks = dict.fromkeys(line.head for line in lines if line.kind == "blank" and line.head)
    yield "Print at actual size (100 %), without the browser's margins, headers and footers."
    if blanks:
        yield f"Ruled spaces to be filled in: {', '.join(blanks)}."
    if not short:
        yield "Allergens are those the product data names; check them against what went in."
    if short:
        yield "Short labels are for your own shelf: they lack what given or sold food must say."
    if tiny:
        yield "Type below 9 points is too small on food that is sold (21 CFR 101.2)."
    if own_area and not short:
        yield (
            "The net weight's type goes by the label's own area. Where the container's display "
            "panel is larger, give its area with --panel (21 CFR 101.7)."
        )
    yield (
        "What a label must say, and in what type, the local food code decides; the licensed "
        "authority has the last word."
    )
