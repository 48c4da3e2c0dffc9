"""The short form: a batch file that holds one lot, one run and its packs, written flat.

It is expanded into the mappings of the full form, so everything after it knows one form only. Each
value keeps its line, and the text that was written for it.
"""

from __future__ import annotations

from dataclasses import dataclass

from reportgen.read import short_lines
from reportgen.read.file_names import base_of, date_of
from reportgen.read.near import near, one_of, short
from reportgen.read.nodes import Implied, Mapping, Node, Scalar, Sequence
from reportgen.read.problem import Problem, Refusal

Entries = list[tuple[Scalar, Node]]


@dataclass(frozen=True)
class Keys:
    """What may stand at the top of a flat file, beside its own ``bought``, ``run``, ``packed``."""

    lot: tuple[str, ...]
    """The keys of a lot, its id and product included."""
    load: tuple[str, ...]
    """The keys of a load that a lot does not have."""

    @property
    def all(self) -> tuple[str, ...]:
        """Every key, those first that a flat file is known by."""
        known = ("id", "product", "bought", *self.load, "run", "packed")
        return (*known, *(each for each in self.lot if each not in known))

    @property
    def flat(self) -> frozenset[str]:
        """The keys that only the short form has at the top of a file."""
        return frozenset(("product", "bought", "run", "packed", *self.load))


def expand(node: Mapping, keys: Keys, others: tuple[str, ...]) -> tuple[Mapping, list[Problem]]:
    """The full form of a flat file: a mapping of the lists ``lots``, ``runs`` and ``packs``.

    ``others`` are the keys of the full form and of the season, which must not stand beside it.
    """
    problems: list[Problem] = []
    mixed = [key for key, _ in node.entries if key.text in others]
    if mixed:
        flat = next(key for key, _ in node.entries if key.text in keys.flat)
        problems.append(
            Problem(
                mixed[0].place,
                f"'{mixed[0].text}' stands in one file with '{flat.text}' of the short form "
                f"(line {flat.line})",
                "a file in the short form, or one with lists",
                f"move {mixed[0].text} to a file of its own",
            )
        )
        left = [(key, value) for key, value in node.entries if key.text in others]
        return Mapping(node.file, node.line, node.column, left), problems
    return _Expansion(node, keys, problems).whole(), problems


