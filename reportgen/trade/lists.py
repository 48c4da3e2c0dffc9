"""Lists that follow from records: rows that were typed into a finished workbook are not in them.

Which rows such a list has is found when the workbook is made (``rows.py``), what is in them follows
by itself. So each check here looks at the records, or at the list, for what another build would
change; the sheet that shows the list says so above it.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, known, same
from reportgen.algebra.tables import COUNT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import AT_A_GLANCE
from reportgen.trade.tables import (
    absorber_needs,
    changes,
    draws,
    eat_first,
    packs,
    plan,
    products,
    queue,
    recall,
    rest_steps,
    scenarios,
    trace,
    uses,
    weeks,
)

BUILD_AGAIN = "Take the edits home and build again: it then follows."


@draws.derived(COUNT, label="loads to trace")
def loads_behind(loads: Children, run_place: Expr) -> Expr:
    """Loads of its product in the run."""
    return count(same(loads.run_place, run_place))


@draws.check("caution", BUILD_AGAIN, names="pack", lacking=(trace, recall))
def not_traced(trace: Children, loads_behind: Expr) -> Expr:
    """A pack was drawn from a run, or a load was in it, which the trace does not hold."""
    return count(trace) < loads_behind


@packs.check("caution", BUILD_AGAIN, lacking=(trace,))
def not_traced_back(carried_from: Expr, trace: Children) -> Expr:
    """A pack left from last season that the trace does not hold."""
    return known(carried_from) & (count(trace) <= 0)


@trace.check("caution", BUILD_AGAIN, names="pack", lacking=(trace, recall))
def traced_otherwise(draw: Link, load: Link, pack: Expr) -> Expr:
    """The trace leads a pack to a load that is no longer behind it."""
    return (draw.pack != pack) | (draw.run_product != load.run_product)


@trace.check("caution", BUILD_AGAIN, names="pack", lacking=(recall,))
def recalled_otherwise(recalled: Link, lot: Link) -> Expr:
    """A load behind a pack is of another lot than it was."""
    return recalled.lot != lot


@products.derived(COUNT)
def bulk_moves(loads: Children, packs: Children, uses: Children) -> Expr:
    """Records that may have moved its bulk: loads, packs, uses of bulk."""
    return count(loads) + count(packs) + count(uses, uses.of_bulk)


@uses.check("caution", BUILD_AGAIN, lacking=(rest_steps,))
def rest_without_steps(rest: Expr, rest_steps: Children, of_product: Link) -> Expr:
    """All that was left was taken, and what moved its bulk has grown since."""
    return rest & (count(rest_steps) < of_product.bulk_moves)


@packs.check("caution", BUILD_AGAIN, lacking=(eat_first,))
def not_ranked(eat_turn: Expr, season: SingleRow) -> Expr:
    """A pack on the shelf for which the list of what to eat first has no place."""
    return (eat_turn > season.shelf_places) & (season.shelf_places < AT_A_GLANCE)


@packs.check("caution", BUILD_AGAIN, lacking=(absorber_needs,))
def absorbers_not_reckoned(absorber_needs: Children, absorbers: Children) -> Expr:
    """A pack for which the absorbers of a size at hand are not worked out."""
    return count(absorber_needs) < count(absorbers)


@changes.check("caution", BUILD_AGAIN, lacking=(scenarios,))
def not_worked_out(scenarios: Children, products: Children) -> Expr:
    """A scenario whose outcomes are not worked out."""
    return count(scenarios) < count(products)


@plan.check("caution", BUILD_AGAIN, lacking=(queue,))
def not_queued(queue: Children, plan: Children) -> Expr:
    """A row of the plan that has no place in the queue: when it is done may be wrong."""
    return count(queue) < count(plan)


@plan.check("caution", BUILD_AGAIN, lacking=(weeks,))
def not_by_the_week(season: SingleRow, dryer: Link) -> Expr:
    """A row of the plan on a dryer whose weeks are not in the list of weeks."""
    return season.by_the_week & (dryer.weeks_listed <= 0)
