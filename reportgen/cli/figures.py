"""``figures``: every quantity, to read or as JSON."""

from __future__ import annotations

import click

from reportgen.cli.reading import as_of_option, season_argument, season_of, warn_of_errors


@click.command(short_help="Show every quantity, to read or as JSON.")
@season_argument
@click.option("--json", "as_json", is_flag=True, help="As JSON, for other programs.")
@as_of_option
def figures(season: str, as_json: bool, as_of: float | None) -> None:
    """Show every quantity of a season.

    SEASON is the folder with season.yaml, or a single file that holds everything. In JSON a value
    that is not known is null, a share is a fraction, a date is ISO text; "basis" says whether the
    figure rests on measured or estimated inputs, or on both (mixed).
    """
    found, numbers = season_of(season, as_of=as_of)
    warn_of_errors(season, numbers)

    from reportgen.report import figures as report

    if not as_json:
        click.echo("\n".join(report.lines(found, numbers)))
        return
    import json

    made = report.figures(found, numbers)
    click.echo(json.dumps(made, indent=1, ensure_ascii=False, allow_nan=False))
