"""From a season's numbers to figures, columns and tables that know where they come from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from reportgen.algebra.language import in_language
from reportgen.algebra.nodes import PerRow
from reportgen.algebra.numbers import Numbers, Value
from reportgen.algebra.phrases import Phrase, phrase, raised
from reportgen.algebra.tables import Kind, Table
from reportgen.algebra.words import words_of
from reportgen.handout.content import Column, Figure, Grid, Origin, Row, Term, Worked
from reportgen.handout.locale_format import LocaleFormat
from reportgen.layout.compose import translated
from reportgen.model.season import Season
from reportgen.report.basis import Bases
from reportgen.report.figures import as_data, keys
from reportgen.report.origins import of_input
from reportgen.report.reads import Cell, Reads
from reportgen.report.show import UNKNOWN
from reportgen.report.spoken import Spoken
from reportgen.report.verdicts import doubt
from reportgen.texts import ENGLISH, Texts


class Gather:
    """Reads one season for a hand-out in one language and place."""

    def __init__(self, season: Season, numbers: Numbers, texts: Texts, place: LocaleFormat) -> None:
        self.season, self.numbers, self.texts, self.place = season, numbers, texts, place
        self._bases, self._reads = Bases(numbers), Reads(numbers)
        self._words = words_of(numbers.book, *season.slots.items())

    @cached_property
    def _spoken(self) -> Numbers:
        """The numbers with the program's texts in the hand-out's language."""
        book = self.numbers.book
        if self.texts.language == ENGLISH:
            return self.numbers
        return in_language(self.numbers, self.texts.say, translated(book))

    @property
    def doubt(self) -> str:
        """That the season has errors, in the hand-out's language; empty where it has none."""
        return self.texts.said(wrong)[0] if (wrong := doubt(self.numbers)) else ""

    def table(self, name: str) -> Table:
        """A table by its name."""
        return self.numbers.book.tables[name]

    def keys(self, table: str) -> list[str]:
        """The keys of a table's rows."""
        return keys(self.numbers, self.table(table))

    def figure(self, table: str, name: str, row: int = 0) -> Figure:
        """One value, ready to be shown."""
        found = self.table(table)
        kind = found.kind_of(name)
        value = self.numbers.value(table, name, row)
        key = f"{table}.{name}/{self.keys(table)[row]}"
        if value is None:
            return Figure(
                key, None, self.texts["unknown.sign"], self.texts["unknown.word"], known=False
            )
        if kind.type == "flag":
            word = self.texts["words.yes" if value else "words.no"]
            return Figure(key, bool(value), word, word)
        if kind.type == "text":
            text, language = self.texts.said(str(value))
            own = name not in found.definitions or found.definitions[name].role == "link"
            spoken = text if own else str(self._spoken.value(table, name, row))
            if spoken not in (text, str(value)):
                # It was joined from several: put together anew in the language.
                text, language = spoken, self.texts.language
            return Figure(key, value, text, text, language="" if own else language)
        counted = kind.show == "count" or kind.type == "date" or name not in found.definitions
        basis = "" if counted else self._bases.of(found, name, row)
        return Figure(
            key, as_data(value, kind), self.place.bare(value, kind), self.place.whole(value, kind),
            basis,
        )  # fmt: skip

    def label(self, table: str, name: str) -> str:
        """What a quantity is called, here as in the workbook."""
        return self.texts.spoken(raised(self._words.label(self.table(table), name)))

    def name_of(self, table: str, key: str) -> str:
        """The name of the row with an id, else the id."""
        if "name" not in self.table(table).inputs or not key:
            return key
        row = [each.casefold() for each in self.keys(table)].index(key.casefold())
        return str(self.numbers.value(table, "name", row) or key)

    def origin(self, table: str, name: str, rows: Sequence[tuple[int, str]]) -> Origin:
        """Where a quantity's numbers come from, with what was put in for each row."""
        found = self.table(table)
        definition = found.definitions.get(name)
        worked = tuple(self._worked(table, name, rows))
        label = self.label(table, name)
        if definition is None:
            return Origin(label, self.texts.say(found.inputs[name].doc), "", "", worked)
        source = "" if definition.source == "definition" else definition.source
        said = [definition.doc, self._words.rule(definition), source]
        doc, rule, source = (self.texts.spoken(Phrase.of(each)) for each in said)
        if isinstance(definition.tree, PerRow):
            rule = ""
        return Origin(label, doc, rule, source, worked)

    def _worked(self, table: str, name: str, rows: Sequence[tuple[int, str]]) -> Iterator[Worked]:
        definition = self.table(table).definitions.get(name)
        for row, head in rows:
            if definition is None:
                filled = of_input(self.season, Cell(self.table(table), name, row))
            else:
                assert definition.tree is not None
                spoken = Spoken(self._reads, row, self._amount)
                filled = self.texts.spoken(spoken.phrase(definition.tree)[0])
            yield Worked(head, self.figure(table, name, row), filled)

    def _amount(self, value: Value, kind: Kind) -> str:
        """A value with its unit, in enough digits to follow the calculation by hand."""
        if value is None:
            return Phrase(UNKNOWN)
        match kind.type:
            case "flag":
                return Phrase("yes" if value else "no")
            case "text":
                return phrase("“{text}”", text=self.texts.said(str(value))[0])
        return self.place.amount(value, kind)

    def term(self, table: str, name: str, row: int = 0, filled: bool = True) -> Term:
        """A named figure with its origin; without what was ``filled`` in, with its rule alone."""
        return Term(
            self.label(table, name),
            self.figure(table, name, row),
            self.origin(table, name, [(row, "")] if filled else []),
        )

    def column(self, table: str, name: str, rows: Sequence[tuple[int, str]]) -> Column:
        """The head of a column."""
        kind = self.table(table).kind_of(name)
        traced = kind.type in ("number", "date") and name in self.table(table).definitions
        origin = self.origin(table, name, rows) if traced else None
        number = kind.type == "number"
        return Column(self.label(table, name), self.place.unit(kind), number, origin)

    def grid(
        self, id: str, table: str, names: Sequence[str], rows: Sequence[tuple[int, str]]
    ) -> Grid:
        """A table of some quantities, for some rows with their heads."""
        return Grid(
            id,
            self.texts[f"{id}.title"],
            self.texts[f"{id}.purpose"],
            self.texts[f"{id}.rows"],
            tuple(self.column(table, name, rows) for name in names),
            tuple(
                Row(head, tuple(self._cell(table, name, row) for name in names))
                for row, head in rows
            ),
        )

    def _cell(self, table: str, name: str, row: int) -> Figure:
        """A cell of a table; an id goes by the name of what it names."""
        figure = self.figure(table, name, row)
        parent = self.table(table).links.get(name)
        if parent is None or not figure.known:
            return figure
        named = self.name_of(parent, str(figure.value))
        return Figure(figure.key, figure.value, named, named)
