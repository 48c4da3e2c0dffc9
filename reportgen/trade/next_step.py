"""What to do next: the first check that fails, the first row of the plan that is not made."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import (
    count,
    first,
    first_known,
    join,
    known,
    plain,
    sentence,
    unknown,
    where,
)
from reportgen.algebra.tables import COUNT, FLAG, TEXT
from reportgen.algebra.views import Children, Link
from reportgen.trade.tables import changes, checks, plan, products, scenarios, season


@checks.derived(FLAG)
def fails(failing: Expr) -> Expr:
    """Whether it fails anywhere."""
    return failing > 0


@checks.derived(FLAG, label="fails, and is an error")
def fails_badly(fails: Expr, is_error: Expr) -> Expr:
    """Whether it fails anywhere and is an error."""
    return fails & is_error


@season.derived(TEXT, label="look at")
def look_at(checks: Children) -> Expr:
    """What is wrong by the first check that fails, errors before cautions."""
    error, any_of_them = first(checks.what, checks.fails_badly), first(checks.what, checks.fails)
    return first_known(error, any_of_them, "Nothing: all checks pass.")


@season.derived(TEXT, label="where it is")
def look_first(checks: Children) -> Expr:
    """The first row that fails that check."""
    return first_known(first(checks.first, checks.fails_badly), first(checks.first, checks.fails))


@season.derived(TEXT, label="what to do about it")
def look_do(checks: Children) -> Expr:
    """What that check advises."""
    return first_known(first(checks.do, checks.fails_badly), first(checks.do, checks.fails))


@season.derived(COUNT)
def checks_failing(checks: Children) -> Expr:
    """How many checks fail somewhere."""
    return count(checks, checks.fails)


@season.derived(TEXT, label="and besides")
def look_besides(checks_failing: Expr) -> Expr:
    """How many more checks fail, and where they are."""
    more = sentence("{checks} more, on the sheet Checks", checks=plain(checks_failing - 1))
    return where(checks_failing > 1, more, unknown())


@plan.derived(FLAG, label="not made yet")
def unmade(count_left: Expr) -> Expr:
    """Whether some of it is still to be made."""
    return count_left > 0


@products.derived(TEXT, label="name as it is said")
def called(name: Expr) -> Expr:
    """The product's name, for others to read."""
    return name


@changes.derived(TEXT, label="name as it is said")
def called(name: Expr, key: Expr) -> Expr:
    """The scenario's name, or its id where it has none."""
    return first_known(name, key)


@scenarios.derived(TEXT, label="scenario")
def called(scenario: Link) -> Expr:
    """The scenario's name."""
    return scenario.called


@scenarios.derived(TEXT, label="product")
def product_called(product: Link) -> Expr:
    """The name of the product that it is about."""
    return product.called


@plan.derived(TEXT, label="buying, in words")
def said_of_buying(buy_count: Expr, buy_used: Expr) -> Expr:
    """What to buy, in words; nothing where enough is waiting."""
    return where(buy_count > 0, join(" buy ", plain(buy_count), " × ", buy_used, ";"), "")


@plan.derived(TEXT, label="runs, in words")
def said_of_runs(runs_needed: Expr) -> Expr:
    """How many runs, in words."""
    return join(" runs of the machine: ", plain(runs_needed))


@plan.derived(TEXT, label="in words")
def said(product: Link, said_of_buying: Expr, said_of_runs: Expr) -> Expr:
    """The row in words: what to buy, and how many runs."""
    buying, runs = first_known(said_of_buying, ""), first_known(said_of_runs, "")
    return join(product.called, ":", buying, runs)


@plan.derived(FLAG)
def unmade_unknown(count_left: Expr) -> Expr:
    """Whether it is not known how many are still to be made."""
    return ~known(count_left)


@season.derived(TEXT)
def plan_done(plan: Children) -> Expr:
    """What is to be said of a plan of which no row is known to be open."""
    all_known = count(plan, plan.unmade_unknown) <= 0
    made = where(
        all_known,
        "Nothing: all that is planned is made.",
        "Not known: a row of the plan lacks its count or net weight, or one before it does.",
    )
    return where(count(plan) > 0, made, "Nothing is planned.")


@season.derived(TEXT, label="next of the plan")
def plan_next(plan: Children, plan_done: Expr) -> Expr:
    """The first row of the plan that is not made yet."""
    return first_known(first(plan.said, plan.unmade), plan_done)


@season.derived(COUNT, label="rows of the plan to make")
def plan_open(plan: Children) -> Expr:
    """Rows of the plan that are not made yet."""
    return count(plan, plan.unmade)
