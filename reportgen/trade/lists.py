"""Lists that follow from records: rows that were typed into a finished workbook are not in them.

Which rows such a list has is found when the workbook is made (``rows.py``), what is in them follows
by itself. So each check here looks at the records, or at the list, for what another build would
change; the sheet that shows the list says so above it.
"""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import count, known, no, same, where
from reportgen.algebra.tables import COUNT, FLAG
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import AT_A_GLANCE
from reportgen.trade.tables import (
    absorber_needs,
    changes,
    draws,
    eat_first,
    mixes,
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
def loads_behind(of_mix: Expr, mix: Link, loads: Children, run_place: Expr) -> Expr:
    """Loads of its product in the run; of a mix its parts, each of which has a row at least."""
    return where(of_mix, mix.parts_named, count(same(loads.run_place, run_place)))


@mixes.derived(COUNT)
def parts_named(mix_parts: Children, bought_parts: Children) -> Expr:
    """How many parts it has, bought ones included."""
    return count(mix_parts) + count(bought_parts)


@draws.check("caution", BUILD_AGAIN, names="pack", lacking=(trace, recall))
def not_traced(trace: Children, loads_behind: Expr) -> Expr:
    """A pack was drawn from a run, or a load was in it, which the trace does not hold."""
    return count(trace) < loads_behind


@packs.check("caution", BUILD_AGAIN, lacking=(trace,))
def not_traced_back(carried_from: Expr, trace: Children) -> Expr:
    """A pack left from last season that the trace does not hold."""
    return known(carried_from) & (count(trace) <= 0)


@trace.check("caution", BUILD_AGAIN, names="pack", lacking=(trace, recall))
def traced_otherwise(draw: Link, of_another: Expr, pack: Expr) -> Expr:
    """The trace leads a pack to a load that is no longer behind it."""
    return (draw.pack != pack) | of_another


@trace.derived(FLAG)
def of_another(of_part: Expr, draw: Link, load: Link) -> Expr:
    """Its load is of another run or product than the pack names, and no mix is between them."""
    return where(of_part, no(), draw.run_product != load.run_product)


@trace.derived(FLAG)
def of_part(part: Expr, item: Expr) -> Expr:
    """It leads through a mix."""
    return ~(part == "") | ~(item == "")


@trace.check("caution", BUILD_AGAIN, names="pack", lacking=(recall,))
def recalled_otherwise(recalled: Link, lot: Link) -> Expr:
    """A load behind a pack is of another lot than it was."""
    return recalled.lot != lot


@products.derived(COUNT)
def bulk_moves(loads: Children, packs: Children, uses: Children, mix_parts: Children) -> Expr:
    """Records that may have moved its bulk: loads, packs, uses of bulk, parts of mixes."""
    taken = count(uses, uses.of_bulk) + count(mix_parts, mix_parts.of_bulk)
    return count(loads) + count(packs) + taken


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
