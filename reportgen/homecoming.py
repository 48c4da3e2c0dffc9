"""The way home on one screen: read → find → compare → write anew → read again → what it does."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from reportgen import program
from reportgen.algebra.book import Book
from reportgen.algebra.numbers import Numbers
from reportgen.algebra.tables import Table
from reportgen.costing_home import compared
from reportgen.edits import memory as memories
from reportgen.edits import recalled, sides
from reportgen.edits.apply import KWH, Taken, apply
from reportgen.edits.differences import Change, Difference
from reportgen.edits.effects import Effect, effects
from reportgen.edits.present import same
from reportgen.edits.remarks import remarks
from reportgen.edits.typed_over import beside
from reportgen.model.season import Season
from reportgen.read.folder import find, listed
from reportgen.read.problem import Problem, Refusal
from reportgen.returned import reading
from reportgen.returned.cells import Workbook
from reportgen.trade import BOOK

_LEFT_OUT = shutil.ignore_patterns(
    "*.xlsx", "*.ods", "*.html", "*.pdf", ".*", "*.before", "*.taking"
)


@dataclass
class Edits:
    """What an edited workbook means for a season. ``texts``: the new texts of its files; ``read``:
    their bytes as they are; ``problems``: why the season would be refused with them."""

    season: Season
    difference: Difference
    memory: memories.Memory
    taken: Taken
    read: dict[str, bytes]
    effects: list[Effect] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    book: Book = BOOK
    """Whose tables say what figures are called."""

    @property
    def tables(self) -> dict[str, Table]:
        """The tables of the book, which say what figures are called."""
        return self.book.tables

    @property
    def refused(self) -> list[Change]:
        """What cannot be taken."""
        return self.difference.of("refused")


@dataclass(frozen=True)
class Choice:
    """What of the edits is to be taken. ``only``: cells, as ``Lots!J7``, all where empty; a record
    whose row is gone is chosen by its id, as ``Lots!pears-1``."""

    theirs: bool = False
    removals: bool = False
    only: tuple[str, ...] = ()
    into: str = ""
    computed: bool = False
    compares: bool = False
    """Nothing is to be written."""

    def takes(self, change: Change) -> bool:
        """Whether a change is among those that are taken."""
        if self.only and not chosen(change, self.only):
            return False
        return change.kind in ("change", "added", "removed", "renamed") or (
            change.kind == "conflict" and self.theirs
        )


def chosen(change: Change, only: tuple[str, ...]) -> bool:
    """Whether a change is one of those that ``only`` names."""
    names = {each.casefold().replace("$", "").replace("'", "") for each in only}
    said = [change.cell, *([change.row] if change.kind in ("removed", "conflict") else [])]
    return any(f"{change.sheet}!{each}".casefold() in names for each in said)


def edits(
    place: Path, season: Season, numbers: Numbers, workbook: Path | Workbook, choice: Choice
) -> Edits:
    """Everything that an edited workbook, a file or one that was read, says of a season.

    Raises :class:`Refusal` where the file is no workbook, or has no memory of a season; also where
    a costing sheet is to be taken.
    """
    book = reading.read(workbook) if isinstance(workbook, Path) else workbook
    del workbook
    memory = recalled.read(book)
    if memory is None:
        raise Refusal(
            "this workbook does not remember what it was built from",
            "one that reportgen built, however it was edited since",
            "take its figures home by hand, or edit one that is built anew",
        )
    if not memory.whole:
        raise Refusal(
            "what this workbook remembers of its season was changed",
            "the sheet Memory as it was built",
            "edit a workbook that is built anew",
        )
    if memory.units != season.slots:
        raise Refusal(
            "the season's units or currency are not those that this workbook was built with",
            ", ".join(sorted(memory.units.values())),
            "set them back, take the edits home, then change them",
        )
    words = words_of(season)
    if memory.product is not None:
        if not choice.compares:
            raise Refusal(
                f"this workbook is the costing sheet of {memory.product[0]}, which shows a part of "
                "the season and is compared only",
                "the workbook of the season",
                "see by reportgen compare what was changed; write what is to count into the files",
            )
        seen = compared(book, memory, season, numbers, words, choice.computed)
        return Edits(season, seen[0], memory, seen[1], {}, seen[2], book=seen[3])
    found = sides.compare(book, memory, season, BOOK.tables, words, choice.computed)
    del book  # its cells take more than all the rest
    found.changes = [
        beside(numbers, found.at.get((each.table, each.row)), each) for each in found.changes
    ]
    read = files_of(place)
    texts = {name: data.decode("utf-8") for name, data in read.items()}
    chosen = [each for each in found.changes if choice.takes(each)]
    taken = apply(season, texts, found, chosen, choice.into, memory.as_of, choice.removals)
    made = Edits(season, found, memory, taken, read)
    if taken.texts:
        typed = [each.edited for each in taken.done if each.field == AS_OF]
        day = typed[0] if typed and isinstance(typed[0], float) else memory.as_of
        after = read_with(place, taken.texts, day)
        made.problems = [each for each in after.problems if each.severity == "error"]
        if after.season is not None and after.numbers is not None:
            made.effects = effects(numbers, after.numbers)
            taken.refused += _lost(taken, after.season)
    else:
        taken.refused += _lost(taken, None)
    return made


AS_OF = "as_of"
"""The day that a season is judged on: the workbook's own, until another is typed."""
_LOST = "it could not be written into the files so that they say it; write it there by hand"


