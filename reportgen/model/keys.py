"""The keys of a mapping: each to its reader, unknown ones with their near match."""

from __future__ import annotations

from collections.abc import Mapping as MappingType

from reportgen.model.draft import Draft, Gathering
from reportgen.model.readers import Reader
from reportgen.read.near import near, one_of, short
from reportgen.read.nodes import Mapping, Node, Scalar


def mapping_of(
    node: Node, draft: Draft, readers: MappingType[str, Reader], many: str, gathering: Gathering
) -> bool:
    """Read every key of a mapping; False where the node is none."""
    if isinstance(node, Scalar) and node.empty:
        return False
    if not isinstance(node, Mapping):
        gathering.problem(
            node.place,
            f"{node.shape} stands where the keys of {many} are wanted",
            f"keys with their values: {one_of(list(readers))}",
            "write 'key: value' on lines of their own, or {key: value, ...}",
        )
        return False
    for key, value in node.entries:
        reader = readers.get(key.text)
        if reader is not None:
            reader(value, draft)
        else:
            unknown(key, list(readers), many, gathering)
    return True


def unknown(key: Scalar, known: list[str], many: str, gathering: Gathering) -> None:
    """Note a key that a record does not have."""
    if key.text[:1].isdigit() and not key.quoted:
        gathering.problem(
            key.place,
            f"'{short(key.text)}' stands where a key is wanted; inside {{ }} a comma ends a value",
            "a decimal point, and no commas in numbers",
            "write the number before it with a point",
        )
        return
    match = near(key.text, known)
    gathering.problem(
        key.place,
        f"'{short(key.text)}' is not a key of {many}",
        one_of(known, 6 if match else 40),
        f"did you mean {match}?" if match else "delete it, or write it as a comment after #",
    )
