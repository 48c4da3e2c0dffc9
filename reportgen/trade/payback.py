"""Payback: when the machine has paid for itself."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, greatest, latest, total, unknown, where
from reportgen.algebra.tables import COUNT, DATE, TEXT
from reportgen.algebra.views import Children, Link, SingleRow
from reportgen.trade.constants import ONE_YEAR
from reportgen.trade.tables import dryers, loads, products, runs, season, uses
from reportgen.units import DRIED, HOUR, MONEY, ONE

BY_DRIED = MONEY / DRIED


@uses.derived(MONEY)
def got(sold: Expr, revenue: Expr, pricing: SingleRow) -> Expr:
    """What a sale brought in after fees."""
    return where(sold, revenue * (1 - pricing.fees), unknown())


@products.derived(MONEY)
def sales_got(uses: Children) -> Expr:
    """What its sales brought in after fees."""
    return total(uses.got, uses.sold)


@products.derived(DRIED)
def sales_weight(uses: Children) -> Expr:
    """Weight that was sold."""
    return total(uses.content, uses.sold)


@products.derived(BY_DRIED)
def shop_worth(retail_median: Expr, pricing: SingleRow) -> Expr:
    """What it would have cost in a shop, of the share that would have been bought."""
    return retail_median * pricing.would_buy


@products.derived(BY_DRIED)
def sold_worth(sales_got: Expr, sales_weight: Expr) -> Expr:
    """What was got for it by weight, where it was sold."""
    return sales_got / sales_weight


@products.derived(BY_DRIED)
def worth(sold_worth: Expr, shop_worth: Expr) -> Expr:
    """Its value by weight: what was got for it where sold, else what shops ask."""
    return first_known(sold_worth, shop_worth)


@products.derived(BY_DRIED)
def gain(worth: Expr, running_per_packed: Expr) -> Expr:
    """What each weight of it is worth above its running cost."""
    return worth - running_per_packed


@loads.link(dryers)
def dryer(run: Link) -> Expr:
    """The dryer it was in."""
    return run.dryer


@loads.derived(DRIED)
def weight_gained(first_pass: Expr, weight_out: Expr, weight_in: Expr) -> Expr:
    """Dried weight it adds: what came out, less what went back in."""
    return where(first_pass, weight_out, weight_out - weight_in)


@loads.derived(MONEY)
def saving(weight_gained: Expr, product: Link) -> Expr:
    """What the load is worth above its running cost."""
    return weight_gained * product.gain


@dryers.derived(MONEY)
def saved(loads: Children) -> Expr:
    """What its finished loads are worth above their running cost."""
    return total(loads.saving, loads.finished)


@dryers.derived(COUNT)
def runs_this_season(runs_done: Expr, runs_before: Expr) -> Expr:
    """Runs it has done this season."""
    return runs_done - runs_before


@dryers.derived(MONEY, label="saved by a run")
def saving_per_run(saved: Expr, runs_this_season: Expr) -> Expr:
    """What a run saved this season, on the mean."""
    return saved / runs_this_season


@dryers.derived(MONEY)
def saving_known(saving_per_run: Expr) -> Expr:
    """The same, where something is saved."""
    return where(saving_per_run > 0, saving_per_run, unknown())


@dryers.derived(
    ONE,
    source="payback: price over what each run saves, undiscounted",
    label="runs to pay for itself",
)
def payback_runs(price: Expr, saving_known: Expr) -> Expr:
    """Runs until it has paid for itself, as if each saved what this season's did."""
    return price / saving_known


@dryers.derived(ONE, label="runs still to go")
def payback_left(payback_runs: Expr, runs_done: Expr) -> Expr:
    """Runs still to go, as if earlier ones had saved as much."""
    return greatest(payback_runs - runs_done, 0)


@dryers.derived(HOUR)
def payback_time(payback_left: Expr, runs_per_year: Expr) -> Expr:
    """Time until then, at the pace of a year."""
    return payback_left / runs_per_year * ONE_YEAR


@runs.derived(DATE)
def end(ended: Expr, started: Expr, hours: Expr) -> Expr:
    """When it ended: as given, else its start and its hours."""
    return first_known(ended, started + hours)


@season.derived(DATE)
def last_end(runs: Children) -> Expr:
    """When the last run ended."""
    return latest(runs.end)


@dryers.derived(DATE, label="paid for by")
def payback_date(season: SingleRow, payback_time: Expr) -> Expr:
    """When it will have paid for itself, counted from the last run's end."""
    return season.last_end + payback_time


@dryers.derived(TEXT)
def payback_known(saving_per_run: Expr, payback_left: Expr) -> Expr:
    """The answer in a word, where it is known what a run saves."""
    paid = where(payback_left > 0, "on its way", "it has paid for itself")
    return where(saving_per_run > 0, paid, "nothing is saved: it does not pay for itself")


@dryers.derived(TEXT, label="in words")
def payback_word(payback_known: Expr) -> Expr:
    """The answer in a word, or why there is none."""
    missing = "not known yet: no run is done, or something dried lacks its cost or a price"
    return first_known(payback_known, missing)