class _Expansion:
    """One flat file on its way to the full form."""

    def __init__(self, node: Mapping, keys: Keys, problems: list[Problem]) -> None:
        self.node = node
        self.keys = keys
        self.problems = problems
        self.held = {key.text: (key, value) for key, value in node.entries
                     if not (isinstance(value, Scalar) and value.empty)}  # fmt: skip
        given = self.held["id"][1] if "id" in self.held else None
        self.base = given.text if isinstance(given, Scalar) else base_of(node.file)
        self.date = date_of(node.file)

    def whole(self) -> Mapping:
        """The lists of the full form."""
        for key, _ in self.node.entries:
            known = self.keys.all
            if key.text not in known:
                match = near(key.text, known)
                self.problems.append(
                    Problem(
                        key.place,
                        f"'{short(key.text)}' is not a key of the short form",
                        one_of(known, 6 if match else 30),
                        f"did you mean {match}?" if match else "delete it, or use the full form",
                    )
                )
        lists: Entries = [self._list("lots", [self._lot()])]
        if any(key in self.held for key in ("run", *self.keys.load)):
            lists.append(self._list("runs", [self._run()]))
        if "packed" in self.held:
            lists.append(self._list("packs", self._packs()))
        return Mapping(self.node.file, self.node.line, self.node.column, lists)

    def _lot(self) -> Mapping:
        entries = [self._id(""), *self._given(*(key for key in self.keys.lot if key != "id"))]
        if "date" not in self.held and self.date:
            entries.append(self._implied("date", self.date, "the date in the file's name"))
        if "bought" in self.held:
            entries += self._bought(self.held["bought"][1])
        if "wet" in self.held and "finished" not in self.held:
            entries.append(
                self._implied(
                    "finished", "true", "the short form holds all of the lot", self.held["wet"][1]
                )
            )
        return self._mapping(entries)

    def _bought(self, node: Node) -> Entries:
        if not isinstance(node, Scalar):
            self._shape(node, short_lines.BOUGHT)
            return []
        try:
            found = short_lines.bought(node)
        except Refusal as refusal:
            self._refuse(node, refusal)
            return []
        entries: Entries = []
        for name, value in found:
            if name in self.held:
                self._refuse(
                    self.held[name][0],
                    Refusal(
                        f"'{name}' is given by 'bought' too (line {node.line})",
                        "each value once",
                        "delete one of the two",
                    ),
                )
            entries.append((self._key(name, node), value))
        return entries

    def _run(self) -> Mapping:
        entries = [self._id("-run")]
        node = self.held["run"][1] if "run" in self.held else None
        if isinstance(node, Mapping):
            for key, value in node.entries:
                if key.text == "id":
                    entries[0] = (key, value)
                elif key.text == "loads":
                    self._refuse(
                        key,
                        Refusal(
                            "the short form's run has no list of loads",
                            "wet and dry beside run",
                            "use the full form for a run that holds several lots",
                        ),
                    )
                elif key.text in ("started", "ended"):
                    entries.append((key, self._moment(value)))
                else:
                    entries.append((key, value))
        elif node is not None:
            self._shape(node, 'the keys of a run, as {started: "18:30", duration: 34.5 h}')
        start = self.held[next(key for key in (*self.keys.load, "run") if key in self.held)][1]
        load = Mapping(start.file, start.line, start.column, self._given(*self.keys.load))
        load.entries.insert(0, self._implied("lot", self.base, "the lot of the short form"))
        entries.append(self._list("loads", [load], start))
        return self._mapping(entries, node or start)

    def _moment(self, node: Node) -> Node:
        """A clock time on the file's date; a whole date is left as it is."""
        if not isinstance(node, Scalar) or not short_lines.is_clock(node.text):
            return node
        given = self.held["date"][1] if "date" in self.held else None
        date = given.text if isinstance(given, Scalar) else self.date
        if not date:
            self._refuse(
                node,
                Refusal(
                    f"'{short(node.text)}' has no day, and the file's name has none either",
                    "a day and a time, as 2026-09-05 18:30",
                    "write the day before the time, or rename the file, as 2026-09-05-pears.yaml",
                ),
            )
            return Scalar("", node.file, node.line, node.column, node.length)
        return Scalar(
            f"{date} {node.text}", node.file, node.line, node.column, node.length, True, node.text
        )

    def _packs(self) -> list[Node]:
        node = self.held["packed"][1]
        packs: list[Node] = []
        items = node.items if isinstance(node, Sequence) else [node]
        for number, item in enumerate(items, 1):
            entries = [self._id(f"-pack-{number}", item), *self._given("product")]
            if isinstance(item, Mapping):
                own = {key.text for key, _ in item.entries}
                entries = [each for each in entries if each[0].text not in own]
                entries += item.entries
            elif isinstance(item, Scalar):
                try:
                    entries += [
                        (self._key(name, item), value) for name, value in short_lines.packed(item)
                    ]
                except Refusal as refusal:
                    self._refuse(item, refusal)
                    continue
            else:
                self._shape(item, short_lines.PACKED)
                continue
            if "run" in self.held or "wet" in self.held:
                run = Implied(self._run_id(), item.file, item.line, item.column, 1, True,
                              "the run of the short form")  # fmt: skip
                if not any(key.text == "from" for key, _ in entries):
                    entries.append((self._key("from", item), run))
            packs.append(self._mapping(entries, item))
        return packs

    def _run_id(self) -> str:
        node = self.held["run"][1] if "run" in self.held else None
        entries = node.entries if isinstance(node, Mapping) else []
        given = [value.text for key, value in entries
                 if key.text == "id" and isinstance(value, Scalar) and not value.empty]  # fmt: skip
        return given[0] if given else f"{self.base}-run"

    def _given(self, *names: str) -> Entries:
        return [self.held[name] for name in names if name in self.held]

    def _id(self, ending: str, at: Node | None = None) -> tuple[Scalar, Node]:
        return self._implied("id", self.base + ending, "the file's name", at)

    def _implied(
        self, name: str, text: str, why: str, at: Node | None = None
    ) -> tuple[Scalar, Node]:
        at = at or self.node
        return self._key(name, at), Implied(text, at.file, at.line, at.column, at.length, True, why)

    def _key(self, name: str, at: Node) -> Scalar:
        return Scalar(name, at.file, at.line, at.column, at.length)

    def _mapping(self, entries: Entries, at: Node | None = None) -> Mapping:
        at = at or self.node
        return Mapping(at.file, at.line, at.column, entries)

    def _list(
        self, name: str, items: list[Node] | list[Mapping], at: Node | None = None
    ) -> tuple[Scalar, Node]:
        at = at or self.node
        return self._key(name, at), Sequence(at.file, at.line, at.column, list(items))

    def _refuse(self, node: Node, refusal: Refusal) -> None:
        self.problems.append(Problem(node.place, refusal.what, refusal.expected, refusal.do))

    def _shape(self, node: Node, wanted: str) -> None:
        self._refuse(node, Refusal(f"{node.shape} stands here", wanted, "write it on one line"))