def _lost(taken: Taken, after: Season | None) -> list[tuple[Change, str]]:
    """What was to be taken and is not in the files, read again, if any were written; but for
    records of which something is refused already: nothing of these was written."""
    refused = {(each.table, each.row) for each, _ in taken.refused}
    left = [each for each in taken.done if (each.table, each.row) not in refused]
    return [(each, _LOST) for each in left if after is None or not _arrived(each, after)]


def _arrived(change: Change, after: Season) -> bool:
    """Whether what was taken is what the files say with it, read again. Rows that are known by
    their place may stand elsewhere by then, and a log's energy becomes its run's."""
    rows = after.tables.get(memories.WRITTEN_AS.get(change.table, change.table))
    if change.kind not in ("change", "conflict") or rows is None or change.field not in rows.values:
        return True
    known = rows.record.key != "position" and rows.keys.count(change.row) == 1
    if not known or change.edited is None or change.field == KWH:
        return True
    found, edited = rows.values[change.field][rows.keys.index(change.row)], change.edited
    both = isinstance(found, str) and isinstance(edited, str)
    return same(found, edited) or (both and str(found).casefold() == str(edited).casefold())


def left_behind(workbook: Path, season: Season, numbers: Numbers) -> list[tuple[str, str]]:
    """Comments in a workbook, which cannot be taken home, each with its cell: the workbook that is
    built anew from the same files has none of them."""
    with tempfile.TemporaryDirectory(prefix="reportgen-") as beside:
        path = Path(beside) / "anew.xlsx"
        with path.open("w+b") as out:
            program.write_workbook(season, numbers, out)
        return remarks(*(reading.read(each, notes=True) for each in (workbook, path)))


def words_of(season: Season) -> dict[str, str]:
    """The program's words by what they are in the season's language."""
    say = program.texts(season.locale).say
    words = {
        word
        for table in BOOK.tables.values()
        for column in table.inputs.values()
        for word in column.choices
    }
    kinds = {
        str(value)
        for value in season.tables["products"].values.get("kind", [])
        if value is not None
    }
    return {say(word): word for word in words | kinds}


def files_of(place: Path) -> dict[str, bytes]:
    """The season's own YAML files, its recipes among them, by name, as bytes."""
    found, _ = find(place)
    paths = [*found.batches, *([found.season] if found.season is not None else [])]
    paths += listed(found.recipes) if found.recipes is not None else []
    return {found.name(path): path.read_bytes() for path in sorted(paths, key=found.name)}


def folder_of(place: Path) -> Path:
    """The folder that a season's files are named from."""
    return find(place)[0].folder


def read_with(place: Path, texts: Mapping[str, str], as_of: float | None) -> program.Read:
    """The season with other texts in its files, read from a copy."""
    folder = folder_of(place)
    with tempfile.TemporaryDirectory(prefix="reportgen-") as beside:
        copy = Path(beside) / "season"
        shutil.copytree(folder, copy, ignore=_LEFT_OUT, symlinks=True)
        for name, text in texts.items():
            path = copy / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode("utf-8"))
        return program.read(copy / place.name if place.is_file() else copy, as_of=as_of)


def _follows(problem: Problem, made: Edits) -> bool:
    """Whether something is missed only because what it was typed in is refused: a new row, or a
    whole table that cannot be found again."""

    def lacks(refused: Change) -> bool:
        rows = made.season.tables.get(memories.WRITTEN_AS.get(refused.table, refused.table))
        if rows is None or refused.row in rows.keys:
            return False
        if refused.row:
            return f"'{refused.row}'" in problem.what
        return not refused.field and f"there is no {rows.record.one} '" in problem.what

    return any(lacks(each) for each in made.refused)


def refusals(made: Edits) -> list[Change]:
    """What cannot be written, and what the season would be refused for, each with its cell: that
    of the change that stands where it is refused, or next to it."""
    found = [replace(each, kind="refused", why=why) for each, why in made.taken.refused]
    for problem in made.problems:
        if _follows(problem, made):
            continue
        place = problem.place
        file, line = place.file, place.line
        change = made.taken.at(file, line, place.column)
        if change is None:
            change = Change("refused", "", "", "", "", "", file, line)
        why = f"{problem.what}; expected {problem.expected}; {problem.do}"
        found.append(replace(change, kind="refused", why=why))
    return found
