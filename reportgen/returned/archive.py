"""The parts of an archive, each read within limits."""

from __future__ import annotations

import zipfile
import zlib
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from typing import IO
from xml.etree.ElementTree import Element, ParseError
from xml.parsers.expat import ExpatError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import DefusedXMLParser, iterparse

from reportgen.read.problem import Refusal
from reportgen.returned.cells import LAST_COLUMN

LARGEST_FILE = 100_000_000
"""Bytes of the file; 2,500 runs make about 60 million."""
LARGEST_WHOLE = 1_500_000_000
"""Bytes of all parts unpacked."""
MOST_PARTS = 5_000
STEEPEST = 250
"""How many times larger than packed a part may be; what spreadsheets write stays below 60."""
SMALL = 1_000_000
"""Bytes of a part up to which the ratio does not matter."""
DEEPEST = 64
"""Levels of XML."""

_GUARD = "a workbook as a spreadsheet program saves it"
_DO = "save it again as .xlsx from the program that you edited it in"


def refuse(what: str) -> Refusal:
    """A file that is not read further."""
    return Refusal(what, _GUARD, _DO)


def too_deep(part: str) -> Refusal:
    """A part whose elements stand in one another without an end."""
    return refuse(f"its part {part[:60]} is nested too deeply")


def beyond(column: int) -> None:
    """Refuse a cell where no sheet has a column, before room is made for it."""
    if column > LAST_COLUMN:
        raise refuse("a cell stands beyond the last column that a sheet has")


class Archive:
    """A zip file. Raises :class:`Refusal` where it is none, or not one that is read."""

    def __init__(self, path: Path) -> None:
        try:
            if path.stat().st_size > LARGEST_FILE:
                raise refuse(f"the file is larger than {LARGEST_FILE // 1_000_000} MB")
            self._zip = zipfile.ZipFile(path)
        except (zipfile.BadZipFile, ValueError, NotImplementedError, EOFError):
            raise refuse("this is no workbook, or a damaged one") from None
        parts = self._zip.infolist()
        if len(parts) > MOST_PARTS:
            raise refuse(f"it has more than {MOST_PARTS:,} parts")
        self._parts = {part.filename: part for part in parts}
        if len(self._parts) < len(parts):
            raise refuse("a part stands in it twice")
        if sum(part.file_size for part in parts) > LARGEST_WHOLE:
            raise refuse(f"unpacked it is larger than {LARGEST_WHOLE // 1_000_000} MB")
        for part in parts:
            if part.flag_bits & 1:
                raise refuse("it is locked with a password")
            if part.file_size > max(SMALL, STEEPEST * part.compress_size):
                raise refuse(
                    f"its part {part.filename[:60]} is packed too tightly to be read safely"
                )

    def __enter__(self) -> Archive:
        return self

    def __exit__(self, *_: object) -> None:
        self._zip.close()

    def __contains__(self, name: str) -> bool:
        return name in self._parts

    def elements(self, name: str, whole: str = "") -> Iterator[tuple[str, Element]]:
        """The events ``start`` and ``end`` of a part's elements, whose names go without their
        namespace. An element is let go once its end was told; those named ``whole`` still have all
        that is in them by then."""
        inside: list[Element] = []
        kept = 0
        with self._opened(name) as stream:
            for event, element in iterparse(stream, ("start", "end")):
                if event == "start":
                    element.tag = element.tag.rpartition("}")[2]
                    inside.append(element)
                    kept += element.tag == whole
                    if len(inside) > DEEPEST:
                        raise too_deep(name)
                    yield event, element
                    continue
                yield event, element
                inside.pop()
                kept -= element.tag == whole
                if inside and not kept:
                    del inside[-1][-1]

    def told(
        self, name: str, starts: Mapping[str, Callable[[dict[str, str]], object]],
        ends: Mapping[str, Callable[[str], object]],
    ) -> None:  # fmt: skip
        """Tell of those elements of a part that somebody asked for by name: as one begins, with its
        attributes; as it ends, with the text after what is in it. Faster than ``elements``. Who has
        heard enough raises ``StopIteration``."""
        guarded = DefusedXMLParser()
        parser = guarded.parser
        parser.ordered_attributes = False
        begun: dict[str, Callable[[dict[str, str]], object] | None] = {}
        over: dict[str, Callable[[str], object] | None] = {}
        pieces: list[str] = []
        depth = 0

        def started(tag: str, given: dict[str, str]) -> None:
            nonlocal depth
            depth += 1
            if depth > DEEPEST:
                raise too_deep(name)
            pieces.clear()
            if tag not in begun:
                plain = tag.rpartition("}")[2]
                begun[tag], over[tag] = starts.get(plain), ends.get(plain)
            told = begun[tag]
            if told is not None:
                told(given)

        def ended(tag: str) -> None:
            nonlocal depth
            depth -= 1
            told = over[tag]
            if told is not None:
                told("".join(pieces))
            pieces.clear()

        parser.StartElementHandler, parser.EndElementHandler = started, ended
        parser.CharacterDataHandler = pieces.append
        with self._opened(name) as stream:
            try:
                while data := stream.read(65_536):
                    parser.Parse(data, False)
                parser.Parse(b"", True)
            except StopIteration:
                pass

    @contextmanager
    def _opened(self, name: str) -> Iterator[_Bounded]:
        """A part to be read, whose faults are said in words."""
        if name not in self._parts:
            raise refuse(f"its part {name[:60]} is missing")
        try:
            with self._zip.open(self._parts[name]) as stream:
                yield _Bounded(stream, self._parts[name].file_size)
        except DefusedXmlException:
            raise refuse(f"its part {name[:60]} declares entities, which are never read") from None
        except (
            ParseError,
            ExpatError,
            zipfile.BadZipFile,
            zlib.error,
            EOFError,
            ValueError,
            LookupError,
        ):
            raise refuse(f"its part {name[:60]} is damaged") from None


class _Bounded:
    """A part that may not be longer than its entry says."""

    def __init__(self, stream: IO[bytes], size: int) -> None:
        self._stream, self._left = stream, size

    def read(self, size: int = -1) -> bytes:
        """The next bytes."""
        data = self._stream.read(65_536 if size < 0 else size)
        self._left -= len(data)
        if self._left < 0:
            raise zipfile.BadZipFile("longer than it says")
        return data


def attribute(element: Element, name: str) -> str | None:
    """An attribute by its name, whatever namespace it is of."""
    found = element.get(name)
    if found is not None:
        return found
    return next((v for k, v in element.items() if k.rpartition("}")[2] == name), None)


def beside(part: str, target: str) -> str:
    """The part that a relation of another part names; it never leads out of the archive."""
    base = PurePosixPath("/") if target.startswith("/") else PurePosixPath("/") / part
    steps: list[str] = [] if target.startswith("/") else list(base.parent.parts[1:])
    for step in PurePosixPath(target.lstrip("/")).parts:
        if step == "..":
            if steps:
                steps.pop()
        else:
            steps.append(step)
    return "/".join(steps)
