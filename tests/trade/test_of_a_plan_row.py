"""What is reckoned of a row of the plan, figure by figure, with a pencil: what is there, what is
bought and dried for it, when, and for how much."""

from __future__ import annotations

from typing import Any

import pytest
from published.figures import Figures

from trade import small
from trade.test_checks import PLANNED, TODAY, at_market, tables
from trade.test_of_a_load import UNPACKED
from trade.test_of_a_pack import told
from trade.test_of_packs_and_mixes import MOIST

Changed = dict[str, Any]

ROW = PLANNED | {"start": TODAY}
BY_CRATE: Changed = {
    "lots": {"container": "crate", "count": 1},
    "nominal_weights": {"product": "food", "container": "crate", "weight": 11.0},
}
"""One crate was bought, and weighed: 10."""
ENOUGH: Changed = BY_CRATE | {
    "also_lots": {"key": "b", "product": "food", "weighed": 20.0},
    "plan": PLANNED,
}
"""By the yield of 0.8, 16 wait."""
TWO_ROWS: Changed = {"plan": PLANNED, "also_plan": PLANNED}
THREE: Changed = {
    "plan": ROW, "also_plan": PLANNED | {"start": TODAY + 2}, "also_plan_2": PLANNED,
}  # fmt: skip
ONE_MORE: Changed = {"also_plan": ROW | {"until": TODAY + 1}, "another": {"like": "dryer"}}
"""Gone after 48 h, when one run of 30 h has ended, and two dryers have done two."""


def every(hours: float) -> Changed:
    """A row of which a run begins every so many hours."""
    return {"plan": PLANNED | {"pace": 168 / hours}}


# Two are on the shelf of the nine that are wanted: 7 of 0.3 are 2.1, less the 0.1 that is in bulk.
# Of 8 came 1.3: for 2 that are 12.3, two runs of 8, each of 30 h.
OF_ONE: list[tuple[Changed, str, str, object]] = [
    ({"plan": PLANNED}, "on_shelf", "1", 2),
    (at_market(took=None) | {"plan": PLANNED}, "on_shelf", "1", None),
    # The two may be moist; of a row for another size they are none.
    ({"plan": PLANNED} | MOIST, "doubtful", "1", 2),
    ({"plan": PLANNED | {"net": 0.4}} | MOIST, "doubtful", "1", 0),
    (at_market(took=None) | MOIST | {"plan": PLANNED}, "doubtful", "1", None),
    ({"plan": PLANNED}, "short", "1", None),
    # By weight there are 8, by the crate there would be 10.
    (BY_CRATE | {"plan": PLANNED | {"at_most_weight": 8.0, "at_most": 1}}, "most_bought", "1", 8),
    (BY_CRATE | {"plan": PLANNED | {"at_most": 1}}, "most_bought", "1", 10),
    # 11 by the product data are a tenth more than the 10 that one weighed.
    (BY_CRATE | {"plan": PLANNED | {"buy": "crate"}}, "container_off", "1", False),
    # Nothing is bought while enough waits; it is dried all the same, 16 in two runs.
    (ENOUGH, "buy_count", "1", 0),
    (ENOUGH, "runs_needed", "1", 2),
    (ENOUGH, "said_of_buying", "1", None),
    (BY_CRATE | {"plan": PLANNED}, "said_of_buying", "1", " buy 2 × crate;"),
    # Without one price of electricity, that of what was used: 12 kWh at 1; 0.1 kW for 30 h.
    ({"plan": PLANNED, "dryers": {"mean_power": 100.0}, "rates": {"electricity": None},
      "periods": {"key": "day", "price": 1.0},
      "run_energy": {"run": "run", "period": "day", "hours": 30.0, "kwh": 12.0}},
     "run_cost", "1", 3),
    # A run takes 30 h: a minute less from one to the next is nothing, a minute and a half is.
    (every(30 - 1 / 60), "pace_too_fast", "1", False),
    (every(30 - 1.5 / 60), "pace_too_fast", "1", True),
    ({"plan": ROW}, "until_without_start", "1", False),
    ({"plan": PLANNED}, "until_without_start", "1", False),
    # Rows without a start come last, a day after the last start; where none has one, as written.
    (THREE, "turn", "1", 0),
    (THREE, "turn", "2", 48),
    (THREE, "turn", "3", 48 + 24),
    (TWO_ROWS, "turn", "1", 0),
    (TWO_ROWS, "turn", "2", 0),
    # They wait for what is before them, from a day that nobody knows. 60 h by one, 30 by two.
    (TWO_ROWS, "slack", "2", None),
    (TWO_ROWS, "slack_of_two", "2", None),
    (TWO_ROWS, "time_until", "2", 60),
    (TWO_ROWS, "until_of_two", "2", 30),
    (TWO_ROWS, "open_begin", "2", None),
    (TWO_ROWS, "done_by_two", "2", None),
    # With time left, no more turns fit than are needed.
    (ONE_MORE | {"also_plan": ROW | {"until": TODAY + 9}}, "turns_fit", "1", 1),
    (ONE_MORE, "runs_more", "1", 1),
    # One dryer leaves over what is beyond 8 of the 12.3, two leave nothing: 2 of dried less 1.3.
    # By weight it is worth what four packs of 0.3 got, two of them sold for 9 less fees of a tenth
    # and two on the shelf where a shop would get 9, less what it cost to run.
    (ONE_MORE, "earned_more", "1",
     (2 - 1.3) * ((2 * 9 * 0.9 + 2 * 9) / 1.2 - 25 / 1.3)),
    # What it is worth packed is not known while nothing is.
    (ONE_MORE | UNPACKED, "runs_more", "1", 1),
    (ONE_MORE | UNPACKED, "earned_more", "1", None),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "name", "key", "value"), OF_ONE)
def test_a_figure_of_a_plan_row(changed: Changed, name: str, key: str, value: object) -> None:
    found = Figures(**tables(**changed))("plan", name, key)
    assert told(found, value), found


def test_the_energy_of_a_run_to_come_is_an_estimate() -> None:
    """Though this season's runs tell how long one takes."""
    made = tables(plan=PLANNED, dryers={"mean_power": 400.0})
    found = small.Figures(Figures(**made).numbers)
    assert told(found("plan", "energy_each", "1"), 12)
    assert found.mark("plan", "energy_each", "1") is True
