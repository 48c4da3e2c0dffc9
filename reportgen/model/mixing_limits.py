"""What cannot be of mixes: a part that names two things, a chain of three, a mix within itself."""

from __future__ import annotations

from collections import defaultdict

from reportgen.model.draft import Draft, Gathering
from reportgen.read.near import one_of

_KINDS = ("product", "pack", "mix")
_DEEPEST = "mixes at most two deep, as a powder in a soup mix"


def check_mixes(gathering: Gathering) -> None:
    """Note every contradiction of mixes, their parts and their packs."""
    if not gathering.of("mixes"):
        return
    parts: dict[str, list[Draft]] = defaultdict(list)
    for part in gathering.of("mix_parts"):
        assert part.owner is not None
        parts[part.owner.key].append(part)
        _part(gathering, part)
    bought = {part.owner.key for part in gathering.of("bought_parts") if part.owner}
    for mix in gathering.of("mixes"):
        if mix.key and not parts[mix.key] and mix.key not in bought:
            gathering.problem(
                mix.place,
                f"the mix {mix.key} does not say what went into it",
                "products, packs or other mixes after from, or what was bought",
                "add from: or bought:",
            )
    made_of = _origins(gathering)
    _Depths(gathering, parts, made_of).check()
    _planned(gathering, parts, bought)


def _part(gathering: Gathering, part: Draft) -> None:
    named = [kind for kind in _KINDS if part.has(kind)]
    if len(named) != 1:
        gathering.problem(
            part.place_of(named[-1]) if named else part.place,
            f"this part of a mix names {' and '.join(named) if named else 'nothing'}",
            "a product with its weight, a pack with its count, or a mix with its weight",
            "make a part of each" if named else "add product:, pack: or mix:",
        )
        return
    needed, other = ("count", "weight") if named == ["pack"] else ("weight", "count")
    if part.has(other):
        gathering.problem(
            part.place_of(other),
            f"a part of a mix that is a {named[0]} has no {other}",
            f"{needed} alone",
            f"delete {other}",
        )
    if not part.has(needed):
        gathering.problem(
            part.place,
            f"this part of a mix has no {needed}",
            f"the {needed} that went in",
            f"add {needed}:",
        )


def _origins(gathering: Gathering) -> dict[str, list[str]]:
    """The mixes that each pack is of; a pack that is of a run as well is noted."""
    mixes = {mix.key: mix for mix in gathering.of("mixes")}
    found: dict[str, list[str]] = defaultdict(list)
    runs: set[str] = set()
    for draw in gathering.of("draws"):
        assert draw.owner is not None
        pack, mix = draw.owner, draw.text("mix")
        if draw.has("run"):
            runs.add(pack.key)
        elif mix:
            found[pack.key].append(mix)
        if (pack.key in runs and pack.key in found) and pack.key:
            gathering.problem(
                draw.place,
                f"the pack {pack.key} names both runs and mixes",
                "runs alone, or mixes alone",
                "make a pack of each, or a mix of all that went in",
            )
            runs.discard(pack.key)
        made = mixes.get(mix)
        if made and made.text("product") and made.text("product") != pack.text("product"):
            gathering.problem(
                draw.place,
                f"the pack {pack.key} is of {pack.text('product')}, the mix {mix} of "
                f"{made.text('product')}",
                f"product: {made.text('product')}",
                "correct one of the two",
            )
    return found


class _Depths:
    """How deep mixes stand in each other."""

    def __init__(
        self, gathering: Gathering, parts: dict[str, list[Draft]], made_of: dict[str, list[str]]
    ) -> None:
        self.gathering = gathering
        self.within: dict[str, list[tuple[str, Draft]]] = {
            mix: [
                (other, part)
                for part in held
                for other in [
                    *([part.text("mix")] if part.has("mix") else []),
                    *made_of.get(part.text("pack"), ()),
                ]
            ]
            for mix, held in parts.items()
        }

    def check(self) -> None:
        """Note each part that is a mix of mixes, and each mix that is a part of itself."""
        for mix, held in sorted(self.within.items()):
            for other, part in held:
                third = next((name for name, _ in self.within.get(other, ())), "")
                if mix in (other, third):
                    chain = [mix, other] if mix == other else [mix, other, mix]
                    self._note(part, chain, f"the mix {mix} goes into itself")
                elif third:
                    self._note(part, [mix, other, third], f"the mix {other} is made of mixes")

    def _note(self, part: Draft, chain: list[str], what: str) -> None:
        self.gathering.problem(
            part.place,
            f"{what}: {' ← '.join(chain)}",
            _DEEPEST,
            f"name what went into {chain[1]} in its place"
            if chain[0] != chain[-1]
            else "correct what went in",
        )


def _planned(gathering: Gathering, parts: dict[str, list[Draft]], bought: set[str]) -> None:
    """A plan is of what is dried: what mixes alone make of other products is planned by its
    parts. What was only packed anew is dried, too."""
    dried = {lot.text("product") for lot in gathering.of("lots")}
    of = {
        draft.key: draft.text("product")
        for name in ("packs", "mixes")
        for draft in gathering.of(name)
    }
    mixed = {
        mix.text("product")
        for mix in gathering.of("mixes")
        if mix.key in bought
        or any(
            mix.text("product")
            not in (part.text("product"), of.get(part.text("pack")), of.get(part.text("mix")))
            for part in parts[mix.key]
        )
    } - dried
    for row in gathering.of("plan"):
        product = row.text("product")
        if product in mixed:
            gathering.problem(
                row.place_of("product"),
                f"{product} is mixed, not dried",
                one_of(sorted(dried)) if dried else "a product that is dried",
                "plan its parts",
            )
