"""The checks that hold the season's sums together, and the verdict over all checks."""

from __future__ import annotations

from collections.abc import Iterable

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    broken,
    first_known,
    first_stray,
    no,
    per_row,
    plain,
    sentence,
    size,
    strays,
    total,
    unknown,
    where,
)
from reportgen.algebra.inputs import Input
from reportgen.algebra.tables import COUNT, TEXT, Table
from reportgen.algebra.views import Children
from reportgen.trade.constants import ROUNDING
from reportgen.trade.tables import TABLES, checks, season, typed
from reportgen.units import MONEY


@season.derived(MONEY)
def cost_carried(
    purchase_cost: Expr,
    travel_cost: Expr,
    lots_carried: Expr,
    waiting_cost: Expr,
    set_aside_cost: Expr,
    in_process_cost: Expr,
    failed_produce: Expr,
) -> Expr:
    """What lots cost, now or last season, less what waits, was set aside, is in process or was lost
    in failed runs: it must be in products."""
    bought = purchase_cost + travel_cost + lots_carried
    return bought - waiting_cost - set_aside_cost - in_process_cost - failed_produce


@season.check("error", "Tell the makers of this workbook: its own sums disagree.")
def produce_not_conserved(cost_carried: Expr, cost_ingredients: Expr) -> Expr:
    """What lots cost is not what products carry and what is set aside, waiting or in process."""
    return first_known(size(cost_carried - cost_ingredients) > ROUNDING, no())


@season.check("error", "Tell the makers of this workbook: its own sums disagree.")
def parts_not_total(
    running_cost: Expr,
    cost_ingredients: Expr,
    cost_energy: Expr,
    cost_upkeep: Expr,
    cost_packaging: Expr,
    cost_bought: Expr,
) -> Expr:
    """The cost parts do not add up to the running cost."""
    parts = cost_ingredients + cost_energy + cost_upkeep + cost_packaging + cost_bought
    return first_known(size(running_cost - parts) > ROUNDING, no())


_AGAIN = "Build the workbook again from its files; type new records in free rows."


@season.check("error", _AGAIN)
def rows_moved() -> Expr:
    """Rows were inserted or deleted inside a table: sums that run along its rows are wrong."""
    return broken()


@checks.derived(TEXT)
def verdict(failing: Expr, severity: Expr) -> Expr:
    """Whether it passes."""
    return where(failing > 0, severity, "ok")


@checks.derived(TEXT, label="as it is said above a list")
def said(failing: Expr, of: Expr, first: Expr) -> Expr:
    """What stands above a list that lacks what the check found."""
    found = sentence(
        "Of {of} {rows} not in this list as they are now, the first {first}: build again.",
        of=of,
        rows=plain(failing),
        first=first,
    )
    return where(failing > 0, found, unknown())


@season.derived(COUNT, label="rows that fail, as errors")
def errors(checks: Children) -> Expr:
    """How many rows fail a check that is an error."""
    return total(checks.failing, checks.is_error)


@season.derived(COUNT, label="rows that fail a check")
def failing(checks: Children) -> Expr:
    """How many rows fail a check, error or caution."""
    return total(checks.failing)


@season.derived(TEXT, label="verdict over the records")
def verdict_of_records(errors: Expr, failing: Expr) -> Expr:
    """The verdict over all checks, as long as the workbook is whole."""
    doubts = where(
        failing > 0, "The figures can be used; some cautions are open", "All checks pass"
    )
    return where(errors > 0, "Do not rely on it yet: there are errors", doubts)


@season.derived(TEXT, label="verdict over all checks")
def verdict_of_all(rows_moved: Expr, verdict_of_records: Expr) -> Expr:
    """The master verdict. Where sums are broken, what rests on them is not even looked at."""
    moved = "Build it again: rows were inserted or deleted"
    return where(rows_moved, moved, verdict_of_records)


def typed_inputs(tables: Iterable[Table]) -> list[tuple[Table, Input]]:
    """Every input that is a number, a day or 1 for yes, and typed."""
    return [(table, each) for table in tables for each in table.inputs.values() if each.typed]


def watch(typed: Table, tables: Iterable[Table]) -> None:
    """Look for text among the numbers typed into some tables: a guard would read it as missing."""
    found = typed_inputs(tables)

    @typed.derived(COUNT, label="cells with text")
    def with_text() -> Expr:
        """How many of its cells hold text where a number or a day belongs."""
        return per_row(*(strays(table, each.name) for table, each in found))

    @typed.derived(TEXT, label="first of them")
    def where_first() -> Expr:
        """Sheet and cell of the first."""
        return per_row(*(first_stray(table, each.name) for table, each in found))

    @typed.check("error", "Type the number alone, in the unit above it.", names="where_first")
    def text_typed(with_text: Expr) -> Expr:
        """Text stands where a number or a day belongs: it counts as missing."""
        return with_text > 0


watch(typed, TABLES)


def judge(checks: Table, season: Table, typed: Table, tables: Iterable[Table]) -> None:
    """The same verdict over the checks of another book."""
    watch(typed, tables)
    checks.derived(TEXT)(verdict)
    season.check("error", _AGAIN)(rows_moved)
    season.derived(COUNT, label="rows that fail, as errors")(errors)
    season.derived(COUNT, label="rows that fail a check")(failing)
    season.derived(TEXT, label="verdict over the records")(verdict_of_records)
    season.derived(TEXT, label="verdict over all checks")(verdict_of_all)
