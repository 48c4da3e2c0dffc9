"""``explain``: where a number comes from."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from reportgen.cli.reading import as_of_option, season_argument, season_of, warn_of_errors

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reportgen.algebra.numbers import Numbers
    from reportgen.algebra.tables import Table
    from reportgen.report.headings import Headings


@click.command(short_help="Show where a number comes from, line by line.")
@season_argument
@click.argument("quantity", metavar="TABLE.QUANTITY")
@click.argument("row", required=False)
@click.option(
    "--depth", type=click.IntRange(min=0), metavar="N", help="Go only N steps down the tree."
)
@click.option("--all", "every", is_flag=True, help="Go into every row of a sum, however many.")
@as_of_option
def explain(
    season: str, quantity: str, row: str | None, depth: int | None, every: bool, as_of: float | None
) -> None:
    """Show where a number comes from, down to the file and line of each input.

    SEASON is the folder with season.yaml, or a single file that holds everything. TABLE.QUANTITY
    is a name as `reportgen figures SEASON --json` shows it, or a heading as it stands on a sheet or
    page; ROW is the key of a row, or the number of a row without an id of its own, as of the plan;
    without ROW the rule is shown with the value of every row.

    \b
    For example:
      reportgen explain my-season products.running_per_packed apple-rings
      reportgen explain my-season season.saving
      reportgen explain my-season "saved so far" apple-rings
    """
    found, numbers = season_of(season, as_of=as_of)
    warn_of_errors(season, numbers)
    table, name = _named(numbers, quantity, row, found.locale)

    from reportgen.report.explain import Explainer
    from reportgen.report.figures import keys
    from reportgen.report.reads import Cell

    explainer = Explainer(found, numbers, depth, every)
    rows = keys(numbers, table)
    if row is None and not table.single:
        click.echo("\n".join(explainer.column(table, name)))
        if rows:
            one = f"{table.name}.{name} {rows[0]}"
            click.echo(f"\nName a row to see where its number comes from: {one}")
        return
    number = _row(table, rows, row or table.name)
    click.echo("\n".join(explainer.cell(Cell(table, name, number))))


def _named(numbers: Numbers, quantity: str, row: str | None, locale: str) -> tuple[Table, str]:
    """The table and the column that were asked for, by name or by heading."""
    first, _, name = quantity.partition(".")
    tables = numbers.book.tables
    if not name or first not in tables:
        by_heading = _by_heading(numbers, quantity, row, locale)
        if by_heading is not None:
            return by_heading
    if first not in tables and (not name or " " in first):
        raise click.BadParameter(
            f"'{quantity}' names no quantity; expected a table and a quantity with a point "
            "between, as products.running_per_packed, or a heading as it stands on a sheet"
            f"{_meant(numbers, quantity, locale)}",
            param_hint="TABLE.QUANTITY",
        )
    if first not in tables:
        raise _unknown("table", first, tables, "TABLE.QUANTITY")
    table = tables[first]
    known = {*table.definitions, *table.inputs} - {"key"}
    if name not in known:
        raise _unknown(f"quantity of {first}", name, sorted(known), "TABLE.QUANTITY")
    return table, name


def _by_heading(
    numbers: Numbers, heading: str, row: str | None, locale: str
) -> tuple[Table, str] | None:
    """The quantity with a heading, or under one; of several that of the row, else it is asked
    which."""
    from reportgen.report.figures import keys

    headings = _headings(numbers, locale)
    found = headings.called(heading)
    if not found:
        under = headings.under(heading)
        if under == []:
            raise click.BadParameter(
                f"'{heading}' stands over words, lists or named numbers, not over a figure; "
                "write a heading that stands over figures, or the name of one, as "
                "products.running_per_packed",
                param_hint="TABLE.QUANTITY",
            )
        found = under or []
    if row is not None and len(found) > 1:
        having = [(t, n) for t, n in found if row.casefold() in map(str.casefold, keys(numbers, t))]
        found = having or found
    if len(found) > 1:
        from reportgen.read.near import one_of

        names = [f"{table.name}.{name}" for table, name in found]
        raise click.BadParameter(
            f"'{heading}' is the heading of several; write one of {one_of(names, 40)}",
            param_hint="TABLE.QUANTITY",
        )
    return found[0] if found else None


def _headings(numbers: Numbers, locale: str) -> Headings:
    """What people see above figures, on sheets and on the page."""
    from reportgen.algebra.phrases import Phrase
    from reportgen.handout.season_page import headings as of_page
    from reportgen.program import texts
    from reportgen.report.headings import Headings
    from reportgen.sheets.headings import headings as of_sheets

    said = texts(locale)
    over = (*of_sheets(), *of_page(said))
    return Headings(numbers, lambda text: said.spoken(Phrase.of(text)), over)


def _meant(numbers: Numbers, heading: str, locale: str) -> str:
    """The headings that may have been meant, as the end of a message."""
    from reportgen.read.near import one_of

    near = [f"'{each}'" for each in _headings(numbers, locale).near(heading)]
    return f"; did you mean {one_of(near)}?" if near else ""


def _row(table: Table, rows: list[str], row: str) -> int:
    """The number of the row with a key, in capitals or small letters, or at a position."""
    folded = [key.casefold() for key in rows]
    if row.isdecimal():
        ending = f"-{int(row)}"
        at_its_place = [key for key in folded[int(row) - 1 : int(row)] if key.endswith(ending)]
        row = at_its_place[0] if at_its_place else row
    if row.casefold() not in folded:
        raise _unknown(f"row of {table.name}", row, rows, "ROW")
    return folded.index(row.casefold())


def _unknown(what: str, word: str, known: Iterable[str], hint: str) -> click.BadParameter:
    from reportgen.read.near import near, one_of

    names = list(known)
    match = near(word, names)
    do = f"did you mean {match}?" if match else f"expected {one_of(names, 40)}"
    if not names:
        do = "none is recorded yet"
    return click.BadParameter(f"there is no {what} called '{word}'; {do}", param_hint=hint)
