"""The verdict on dryness in words: why, and by which limit."""

from __future__ import annotations

from reportgen.algebra.expr import Expr
from reportgen.algebra.functions import first_known, known, plain, sentence, where
from reportgen.algebra.tables import SHARE, TEXT
from reportgen.trade.constants import (
    ACTIVITY_LIMIT,
    COARSE,
    HUNDRED,
    MOIST,
    PERCENT_PLACES,
    STEADY,
)
from reportgen.trade.tables import loads


@loads.derived(TEXT)
def reason_against(read_moist: Expr, drifting: Expr) -> Expr:
    """What speaks against it."""
    weighings = where(drifting, "the weight still falls", "the weights leave too much water")
    return where(read_moist, "a reading says moist", weighings)


@loads.derived(TEXT)
def reason_weighed(steady: Expr, too_coarse: Expr) -> Expr:
    """What its weighings show, or what is missing."""
    coarse = where(
        too_coarse,
        "the scale is too coarse to tell",
        "weigh again to constant weight, or measure",
    )
    return where(steady, "constant weight", coarse)


@loads.derived(TEXT)
def reason_missing(has_reading: Expr, reason_weighed: Expr) -> Expr:
    """What supports it, or what is missing."""
    return where(has_reading, "a reading supports it", reason_weighed)


@loads.derived(TEXT)
def dryness_cause(
    current: Expr, speaks_against: Expr, reason_against: Expr, reason_missing: Expr
) -> Expr:
    """Why: what supports it, what speaks against it, or what is missing."""
    return where(current, where(speaks_against, reason_against, reason_missing), "")


@loads.derived(TEXT)
def limit_read(water_activity: Expr, active: Expr, metered_moist: Expr) -> Expr:
    """The limit of the reading; of two, that which it does not keep."""
    activity = sentence("water activity at most {limit}; Beuchat 1981", limit=plain(ACTIVITY_LIMIT))
    moisture = sentence(
        "moisture at most {percent} %; extension advice", percent=plain(HUNDRED * MOIST)
    )
    return where(known(water_activity) & (active | ~metered_moist), activity, moisture)


@loads.derived(SHARE)
def share_allowed(change_allowed: Expr, weighing_last: Expr) -> Expr:
    """How far two weighings may be apart, by the last."""
    return change_allowed / weighing_last


@loads.derived(TEXT)
def limit_weighed(share_allowed: Expr) -> Expr:
    """The limit of two weighings that can tell."""
    percent = plain(HUNDRED * share_allowed, PERCENT_PLACES)
    return sentence("two weighings within {percent} %; common practice", percent=percent)


@loads.derived(TEXT)
def limit_of_weights(too_coarse: Expr, drifting: Expr, limit_weighed: Expr) -> Expr:
    """The limit of weighings: of the scale where it is too coarse."""
    coarse = sentence(
        "a step of at most {percent} %; our convention", percent=plain(HUNDRED * COARSE)
    )
    usual = sentence(
        "two weighings within {percent} %; common practice", percent=plain(HUNDRED * STEADY)
    )
    return where(too_coarse & ~drifting, coarse, first_known(limit_weighed, usual))


@loads.derived(TEXT)
def limit_against(read_moist: Expr, drifting: Expr, limit_read: Expr, limit_weighed: Expr) -> Expr:
    """The limit that it does not keep."""
    left = sentence(
        "at most {percent} % water left; extension advice", percent=plain(HUNDRED * MOIST)
    )
    return where(read_moist, limit_read, where(drifting, limit_weighed, left))


@loads.derived(TEXT)
def limit_for(has_reading: Expr, limit_read: Expr, limit_of_weights: Expr) -> Expr:
    """The limit that it keeps, or would have to keep."""
    return where(has_reading, limit_read, limit_of_weights)


@loads.derived(TEXT)
def dryness_limit(speaks_against: Expr, limit_against: Expr, limit_for: Expr) -> Expr:
    """The limit by which it was judged."""
    return where(speaks_against, limit_against, limit_for)


@loads.derived(TEXT, label="why")
def dryness_reason(current: Expr, dryness_cause: Expr, dryness_limit: Expr) -> Expr:
    """Why, and by which limit."""
    said = sentence("{cause} ({limit})", cause=dryness_cause, limit=dryness_limit)
    return where(current, said, "")
