"""``sheet``: the one-page costing sheet of a product, for a partner."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from reportgen.cli.output import force_option, page_target, put, target
from reportgen.cli.page import gathered, write
from reportgen.cli.reading import as_of_option, season_argument, season_of, warn_of_errors

if TYPE_CHECKING:
    from typing import BinaryIO

    from reportgen.handout.gather import Gather

_NOTHING = "no sheet was written"


@click.command(short_help="Write the costing sheet of a product, for a partner.")
@season_argument
@click.argument("product", metavar="PRODUCT")
@click.option("-o", "--output", metavar="DIR", default=".", help="The folder to write into.")
@click.option("--all", "everything", is_flag=True, help="Show what is private, too.")
@force_option
@as_of_option
def sheet(
    season: str, product: str, output: str, everything: bool, force: bool, as_of: float | None
) -> None:
    """Write the costing sheet of a product: a page to print, and a live workbook.

    SEASON is the folder with season.yaml, or a single file that holds everything; PRODUCT is a
    product's id, as pear-slices. The files are named after the product. They leave out where
    produce was bought, wages and hours, and the home's electricity price, and say so; --all shows
    them. In the workbook a partner may change prices, weights and the margin: everything follows.
    """
    from pathlib import Path

    folder = Path(output)
    if not folder.is_dir():
        wrong = f"{folder}: there is no such folder; make it first"
        raise click.BadParameter(wrong, param_hint="-o")
    found, numbers = season_of(season, as_of=as_of, nothing=_NOTHING)
    warn_of_errors(season, numbers)
    id = _product(numbers.cells["products"]["key"], product)
    page = page_target(folder / f"{id}.html", force)
    workbook = target(folder / f"{id}.xlsx", (".xlsx",), "workbook", force)
    gather = gathered(found, numbers)

    from reportgen.handout.product_sheet import product_sheet

    write(page, "sheet.html.j2", product_sheet(gather, id, everything))
    put(workbook, lambda out: _write(gather, id, everything, out))
    click.echo(f"{page.path}\n{workbook.path}")
    if not everything:
        click.echo("Left out: sources, wages and hours, the electricity price (--all shows them).")


def _product(keys: object, product: str) -> str:
    """The product's id as the season writes it."""
    from reportgen.read.near import near, one_of

    assert isinstance(keys, list)
    known = [str(each) for each in keys]
    for each in known:
        if each.casefold() == product.casefold():
            return each
    match = near(product, known)
    do = f"did you mean {match}?" if match else f"expected {one_of(known, 40)}"
    if not known:
        do = "no product is recorded yet"
    raise click.BadParameter(
        f"the season has no product called '{product}'; {do}", param_hint="PRODUCT"
    )


def _write(gather: Gather, product: str, everything: bool, out: BinaryIO) -> None:
    from reportgen import program
    from reportgen.costing_home import remembered
    from reportgen.handout.partner import partner_numbers
    from reportgen.handout.partner_sheets import partner_sheets
    from reportgen.handout.product_sheet import product_sheet

    own = partner_numbers(gather.numbers, product, everything)
    sheets = partner_sheets(own.book, product_sheet(gather, product, everything))
    title = f"{own.value('products', 'name') or product}, {gather.season.name}"
    memory = remembered(own, product, everything)
    program.write(own, sheets, gather.season, title, out, remembered=memory)
