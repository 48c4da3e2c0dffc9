"""``recipes``: the product data."""

from __future__ import annotations

import click


@click.command(short_help="List the product data, or show one product's.")
@click.argument("product", metavar="ID", required=False)
@click.option("--season", metavar="SEASON", help="With the recipes of this season's folder.")
def recipes(product: str | None, season: str | None) -> None:
    """List the product data that estimates start from, or show all of one product.

    Without ID: a line for each product. With it: every value as it was published or as it is
    common practice, its source spelt out, and the cautions. With --season, the recipes in that
    season's folder count too; what they give takes the place of what the program brings, and their
    line is named.

    \b
    For example:
      reportgen recipes
      reportgen recipes apple-rings
      reportgen recipes apple-rings --season my-season
    """
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
