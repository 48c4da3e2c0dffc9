"""What cannot be: values that contradict each other. What is only unlikely is left to checks."""

from __future__ import annotations

from math import fsum

from reportgen.model.draft import Draft, Gathering
from reportgen.model.limits_of_sales import check_sales
from reportgen.model.plan_limits import check_plan
from reportgen.units import DRIED, FRESH, factor

_BULK = ("household", "crumbs", "sample")
_PACKED = ("household", "gift", "spoiled")
_LONGEST = 366 * 24
"""Hours, past which a run was not meant so."""
_CLOSE = 1 / 60 + 1e-9
"""Hours: times written to the minute may differ by one."""


def check_limits(gathering: Gathering) -> None:
    """Note every contradiction."""
    names = {key: value for key, value in gathering.slots.items() if key != "money"}
    in_fresh = float(factor(DRIED.bound(names), FRESH.bound(names)))
    for lot in gathering.of("lots"):
        _lot(gathering, lot)
    for run in gathering.of("runs"):
        _run(gathering, run)
    for load in gathering.of("loads"):
        _load(gathering, load, in_fresh)
    for use in gathering.of("uses"):
        _use(gathering, use)
    for count in gathering.of("counts"):
        _count(gathering, count)
    _rests(gathering)
    check_plan(gathering)
    check_sales(gathering)
    for pricing in gathering.of("pricing"):
        margin, fees = pricing.number("margin"), pricing.number("fees")
        if margin is not None and fees is not None and margin + fees >= 1:
            gathering.problem(
                pricing.place_of("margin"),
                "margin and fees together take the whole price",
                "less than 100 % in all",
                "lower one of them",
            )


def _lot(gathering: Gathering, lot: Draft) -> None:
    count, weighed = lot.number("count"), lot.number("weighed_count")
    if count is not None and weighed is not None and weighed > count:
        gathering.problem(
            lot.place_of("weighed_count"),
            f"{weighed:.0f} containers were weighed, but only {count:.0f} bought",
            f"at most {count:.0f}",
            "check weighed_count and count",
        )
    prepped = lot.number("prepped_weighed")
    gone = {name: lot.number(name) or 0.0 for name in ("lost", "set_aside")}
    if prepped is not None and fsum(gone.values()) > prepped * (1 + 1e-9):
        worst = max(gone, key=lambda name: gone[name])
        both = " and ".join(name for name, weight in gone.items() if weight)
        gathering.problem(
            lot.place_of(worst),
            f"{both.replace('_', ' ')} are more than was prepped"
            if all(gone.values())
            else f"more was {both.replace('_', ' ')} than was prepped",
            f"at most {lot.origins['prepped_weighed'].text} in all",
            "check the weights and their units",
        )
    if any(lot.has(f"carried_{name}") for name in ("running", "full", "from")):
        for name in ("price_each", "price_by_weight", "price_total", "travel", "trip", "labor"):
            if lot.has(name):
                gathering.problem(
                    lot.place_of(name),
                    "the lot is left from last season: carried is all that it cost",
                    "carried: {running, full} without price, travel, trip or labor",
                    "take one of them out",
                )
    if lot.has("price_each") and not lot.has("container"):
        gathering.problem(
            lot.place_of("price_each"),
            "the price is by a container that the lot does not name",
            "the container",
            "add container:",
        )


def _run(gathering: Gathering, run: Draft) -> None:
    started, ended = run.number("started"), run.number("ended")
    if started is not None and ended is not None:
        timed = all(":" in run.origins[name].text for name in ("started", "ended"))
        hours = (ended - started) * 24
        if timed:
            zone = gathering.zone
            hours = (zone.of_day(ended) - zone.of_day(started)) / 3600
        if hours < 0 or (timed and hours == 0):
            gathering.problem(
                run.place_of("ended"),
                "the run ended before it was started" if hours else "the run took no time",
                "an end after the start",
                "check started and ended",
            )
        duration = run.number("duration")
        if timed and hours > 0 and duration is not None and abs(duration - hours) > _CLOSE:
            gathering.problem(
                run.place_of("duration"),
                f"duration says {duration:.4g} h, started and ended say {hours:.4g} h",
                "one of the two, or both the same",
                "delete the one that is wrong",
            )
    span = (ended - started) * 24 if started is not None and ended is not None else 0
    if max(run.number("duration") or 0, span) > _LONGEST:
        name = "duration" if run.has("duration") else "ended"
        gathering.problem(
            run.place_of(name),
            "the run took longer than a year",
            "a day or two",
            "check the duration and its unit, or the two days",
        )
        # Nobody is to go through its days one by one.
        run.values.pop(name, None)
        run.broken.add(name)
    begin, end = run.number("meter_from"), run.number("meter_to")
    if begin is not None and end is not None and end < begin:
        gathering.problem(
            run.place_of("meter_to"),
            "the meter reads less at the end than at the start",
            "'to' above 'from'",
            "check both readings; write the energy itself if the meter was set back",
        )


