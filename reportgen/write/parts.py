"""The parts of the file: the same input gives the same bytes."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Callable, Container, Iterable, Mapping
from datetime import UTC, datetime
from io import BytesIO
from typing import BinaryIO

from reportgen.clock import epoch
from reportgen.write import seal

_LEVEL = 3
"""Of compression: half the time of the usual 6, a tenth more bytes."""
_FIRST = "[Content_Types].xml"
"""Programs that guess a file's type look at its first part."""
_NO_DATE = datetime(2000, 1, 1, tzinfo=UTC)
_STRINGS = "application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"
_STRINGS_REL = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings"

Part = bytes | Callable[[], Iterable[bytes]]
"""A part's bytes, or what makes them piece by piece."""


def instant() -> datetime:
    """When the file says it was made: ``SOURCE_DATE_EPOCH``, else always the same day.

    The clock would make each build of the same season another file.
    """
    return epoch() or _NO_DATE


def read(data: bytes) -> dict[str, bytes]:
    """All parts of a file by name."""
    with zipfile.ZipFile(BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def write(parts: Mapping[str, Part], out: BinaryIO, last: str, huge: Container[str] = ()) -> None:
    """The parts as one file, in a fixed order; ``last`` is made when all others are, and the seal
    is put on the whole. Those that are ``huge`` may be longer than a zip file of old can hold."""
    names = sorted(parts, key=lambda name: (name != _FIRST, name == seal.PART, name == last, name))
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=_LEVEL) as archive:
        for name in names:
            part = parts[name]
            # What the seal reads must stand in the file as it is.
            archive.compression = zipfile.ZIP_STORED if name == seal.PART else zipfile.ZIP_DEFLATED
            # By name, a part gets the zip format's first instant as its date, not the clock's.
            with archive.open(name, "w", force_zip64=name in huge) as stream:
                for piece in [part] if isinstance(part, bytes) else part():
                    stream.write(piece)
        for info in archive.infolist():
            info.create_system = 0  # else it tells the operating system
    seal.seal(out)


def signed(app: bytes) -> bytes:
    """The part that names the program which wrote the file: ours, not a library's version."""
    app = re.sub(rb"<AppVersion>[^<]*</AppVersion>", b"", app)
    return re.sub(rb"(<Application>)[^<]*", rb"\g<1>reportgen", app)


def dated(core: bytes, when: datetime) -> bytes:
    """The document's properties with ``when`` for the time of the last change."""
    stamp = when.strftime("%Y-%m-%dT%H:%M:%SZ").encode()
    return re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>" + stamp, core)


def with_near_targets(parts: Mapping[str, bytes]) -> dict[str, bytes]:
    """The parts with their references to each other relative, as every program reads them."""
    near = {"xl/worksheets/_rels/": b"../", "xl/drawings/_rels/": b"../", "xl/_rels/": b""}
    return {
        name: data.replace(b'Target="/xl/', b'Target="' + near[folder])
        if (folder := name[: name.rfind("/") + 1]) in near
        else data
        for name, data in parts.items()
    }


def with_strings(parts: dict[str, bytes]) -> dict[str, bytes]:
    """The parts with a place for the shared strings announced, where there is none yet."""
    types, rels = parts[_FIRST], parts["xl/_rels/workbook.xml.rels"]
    if _STRINGS.encode() in types:
        return parts
    override = f'<Override PartName="/xl/sharedStrings.xml" ContentType="{_STRINGS}"/>'
    relation = f'<Relationship Id="strings" Type="{_STRINGS_REL}" Target="sharedStrings.xml"/>'
    return parts | {
        _FIRST: types.replace(b"</Types>", override.encode() + b"</Types>"),
        "xl/_rels/workbook.xml.rels": rels.replace(
            b"</Relationships>", relation.encode() + b"</Relationships>"
        ),
    }
