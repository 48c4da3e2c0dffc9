"""``recipes``: the product data."""

from __future__ import annotations

import click


@click.command(short_help="List the product data, show one product's, or learn from seasons.")
@click.argument("names", metavar="[ID]", nargs=-1)
@click.option("--season", metavar="SEASON", help="With the recipes of this season's folder.")
@click.option(
    "--learn", is_flag=True, help="Make product data of what was measured in SEASON, of several."
)
@click.option("-o", "--output", metavar="DIR", help="The folder for what --learn makes.")
def recipes(names: tuple[str, ...], season: str | None, learn: bool, output: str | None) -> None:
    """List the product data that estimates start from, or show all of one product.

    Without ID: a line for each product. With it: every value as it was published or as it is
    common practice, its source spelt out, and the cautions. With --season, the recipes in that
    season's folder count too; what they give takes the place of what the program brings, and their
    line is named.

    --learn SEASON... [-o DIR] makes a recipe for each product of what was weighed and timed: prep
    yield, water, weight of a container, run time, tray loading, each the mean of its lots or runs,
    with the lowest and highest of them. Put into the recipes folder of the next season, they take
    the place of what the program brings. Without -o they are shown.

    \b
    For example:
      reportgen recipes
      reportgen recipes apple-rings
      reportgen recipes apple-rings --season my-season
      reportgen recipes --learn season-2025 -o season-2026/recipes
    """
    if learn:
        _learn(names, output)
    elif len(names) > 1:
        raise click.UsageError("name one product; several seasons go with --learn")
    else:
        _show(names[0] if names else None, season)


def _learn(paths: tuple[str, ...], output: str | None) -> None:
    from pathlib import Path

    from reportgen.cli.reading import season_of, warn_of_errors
    from reportgen.next.learn import files
    from reportgen.write.files import Target

    if not paths:
        raise click.UsageError("--learn needs the season, or several, to learn from")
    seasons = []
    for path in paths:
        seasons.append(season_of(path, nothing="nothing was written", among=len(paths) > 1))
        warn_of_errors(path, seasons[-1][1])
    found = files(seasons)
    if output is None:
        for name, content in found.items():
            click.echo(f"# {name}\n{content}")
        return
    folder = Path(output)
    if there := [name for name in found if (folder / name).exists()]:
        raise click.BadParameter(
            f"{output} has {', '.join(there)} already; name another folder, and put together by "
            "hand what is to count",
            param_hint="-o",
        )
    folder.mkdir(parents=True, exist_ok=True)
    for name, content in found.items():
        Target(folder / name).save(content.encode())
    click.echo(f"{folder}: product data of your own for {len(found)} products.")


def _show(product: str | None, season: str | None) -> None:
    from pathlib import Path

    from reportgen import program
    from reportgen.cli.reading import give_up, tell, there
    from reportgen.report import recipe_list

    place = there(season) if season is not None else None
    found, problems = program.catalogue(place)
    tell(problems, place or Path())
    if found is None:
        give_up(problems)
    if product is None:
        click.echo("\n".join(recipe_list.listed(found)))
        return
    chosen = {key.casefold(): each for key, each in found.recipes.items()}.get(product.casefold())
    if chosen is None:
        from reportgen.read.near import near

        match = near(product, list(found.recipes))
        do = f"did you mean {match}?" if match else "`reportgen recipes` lists them all"
        raise click.BadParameter(f"there is no product '{product}'; {do}", param_hint="ID")
    click.echo("\n".join(recipe_list.whole(found, chosen)))