def _load(gathering: Gathering, load: Draft, in_fresh: float) -> None:
    wet = load.number("wet")
    for name in ("dry", "weighing_last"):
        dry = load.number(name)
        if wet is not None and dry is not None and dry * in_fresh > wet * (1 + 1e-12):
            gathering.problem(
                load.place_of(name),
                "it weighs more dry than it did wet",
                f"less than {load.origins['wet'].text}",
                "check both weights and their units",
            )
            return


def _rests(gathering: Gathering) -> None:
    """All that is left of a product is taken once a day."""
    found: dict[tuple[str, float | None], Draft] = {}
    for use in gathering.of("uses"):
        if not use.has("rest"):
            continue
        of_day = use.text("product").casefold(), use.number("date")
        before = found.setdefault(of_day, use)
        if before is not use and of_day[1] is not None:
            gathering.problem(
                use.place_of("rest"),
                f"all that was left was taken that day already ({before.place_of('rest').file}:"
                f"{before.place_of('rest').line})",
                "the rest of a product once a day",
                "delete one of the two, or write the weight of one",
            )


def _use(gathering: Gathering, use: Draft) -> None:
    pack, bulk = use.has("pack"), use.has("product")
    purpose = use.text("purpose")
    name = "purpose" if purpose else "channel"
    purpose = purpose or use.text("channel")
    if name == "channel" and purpose not in {each.key for each in gathering.of("channels")}:
        return  # noted already
    if pack == bulk:
        gathering.problem(
            use.place,
            "this use names both a pack and a product"
            if pack
            else "this use names neither a pack nor a product",
            "pack and count, or for bulk product and weight",
            "delete one of the two" if pack else "add pack: and count:, or product: and weight:",
        )
        return
    if bulk and not (use.has("weight") or use.has("rest")):
        gathering.problem(
            use.place,
            "this use has no weight",
            "the weight that was taken",
            "add weight:, or weight: rest for all that was left",
        )
    if use.has("rest") and not use.has("date"):
        gathering.problem(
            use.place_of("rest"),
            "all that was left was taken, and no day is written",
            "the day on which it was taken",
            "add date:",
        )
    if use.has("price") and use.has("total"):
        gathering.problem(
            use.place_of("total"),
            "this use has both a price of each and a total",
            "price, or total",
            "delete one of the two",
        )
    needed, other = ("count", "weight") if pack else ("weight", "count")
    if use.has(other) or (pack and use.has("rest")):
        gathering.problem(
            use.place_of(other if use.has(other) else "rest"),
            f"a use of {'a pack' if pack else 'bulk'} has no {other}",
            f"{needed} alone",
            f"delete {other}, or name a {'product in place of the pack' if pack else 'pack'}",
        )
    allowed = _PACKED if pack else _BULK
    if purpose and purpose not in allowed and not (pack and name == "channel"):
        gathering.problem(
            use.place_of(name),
            f"'{purpose}' is for {'bulk' if pack else 'packs'}",
            f"{', '.join(allowed[:-1])} or {allowed[-1]}",
            "choose one of these" + (", or name the pack it came from" if not pack else ""),
        )


def _count(gathering: Gathering, count: Draft) -> None:
    """A count is of a pack, in containers, or of bulk, by weight."""
    pack, bulk = count.has("pack"), count.has("product")
    needed, other = ("counted", "weight") if pack else ("weight", "counted")
    if pack == bulk:
        gathering.problem(
            count.place,
            f"this count names {'both a pack and a product' if pack else 'nothing'}",
            "pack and counted, or for bulk product and weight",
            "delete one of the two" if pack else "add pack: and counted:, or product: and weight:",
        )
    elif not count.has(needed):
        gathering.problem(
            count.place,
            "this count does not say how much was there",
            needed,
            f"add {needed}:, 0 where nothing was left",
        )
    elif count.has(other):
        gathering.problem(
            count.place_of(other),
            f"a count of {'a pack' if pack else 'bulk'} has no {other}",
            f"{needed} alone",
            f"delete {other}, or name a {'product in place of the pack' if pack else 'pack'}",
        )
