"""Places of rows that totals need not look for, since each owner keeps where its rows stood.

Each row of who totals keeps the place of the first of its rows as the workbook was made
(``stood``), and takes it where a row of its group stands there still. Most of the search goes to
those that have no rows: a look through all of them in vain. So each row that is totalled says
whether its owner's place leads to its group (``strange``: 1 where it does not). While all do, who
finds nothing in its place has no rows; only else it is looked for among all, so that rows may be
typed, sorted, inserted or removed.

In the same way a row keeps the place of the one that its link names (``named``), where the ids say
whether it still stands there.
"""

from __future__ import annotations

from collections.abc import Sequence

from reportgen.algebra.blocks import Group, Helper, Kind, first_alike
from reportgen.algebra.nodes import Find
from reportgen.algebra.places import Places
from reportgen.algebra.tables import Table

KINDS: Sequence[Kind] = ("named", "stood", "strange")


def named(link: str) -> str:
    """The name of the column that keeps the place of the row which a link named."""
    return f"{link}_named"


def may(group: Group, owner: Table, column: str) -> bool:
    """Whether what tells the rows' groups is a place among the owner's rows: only then a row
    can see what its owner keeps."""
    if group.linked:
        return True
    there = first_alike(owner, column)
    tree = group.child.definitions[group.link].tree if there is not None else None
    return there is not None and isinstance(tree, Find) and (
        (tree.type, tree.table, tree.name) == ("number", there.table, there.name)
    )  # fmt: skip


def helpers(group: Group, owner: Table, column: str) -> list[Helper]:
    """The columns: on the owner's sheet and on that of its rows."""
    stood = Helper(group.of(owner, "stood"), owner, "stood", group, owner, column)
    strange = Helper(told(group, owner), group.child, "strange", group, owner)
    return [stood, strange]


def reads(helper: Helper) -> list[tuple[str, str]]:
    """The columns that the one with a formula reads."""
    if helper.typed or helper.owner is None:
        return []
    kept = helper.owner.name, helper.group.of(helper.owner, "stood")
    return [(helper.table.name, helper.group.key), kept]


def told(group: Group, owner: Table) -> str:
    """The name of the column in which rows say whether their owner knows of them."""
    return f"{owner.name}_{group.link}_strange"


def stands(there: str, own: str) -> str:
    """Whether what is sought stands in its place: where rows were removed, that may lie below all
    rows, which is an error by itself."""
    return f"COUNT(1/({there}={own}))"


def place(group: Group, owner: Table, own: str, places: Places) -> str:
    """Where the first row stood; the first of all where none did."""
    name = group.of(owner, "stood")
    if group.linked:
        return f"MAX(1,{places.cell(owner.name, name)})"
    return f"MAX(1,INDEX({places.span(owner.name, name)},{own}))"


def formula(helper: Helper, places: Places) -> str:
    """Whether the owner's place leads to no row of the group: 1, else 0."""
    group, owner = helper.group, helper.owner
    assert owner is not None
    key = places.cell(helper.table.name, group.key)
    keys = places.span(helper.table.name, group.key)
    kept = places.span(owner.name, group.of(owner, "stood"))
    there = stands(f"INDEX({keys},MAX(1,INDEX({kept},{key})))", key)
    return f'IF({key}="","",IF({there},0,1))'
