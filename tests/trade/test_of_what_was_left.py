"""The steps to what was left in bulk, row by row, with a pencil: also where a record was corrected
in the workbook and a step stands that would not be made again."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade.test_checks import SECOND, TODAY, TOOK_ALL, tables
from trade.test_of_a_pack import told

CRUMBS: dict[str, Any] = {"key": "use-2", "date": TODAY - 6, "product": "food", "weight": 0.02,
                          "purpose": "crumbs"}  # fmt: skip
EARLIER: dict[str, Any] = TOOK_ALL | {"key": "use-2", "date": TODAY - 6}
LATER: dict[str, Any] = TOOK_ALL | {"key": "use-2", "date": TODAY - 4}
THEIRS: dict[str, Any] = {
    "also_products": {"key": "other"},
    "also_lots": {"key": "theirs", "product": "other", "date": TODAY - 9, "prepped_weighed": 4.0},
    "also_loads": {"id": "theirs", "run": "run", "lot": "theirs", "wet": 4.0, "dry": 0.9},
}
"""Another product, of which a load is in the same run."""


def steps(*rows: dict[str, Any], **changed: Any) -> dict[str, list[Any]]:
    """The steps of the use that took all that was left."""
    more = {f"also_rest_steps_{n}": {"taken": "use-1"} | row for n, row in enumerate(rows)}
    made = tables(uses=None, also_uses=TOOK_ALL, **more, **changed)
    return Figures(**made).numbers.cells["rest_steps"]


OF_STEPS: list[tuple[dict[str, Any], dict[str, Any], str, object]] = [
    # Of the bulk a mix took half; of a mix another one took a tenth, which is no bulk.
    ({"part": "1"}, SECOND, "taken_from", 0.5),
    ({"part": "2"}, SECOND, "taken_from", 0),
    ({"load": "load"}, THEIRS, "moves", True),
    ({"load": "theirs"}, THEIRS, "moves", False),
    ({"load": "theirs"}, THEIRS, "moved", 0),
    # Crumbs were weighed, and took no rest.
    ({"other": "use-2"}, {"also_uses_2": CRUMBS}, "earlier_rest", False),
    ({"other": "use-2"}, {"also_uses_2": EARLIER}, "earlier_rest", True),
    ({"other": "use-2"}, {"also_uses_2": LATER}, "earlier_rest", False),
    ({"other": "use-2"}, {"also_uses_2": CRUMBS}, "lacking", None),
    # Of its own two steps, 1.3 dried and 1.2 packed, the earlier use had 0.1.
    ({"other": "use-2"},
     {"also_uses_2": EARLIER, "also_rest_steps_8": {"taken": "use-2", "load": "load"},
      "also_rest_steps_9": {"taken": "use-2", "pack": "pack"}}, "lacking", -0.1),
    # It took all that was left of another product.
    ({"other": "use-2"},
     THEIRS | {"also_uses_2": EARLIER | {"product": "other"},
               "also_rest_steps_8": {"taken": "use-2", "load": "theirs"}}, "lacking", None),
]  # fmt: skip


@pytest.mark.parametrize(("step", "changed", "name", "value"), OF_STEPS)
def test_a_figure_of_a_step(
    step: dict[str, Any], changed: dict[str, Any], name: str, value: object
) -> None:
    found = steps(step, **changed)[name][0]
    assert told(found, value), found
