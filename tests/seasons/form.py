"""A season as lists and mappings whose leaves are the texts a user writes, file by file."""

from __future__ import annotations

import copy
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

PRODUCTS = (
    "pear-slices",
    "apple-rings",
    "peach-slices",
    "sweet-corn",
    "parsley",
    "raspberries",
    "green-peas",
)
_PLACED = {
    "uses": "use", "plan": "plan", "upkeep": "upkeep", "parts": "part", "overheads": "overhead",
    "carried_over": "bulk", "counts": "count",
    "closed": "closed",
}  # fmt: skip
"""How keys by position begin."""
TABLES = ("trips", "lots", "runs", "packs", "uses", "offers", "counts", "markets")
"""The lists of a batch file."""
_SETTINGS = (
    "dryers", "containers", "absorbers", "overheads", "carried_over", "scenarios", "plan",
    "closed",
)  # fmt: skip
_SINGLE = ("rates", "pricing", "scale", "place", "another")

_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ./%+-]*")

Route = tuple[str | int, ...]
"""From a file's top to a leaf: ``("runs", 0, "loads", 1, "wet")``."""


@dataclass(frozen=True)
class Row:
    """A record: its table, its key, its file and where it stands there."""

    table: str
    key: str
    file: str
    route: Route
    record: dict[str, Any]


@dataclass(frozen=True)
class Season:
    """The files of a season: path relative to its folder, to what stands in it."""

    files: dict[str, dict[str, Any]]

    @property
    def head(self) -> dict[str, Any]:
        """What stands in ``season.yaml``."""
        return self.files["season.yaml"]

    def copied(self) -> Season:
        return Season(copy.deepcopy(self.files))

    def records(self, table: str) -> list[dict[str, Any]]:
        """The records of a list, of all files but product data of the season's own."""
        return [
            each
            for path in sorted(self.files)
            if not path.startswith("recipes/")
            for each in self.files[path].get(table, [])
        ]

    def texts(self) -> dict[str, str]:
        """Every file's YAML, by path."""
        return {path: yaml(content) for path, content in self.files.items()}

    def write(self, folder: Path) -> Path:
        """Write the files under ``folder``, and return it."""
        for path, text in self.texts().items():
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            (folder / path).write_text(text, encoding="utf-8")
        return folder

    def at(self, file: str, route: Route) -> Any:
        found: Any = self.files[file]
        for step in route:
            found = found[step]
        return found

    def rows(self) -> Iterator[Row]:
        """Every record, files in the order of their paths, with the key that it goes by.

        Where a table has no ids, the key ends with the position in the whole season, from 1.
        """
        counts: Counter[str] = Counter()

        def row(table: str, file: str, route: Route, key: str = "") -> Row:
            counts[table] += 1
            return Row(
                table, key or f"{_PLACED[table]}-{counts[table]}", file, route, self.at(file, route)
            )

        for file in sorted(self.files):
            content = self.files[file]
            for table in (*TABLES, *_SETTINGS):
                for n, record in enumerate(content.get(table, [])):
                    key = record.get("id", "")
                    yield row(table, file, (table, n), key)
                    for m, load in enumerate(record.get("loads", [])):
                        yield row("loads", file, (table, n, "loads", m), load_key(key, load))
                    for m in range(len(record.get("upkeep", []) if table == "dryers" else [])):
                        yield row("upkeep", file, (table, n, "upkeep", m))
                    for part in record.get("parts", {}):
                        yield row("parts", file, (table, n, "parts", part))
            for name in content.get("channels", {}):
                yield row("channels", file, ("channels", name), name)
            for table in _SINGLE:
                if table in content:
                    yield row(table, file, (table,), table)

    def table(self, name: str) -> list[Row]:
        return [row for row in self.rows() if row.table == name]

    def ids(self, table: str) -> list[str]:
        return [row.key for row in self.table(table)]


def load_key(run: str, load: dict[str, Any]) -> str:
    """A load's key: its id, else the run and the lot it came from, the first time included."""
    if "id" in load:
        return load["id"]
    lot = load["lot"] if "lot" in load else load["again"].rpartition("/")[2]
    return f"{run}/{lot}"


def yaml(content: dict[str, Any]) -> str:
    """The text of a file, in block style; records of single values in a line of their own."""
    lines: list[str] = []
    for key, value in content.items():
        if isinstance(value, list) and any(isinstance(each, dict) for each in value):
            lines.append(f"{key}:")
            for record in value:
                lines.extend(_record(record))
        else:
            lines.append(f"{key}: {flow(value)}")
    return "\n".join(lines) + "\n"


def _record(record: dict[str, Any]) -> Iterator[str]:
    first = "  - "
    for key, value in record.items():
        if key == "loads":
            yield f"{first}loads:"
            yield from (f"      - {flow(load)}" for load in value)
        else:
            yield f"{first}{key}: {flow(value)}"
        first = "    "


def flow(value: Any) -> str:
    """A value on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {flow(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    if _PLAIN.fullmatch(value) and not value.endswith(" "):
        return value
    escaped = value.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
