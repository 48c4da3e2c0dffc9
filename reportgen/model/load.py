"""A season from its folder: read, bind, complete, check. The whole of it on one screen."""

from __future__ import annotations

import os
from pathlib import Path

from reportgen.model.bind import Binder
from reportgen.model.complete import complete
from reportgen.model.draft import Gathering
from reportgen.model.file_rows import bind_file, is_short, rows_of
from reportgen.model.limits import check_limits
from reportgen.model.mixing_limits import check_mixes
from reportgen.model.power_log.by_period import measure
from reportgen.model.recipes import Recipes, products_in_order
from reportgen.model.records import RECORDS
from reportgen.model.references import check_nominal, check_references, check_unique
from reportgen.model.season import Season
from reportgen.model.season_head import SeasonHead, read_head
from reportgen.read import files
from reportgen.read.folder import find
from reportgen.read.nodes import Node
from reportgen.read.problem import Problem


def load(path: Path, shipped: Path) -> tuple[Season | None, list[Problem]]:
    """The season at ``path``, a folder or a single file, and all that is wrong with it.

    ``shipped`` is the folder of the recipes that come with the program. Never raises for bad
    input; there is no season where a problem is an error.
    """
    found, problems = find(path)
    if found.season is None:
        return None, problems
    nodes: dict[str, Node] = {}
    unread = False
    for file in sorted([*found.batches, found.season], key=found.name):
        name = found.name(file)
        root = found.root if file == found.season else found.folder
        node, wrong = files.read(file, name, root)
        problems += wrong
        unread = unread or (node is None and any(each.severity == "error" for each in wrong))
        if node is not None:
            nodes[name] = node
    season_file = found.name(found.season)
    if season_file not in nodes and unread:
        return None, in_order(problems)

    head = read_head(nodes.get(season_file), season_file, problems)
    gathering = Gathering(
        head.slots, found.folder, head.zone, problems, unsure=unread, season_file=season_file
    )
    binder = Binder(gathering)
    for name, node in nodes.items():
        bind_file(binder, node, season=name == season_file)
    own = found.recipes
    if own is not None and os.path.samefile(own, shipped):
        own = None
    recipes = Recipes(binder, shipped, own)
    recipes.check_own()
    for product in products_in_order(gathering):
        if product in recipes.known:
            recipes.draft(product)
    complete(gathering)
    check_unique(gathering)
    check_references(gathering, recipes)
    check_nominal(gathering)
    check_limits(gathering)
    check_mixes(gathering)
    measure(gathering)
    season = _season(head, binder, recipes)
    season.short_files = sum(map(is_short, nodes.values()))
    gathering.drafts.clear()  # the readers hold each other, and with these all that was read
    failed = any(each.severity == "error" for each in problems)
    return (None if failed else season), in_order(problems)


def in_order(problems: list[Problem]) -> list[Problem]:
    """The problems by file and line, each once."""
    return sorted(dict.fromkeys(problems), key=lambda each: each.place)


def _season(head: SeasonHead, binder: Binder, recipes: Recipes) -> Season:
    return Season(
        name=head.season,
        currency=head.currency,
        fresh=head.fresh,
        dried=head.dried,
        folder=binder.gathering.folder,
        locale=head.locale,
        tables={name: rows_of(record, binder.gathering) for name, record in RECORDS.items()},
        cautions=binder.words["cautions"],
        allergens={
            product: [text for text, _ in words]
            for product, words in binder.words["allergens"].items()
        },
        sources=recipes.sources(),
    )
