"""Product data that were changed in the workbook: they become the season's own, that key alone."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping as Keys
from pathlib import PurePosixPath

from reportgen.edits.written import Like, Values, Writer
from reportgen.model.fields import Field
from reportgen.model.kinds import Sourced
from reportgen.model.records import RECORDS
from reportgen.model.season import Season
from reportgen.pen.pen import Pen
from reportgen.pen.scalars import Written, flow, scalar
from reportgen.read.spans import Mapping, Scalar, Span

FOLDER = "recipes/"
TABLES = ("products", "nominal_weights")
_SOURCE = "own"
_PIECES = ("value", "low", "high")


class OwnRecipes:
    """The season's own recipes. ``texts``: those that there are, by name."""

    def __init__(self, season: Season, texts: Keys[str, str]) -> None:
        self._season, self._before = season, dict(texts)
        self._writer = Writer(season.slots)
        self._pens = {name: Pen(text) for name, text in texts.items()}
        self._files = {PurePosixPath(name).stem: name for name in texts}
        self._fresh: dict[str, dict[str, Written]] = defaultdict(dict)
        """New recipes, by product: their keys."""

    def texts(self) -> dict[str, str]:
        """The recipes that are new or not as they were, by name."""
        changed = {name: pen.text() for name, pen in self._pens.items()}
        found = {name: text for name, text in changed.items() if text != self._before[name]}
        for product, keys in self._fresh.items():
            lines = (f"{scalar(key)}: {flow(value)}\n" for key, value in keys.items())
            found[f"{FOLDER}{product}.yaml"] = "".join(lines)
        return found

    def change(self, table: str, row: int, values: Values) -> str:
        """Write new values of a product, or of what a container of it weighs; what stands in the
        way, where that cannot be."""
        rows = self._season.tables[table]
        now = {name: column[row] for name, column in rows.values.items()}

        def like(name: str) -> str:
            origin = rows.origins[name][row]
            return origin.text if origin is not None and origin.kind != "default" else ""

        product, name = rows.keys[row], ""
        if table == "nominal_weights":
            product, name = str(now["product"]), str(now["container"])
        for field in RECORDS[table].fields:
            names = {each.name for each in field.inputs}
            if not names & set(values):
                continue
            wanted = self._written(field, {**now, **values}, like)
            if wanted is None:
                return "product data cannot be emptied; type what is true of yours"
            self._put(product, name or field.name, wanted, inside=bool(name))
        return ""

    def add(self, values: Values) -> str:
        """What a container of a product weighs that was not known; what stands in the way."""
        product, name = values.get("product"), values.get("container")
        field = next(f for f in RECORDS["nominal_weights"].fields if f.name == "weight")
        wanted = self._written(field, values, lambda _: "")
        if not isinstance(product, str) or not isinstance(name, str) or wanted is None:
            return "it lacks its product, its container or its weight"
        if product.casefold() not in (k.casefold() for k in self._season.tables["products"].keys):
            return f"there is no product '{product}'"
        self._put(product, name, wanted, inside=True)
        return ""

    def _written(self, field: Field, values: Values, like: Like) -> Written | None:
        if not isinstance(field, Sourced):
            return self._writer.field(field, values, like)
        found: dict[str, Written] = {}
        one = field.of.inputs[0].name
        for piece, column in zip(_PIECES, field.inputs, strict=True):
            was = like(column.name)
            text = self._writer.field(
                field.of, {one: values.get(column.name)}, {one: was}.__getitem__
            )
            if text is not None:
                found[piece] = text
        return {**found, "source": _SOURCE} if "value" in found else None

    def _put(self, product: str, key: str, wanted: Written, inside: bool) -> None:
        """A key of a recipe; ``inside``: one of its containers."""
        file = self._files.get(product)
        pen = self._pens[file] if file is not None else None
        root = pen.root if pen is not None else None
        if pen is None or not isinstance(root, Mapping):
            if inside:
                held = self._fresh[product].setdefault("containers", {})
                assert isinstance(held, dict)
                held[key] = wanted
            else:
                self._fresh[product][key] = wanted
            return
        holder: Mapping = root
        if inside:
            found = root.find("containers")
            if found is None or not isinstance(found[1], Mapping):
                pen.add(root, "containers", {key: wanted})
                return
            holder = found[1]
        _into(pen, holder, key, wanted)


def _into(pen: Pen, holder: Mapping, key: str, wanted: Written) -> None:
    """A key where it stands, its other words as they are; else behind the others."""
    found = holder.find(key)
    if found is None:
        pen.add(holder, key, wanted)
    elif isinstance(found[1], Mapping) and isinstance(wanted, Keys):
        inner = found[1]
        for piece in (*_PIECES, "source"):
            there = inner.find(piece)
            if there is None:
                if piece in wanted:
                    pen.add(inner, piece, wanted[piece])
            elif piece not in wanted:
                pen.drop(inner, piece)
            elif _said(there[1]) != wanted[piece]:
                pen.put(there[0], there[1], wanted[piece])
    else:
        # A bare value of one's own has no source.
        bare = isinstance(wanted, Keys) and set(wanted) == {"value", "source"}
        pen.put(
            found[0], found[1], wanted["value"] if bare and isinstance(wanted, Keys) else wanted
        )


def _said(span: Span) -> str:
    return span.text if isinstance(span, Scalar) else ""
