"""What packs are made of: ingredients by weight, allergens of all of them, through their mixes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from reportgen.algebra.numbers import Numbers
from reportgen.model.compound import NONE
from reportgen.model.season import Season


@dataclass
class MadeOf:
    """What is in packs. Of what is of no mix there are no ingredients here: its product data have
    them, or nobody."""

    ingredients: list[str] = field(default_factory=list)
    """Of mixes, from the heaviest part down; none where a weight is not known."""
    allergens: list[str] = field(default_factory=list)
    unknown: list[str] = field(default_factory=list)
    """What nobody wrote the allergens of."""
    cook: bool = False
    mixed: bool = False
    """Some of it is of a mix."""
    bought: bool = False
    """Some of it was bought and not dried here."""


def made_of(season: Season, numbers: Numbers, packs: Iterable[int]) -> MadeOf:
    """What is in packs, given by their rows: one, or all of a product, or of a size on a shelf."""
    search = _Search(season, numbers)
    rows = list(packs)
    for row in rows:
        search.pack(row)
    named = dict.fromkeys(mix for row in rows for mix in search.mixes(row))
    search.found.mixed = bool(named)
    search.found.ingredients = search.listed(named)
    return search.found


class _Search:
    def __init__(self, season: Season, numbers: Numbers) -> None:
        self.season, self.numbers = season, numbers
        tables = numbers.book.tables
        self.draws_of = _by(numbers.found(tables["draws"], "pack"))
        self.mix_of_draw = numbers.found(tables["draws"], "mix")
        self.parts_of = _by(numbers.found(tables["mix_parts"], "into"))
        self.bought_of = _by(numbers.found(tables["bought_parts"], "into"))
        self.found = MadeOf()
        self.seen: set[int] = set()
        """Mixes that were gone through already."""

    def mixes(self, pack: int) -> list[int]:
        """The mixes that a pack is of."""
        if not self.numbers.value("packs", "from_mix", pack):
            return []
        named = (self.mix_of_draw[draw] for draw in self.draws_of.get(pack, ()))
        return [mix for mix in named if mix is not None]

    def pack(self, row: int) -> None:
        """A pack: its product, and where it is of mixes what these are of."""
        of = self.mixes(row)
        self._product(self.numbers.found(self.numbers.book.tables["packs"], "product")[row], of)
        for mix in of:
            self._mix(mix)

    def _mix(self, mix: int) -> None:
        if mix in self.seen:
            return
        self.seen.add(mix)
        for row in self.parts_of.get(mix, ()):
            pack, within = self._part(row, "pack"), self._part(row, "mix")
            if pack is not None:
                self.pack(pack)
                continue
            self._product(self._part(row, "of_product"), [] if within is None else [within])
            if within is not None:
                self._mix(within)
        for row in self.bought_of.get(mix, ()):
            said = str(self.numbers.value("bought_parts", "allergens", row) or "").strip()
            self.found.bought = True
            if not said:
                _add(self.found.unknown, [self._item(row)])
            elif said.casefold() != NONE:
                _add(self.found.allergens, (each.strip() for each in said.split(",")))

    def listed(self, mixes: Iterable[int], deep: int = 0) -> list[str]:
        """What went into mixes, from the heaviest down; nothing where a weight is not known."""
        weighed: dict[str, float] = {}
        for name, weight in (each for mix in mixes for each in self._weighed(mix, deep)):
            if not isinstance(weight, int | float):
                return []
            weighed[name] = max(weighed.get(name, 0.0), weight)
        return sorted(weighed, key=lambda name: -weighed[name])

    def _weighed(self, mix: int, deep: int) -> Iterator[tuple[str, object]]:
        for row in self.parts_of.get(mix, ()):
            yield self._named(row, deep), self.numbers.value("mix_parts", "weight_alike", row)
        for row in self.bought_of.get(mix, ()):
            yield self._item(row), self.numbers.value("bought_parts", "weight", row)

    def _named(self, row: int, deep: int) -> str:
        """A part by its product data's ingredients, else by its name and what went into it."""
        product = self._part(row, "of_product")
        text, name = self._text(product, "ingredients"), self._text(product, "name")
        pack, within = self._part(row, "pack"), self._part(row, "mix")
        mixes = self.mixes(pack) if pack is not None else [] if within is None else [within]
        inside = [] if text or deep else self.listed(mixes, deep + 1)
        return text or (f"{name} ({', '.join(inside)})" if inside else name)

    def _part(self, row: int, link: str) -> int | None:
        return self.numbers.found(self.numbers.book.tables["mix_parts"], link)[row]

    def _item(self, row: int) -> str:
        return str(self.numbers.value("bought_parts", "item", row) or "")

    def _product(self, product: int | None, of: list[int]) -> None:
        """What the product data say; of what is mixed, what they leave out follows from parts."""
        if product is None:
            return
        said = self.season.allergens.get(str(self.numbers.value("products", "key", product)))
        if said is None and not of:
            _add(self.found.unknown, [self._text(product, "name")])
        _add(self.found.allergens, said or [])
        self.found.cook |= bool(self.numbers.value("products", "cook_before_eating", product))

    def _text(self, product: int | None, name: str) -> str:
        return "" if product is None else str(self.numbers.value("products", name, product) or "")


def _by(links: list[int | None]) -> dict[int, list[int]]:
    rows: dict[int, list[int]] = {}
    for row, link in enumerate(links):
        if link is not None:
            rows.setdefault(link, []).append(row)
    return rows


def _add(to: list[str], more: Iterable[str]) -> None:
    to += [each for each in more if each and each not in to]
