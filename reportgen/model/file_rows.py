"""From a file's keys to drafts, and from drafts to the rows of a table."""

from __future__ import annotations

from reportgen.model.bind import Binder, whole_table
from reportgen.model.draft import Draft, Gathering
from reportgen.model.fields import Record
from reportgen.model.keys import unknown
from reportgen.model.recipes import SHIPPED
from reportgen.model.records import BATCH, ONLY_SEASON, OWNER_COLUMN, RECORDS, SHORT
from reportgen.model.season import Origin, Rows
from reportgen.model.season_head import KEYS
from reportgen.read.near import one_of
from reportgen.read.nodes import Mapping, Node, Scalar
from reportgen.read.short import expand


def bind_file(binder: Binder, node: Node, season: bool) -> None:
    """Bind every key of a file; a flat batch file is expanded first."""
    gathering = binder.gathering
    if isinstance(node, Scalar) and node.empty:
        return
    if not isinstance(node, Mapping):
        gathering.problem(
            node.place,
            f"the file holds {node.shape}",
            "keys with their values, as 'lots:' with a list below it",
            f"begin with the name of the list: {one_of([f'{name}:' for name in BATCH])}",
        )
        return
    if is_short(node):
        node, problems = expand(node, SHORT, (*BATCH, *ONLY_SEASON, *(KEYS if season else ())))
        gathering.problems += problems
    known = [*KEYS, *ONLY_SEASON, *BATCH] if season else [*BATCH]
    for key, value in node.entries:
        if key.text in KEYS and season:
            _of_season(binder, node, key.text, value)
        elif key.text in known:
            whole_table(binder, RECORDS[key.text], value)
        elif key.text in (*KEYS, *ONLY_SEASON):
            gathering.problem(
                key.place,
                f"'{key.text}' does not belong in a batch file",
                one_of(BATCH),
                "move it to season.yaml",
            )
        else:
            unknown(key, known, "season.yaml" if season else "a batch file", gathering)


def is_short(node: Node) -> bool:
    """Whether a file has the short form."""
    return isinstance(node, Mapping) and any(key.text in SHORT.flat for key, _ in node.entries)


def _of_season(binder: Binder, node: Mapping, name: str, value: Node) -> None:
    """A key of the season itself that is an input, as the day it is judged on."""
    record = RECORDS["season"]
    readers = binder.readers(record)
    if name in readers:
        draft = Draft(record, node)
        draft.key = record.name
        readers[name](value, draft)
        binder.gathering.add(draft)


def rows_of(record: Record, gathering: Gathering) -> Rows:
    """A table's drafts as columns. A single record has its row even where nothing is given."""
    drafts = gathering.of(record.name)
    if record.key == "single" and not drafts:
        empty = Draft(record, Mapping(gathering.season_file, 0, 1, []))
        empty.key = record.name
        drafts = [empty]
    rows = Rows(record, [draft.key for draft in drafts])
    rows.places = [draft.place for draft in drafts]
    owner = OWNER_COLUMN.get(record.name)
    columns = [column.name for column in record.inputs]
    for name in [owner, *columns] if owner else columns:
        if name == owner or (record.name == "draws" and name == "pack"):
            rows.values[name] = [draft.owner.key if draft.owner else None for draft in drafts]
            rows.origins[name] = [_owner_origin(draft) for draft in drafts]
        else:
            rows.values[name] = [draft.values.get(name) for draft in drafts]
            rows.origins[name] = [draft.origins.get(name) for draft in drafts]
    return rows


def _owner_origin(draft: Draft) -> Origin | None:
    """A row's owner is named by the record that it stands in."""
    if draft.owner is None:
        return None
    shipped = draft.place.file.startswith(SHIPPED)
    return Origin("assumed" if shipped else "given", draft.owner.key, draft.owner.place)
