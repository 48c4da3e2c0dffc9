"""Product data: the recipes that ship with the program, and the season's own above them."""

from __future__ import annotations

import os
from pathlib import Path

from reportgen.model.bind import Binder
from reportgen.model.draft import Draft, Gathering
from reportgen.model.keys import mapping_of, unknown
from reportgen.model.records import RECORDS
from reportgen.model.season import Origin
from reportgen.read import files, ids
from reportgen.read.folder import listed
from reportgen.read.nodes import Mapping, Node, Scalar
from reportgen.read.problem import Place, Refusal

SHIPPED = "product-data"
"""What messages call the folder of the recipes that ship with the program."""


class Recipes:
    """The recipes that a season may name; a file is read when it is first asked for."""

    def __init__(self, binder: Binder, shipped: Path, own: Path | None) -> None:
        self.binder = binder
        self.gathering: Gathering = binder.gathering
        self.shipped = _by_id(shipped)
        self.own = _by_id(own) if own else {}
        self.folders = (shipped, own)

    @property
    def known(self) -> list[str]:
        """The ids of all recipes."""
        return sorted({*self.shipped, *self.own} - {"sources"})

    def check_own(self) -> None:
        """Note what is wrong with the names of the season's own recipes."""
        for name, path in self.own.items():
            try:
                ids.check(name)
            except Refusal as refusal:
                self.gathering.problem(
                    Place(f"recipes/{path.name}"),
                    refusal.what,
                    refusal.expected,
                    "rename the file",
                )

    def written(self, product: str) -> tuple[Mapping | None, Mapping | None]:
        """The product's recipe as it ships, and the season's own."""
        shipped = self._node(self.shipped.get(product), SHIPPED)
        return shipped, self._node(self.own.get(product), "recipes")

    def draft(self, product: str) -> Draft:
        """The product's row: what ships, and over it, key by key, what the season gives."""
        record = RECORDS["products"]
        shipped, own = self.written(product)
        draft = Draft(record, own or shipped or Mapping(SHIPPED, 0, 1, []))
        draft.key = product
        readers = self.binder.readers(record)
        self.gathering.shipped = True
        for key, value in shipped.entries if shipped else ():
            given = own.get(key.text) if own else None
            if given is not None and key.text == "containers":
                value = _without(value, given)
            elif given is not None:
                continue
            if key.text in readers:
                readers[key.text](value, draft)
            else:
                unknown(key, list(readers), "a recipe", self.gathering)
        self.gathering.shipped = False
        if own:
            mapping_of(own, draft, readers, "a recipe", self.gathering)
        if not draft.has("name"):
            draft.default("name", product.replace("-", " ").capitalize(), "the recipe's id")
        self.gathering.add(draft)
        return draft

    def sources(self) -> dict[str, dict[str, str]]:
        """What the sources files say of each source, by its id."""
        found: dict[str, dict[str, str]] = {}
        for folder, name in zip(self.folders, (SHIPPED, "recipes"), strict=True):
            path = folder / "sources.yaml" if folder else None
            node = self._node(path if path and os.path.lexists(path) else None, name)
            for key, value in node.entries if node else ():
                if isinstance(value, Mapping):
                    found[key.text] = {
                        inner.text: text.text
                        for inner, text in value.entries
                        if isinstance(text, Scalar)
                    }
        return found

    def _node(self, path: Path | None, folder: str) -> Mapping | None:
        if path is None:
            return None
        name = f"{folder}/{path.name}"
        node, problems = files.read(
            path, name, None if folder == SHIPPED else self.gathering.folder
        )
        self.gathering.problems += problems
        if node is not None and not isinstance(node, Mapping):
            self.gathering.problem(
                node.place, f"{node.shape} stands here", "the keys of a recipe", "see the manual"
            )
            return None
        return node


def _by_id(folder: Path) -> dict[str, Path]:
    return {path.stem: path for path in listed(folder)}


def _without(held: Node, given: Node) -> Node:
    """The entries of a mapping that another does not replace."""
    if not isinstance(held, Mapping) or not isinstance(given, Mapping):
        return held
    names = {key.text for key, _ in given.entries}
    left = [(key, value) for key, value in held.entries if key.text not in names]
    return Mapping(held.file, held.line, held.column, left)


def products_in_order(gathering: Gathering) -> dict[str, tuple[Draft, Origin]]:
    """Every product that a record names, in order of first naming, and the record that does."""
    named: dict[str, tuple[Draft, Origin]] = {}
    for table in (
        "lots",
        "packs",
        "offers",
        "plan",
        "carried_over",
        "uses",
        "counts",
        "mixes",
        "mix_parts",
    ):
        for draft in gathering.of(table):
            product = draft.text("product")
            if product and product not in named:
                named[product] = (draft, draft.origins["product"])
    return named
