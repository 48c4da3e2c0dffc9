"""Each run's hours and energy by period of the tariff: from its times, and from its power log."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from math import fsum

from reportgen.model.draft import Draft, Gathering
from reportgen.model.fields import placed
from reportgen.model.power_log.log import Log
from reportgen.model.power_log.reading import read_log
from reportgen.model.power_log.records import GAP_HOURS
from reportgen.model.records import RECORDS
from reportgen.model.season import Origin, Value
from reportgen.model.tariff import Period, Tariff
from reportgen.read.problem import Place, Problem
from reportgen.read.zones import QUARTER, Zone

_HOUR = 3600.0
_POINTS, _ALL_POINTS = 120, 12_000
"""Points of the picture of one run, and of all runs together."""


@dataclass
class _Share:
    """What falls into one period."""

    hours: float = 0.0
    clock_change: float = 0.0
    kwh: float = 0.0
    unlogged: float = 0.0


@dataclass
class _Measured:
    """What is known of one run."""

    shares: dict[str, _Share] = field(default_factory=dict)
    log: Origin | None = None
    changed: float | None = None
    points: list[tuple[float, float]] = field(default_factory=list)
    remark: str = ""


def measure(gathering: Gathering) -> None:
    """Fill in the tables of energy by period and of power; note what is odd about a log."""
    _over_clock_changes(gathering)
    tariff = Tariff([Period.of(each) for each in gathering.of("periods")], gathering.zone)
    by_file: dict[str, list[Draft]] = {}
    for run in gathering.of("runs"):
        if run.text("meter"):
            by_file.setdefault(run.text("meter"), []).append(run)
    count = sum(map(len, by_file.values()))
    points = max(10, min(_POINTS, _ALL_POINTS // max(count, 1)))
    found: dict[int, _Measured] = {}
    for file, runs in by_file.items():
        log, problems = read_log(gathering.folder / file, file, gathering.zone)
        gathering.problems += problems
        for run in runs if log is not None else ():
            assert log is not None
            if len(runs) > 1 and None in _window(gathering, run):
                gathering.problem(
                    run.place_of("meter"),
                    f"{len(runs)} runs have this log, and this one does not say when it ran",
                    "started with its clock time, and ended or duration",
                    "add them, or save a log of its own for each run",
                )
                continue
            said = len(gathering.problems)
            made = _logged(gathering, tariff, run, log, points)
            if made is not None:
                made.remark = _remark([*problems, *gathering.problems[said:]])
                found[id(run)] = made
    for run in gathering.of("runs"):
        _told_midnight(run)
        made = found.get(id(run)) or _Measured()
        _clock_changes(gathering, tariff, run, made)
        _add(gathering, run, made)


def _remark(problems: Sequence[Problem]) -> str:
    """What was put right in a log, for whoever reads the workbook and not the terminal."""
    return "; ".join(f"line {each.place.line:,}: {each.what}" for each in problems)


def _over_clock_changes(gathering: Gathering) -> None:
    """The hours from start to end where the clock was changed between the two."""
    zone = gathering.zone
    for run in gathering.of("runs") if zone else ():
        started, ended = run.number("started"), run.number("ended")
        if started is None or ended is None or run.has("duration") or not _timed(run, "ended"):
            continue
        hours = (zone.of_day(ended) - zone.of_day(started)) / _HOUR
        if _timed(run, "started") and abs(hours - (ended - started) * 24) > 1 / 60 and hours > 0:
            why = "from start to end, over the clock change"
            run.default("duration", hours, why, run.place_of("ended"))


def _timed(run: Draft, name: str) -> bool:
    """Whether the day was written with its clock time."""
    return run.number(name) is not None and ":" in run.origins[name].text


def _window(gathering: Gathering, run: Draft) -> tuple[float | None, float | None]:
    """When the run began and ended, as far as that is written with clock times."""
    started, ended, duration = (run.number(name) for name in ("started", "ended", "duration"))
    begin = end = None
    if started is not None and _timed(run, "started"):
        begin = gathering.zone.of_day(started)
    if begin is not None and duration is not None:
        end = begin + duration * _HOUR
    elif ended is not None and _timed(run, "ended"):
        end = gathering.zone.of_day(ended)
    return begin, end


def _told_midnight(run: Draft) -> None:
    """A day and 0:00 look like the day alone, to a spreadsheet."""
    started = run.number("started")
    if started is not None and started == int(started) and _timed(run, "started"):
        run.default("at_midnight", True, "started at 0:00", run.place_of("started"))


def _clock_changes(gathering: Gathering, tariff: Tariff, run: Draft, made: _Measured) -> None:
    """What a clock change within the run adds to a period of the tariff, or takes from it: its
    hours less those that it would have, had the clocks not been changed."""
    zone = gathering.zone
    begin, end = _window(gathering, run)
    if not tariff or not zone or begin is None or end is None:
        return
    changed = _change(zone, begin, end)
    if changed is None:
        return
    on_clock = zone.wall(begin)
    hours: dict[str, float] = defaultdict(float)
    for first, last, key in tariff.spans(begin, end):
        hours[key] += (last - first) / _HOUR
    for first, last, key in tariff.unchanged().spans(on_clock, on_clock + end - begin):
        hours[key] -= (last - first) / _HOUR
    for key, change in hours.items():
        if key and abs(change) > 1 / _HOUR:
            made.changed = changed
            made.shares.setdefault(key, _Share()).clock_change = change


def _change(zone: Zone, begin: float, end: float) -> float | None:
    """Where the clocks are first changed between two moments, as a spreadsheet counts days."""
    moment, offset = begin, zone.offset(begin)
    while moment < end:
        moment = min(moment // QUARTER * QUARTER + QUARTER, end)
        if zone.offset(moment) != offset:
            return zone.to_day(begin) + (moment - begin) / 86400
    return None


def _logged(
    gathering: Gathering, tariff: Tariff, run: Draft, log: Log, points: int
) -> _Measured | None:
    """A run with a log; None where the log has nothing of the run's time."""
    begin, end = _window(gathering, run)
    first, last = log.times[0], log.times[-1]
    place = run.place_of("meter")
    zone = gathering.zone
    if begin is None:
        duration = run.number("duration")
        begin = end - duration * _HOUR if end is not None and duration is not None else first
        if not run.has("started"):
            day = round(zone.to_day(begin) * 86400) / 86400
            run.default("started", day, "the log's first reading", place)
    if end is None:
        duration = run.number("duration")
        end = last if duration is None else begin + duration * _HOUR
    timed = _timed(run, "started") and _timed(run, "ended")
    if not run.has("duration") and not timed and end > begin:
        run.default("duration", (end - begin) / _HOUR, "from the log's readings", place)
    if min(end, last) <= max(begin, first):
        gathering.problems.append(
            Problem(
                place,
                f"{log.name} has no readings of the time of this run",
                "",
                "check the run's start, the log's stamps and the season's timezone:",
                "caution",
            )
        )
        return None
    at = bisect_left(log.times, begin)
    count = bisect_right(log.times, end) - at
    unit = "kWh" if log.power is None else "W"
    text = f"{count:,} reading{'' if count == 1 else 's'} in {unit}"
    made = _Measured(
        log=Origin("given", text, Place(log.name, log.lines[min(at, len(log.lines) - 1)]))
    )
    holes = _holes(gathering, tariff, log, begin, end)
    for a, b, key in tariff.spans(begin, end):
        share = made.shares.setdefault(key, _Share())
        share.hours += (b - a) / _HOUR
        share.kwh += log.until(b) - log.until(a)
        share.unlogged += fsum(max(0.0, min(b, y) - max(a, x)) for x, y in holes) / _HOUR
    made.points = _points(log, begin, end, min(points, max(count - 1, 1)))
    return made


def _holes(
    gathering: Gathering, tariff: Tariff, log: Log, begin: float, end: float
) -> list[tuple[float, float]]:
    """The times of the run without a reading; gaps in the log are said."""
    gaps = [gap for gap in log.gaps(GAP_HOURS * _HOUR) if gap[0] < end and gap[1] > begin]
    if gaps and (log.power is not None or tariff):
        longest = max(b - a for a, b, _ in gaps) / _HOUR
        many = "a gap" if len(gaps) == 1 else f"{len(gaps):,} gaps, first"
        gathering.problems.append(
            Problem(
                Place(log.name, gaps[0][2]),
                f"{many} of more than {GAP_HOURS * 60:.0f} min after this line, the longest of "
                f"{longest:.3g} h; "
                + (
                    "power is taken to go straight from one reading to the next"
                    if log.power is not None
                    else "the count goes on, but when it rose within a gap is a guess"
                ),
                severity="caution",
            )
        )
    outside = [(begin, log.times[0]), (log.times[-1], end)]
    return outside if log.power is None else [*outside, *((a, b) for a, b, _ in gaps)]


def _points(log: Log, begin: float, end: float, count: int) -> list[tuple[float, float]]:
    """Hours since the start and mean power, so many times over the logged part of a run."""
    first, last = max(begin, log.times[0]), min(end, log.times[-1])
    step = (last - first) / count
    found = []
    for at in range(count):
        a, b = first + at * step, first + (at + 1) * step
        watt = (log.until(b) - log.until(a)) / (b - a) * 3.6e6
        found.append((round(((a + b) / 2 - begin) / _HOUR, 4), round(watt, 2)))
    return found


def _add(gathering: Gathering, run: Draft, made: _Measured) -> None:
    """The rows of a run."""
    if not run.key:
        return
    times = Origin("default", "from the run's start, end and duration", run.place)
    for position, (period, share) in enumerate(made.shares.items()):
        values: dict[str, tuple[Value, Origin]] = {
            "run": (run.key, times),
        }
        if period:
            values["period"] = period, times
        if share.clock_change and made.changed is not None:
            values["clock_change"] = share.clock_change, times
            values["changed"] = made.changed, times
        if made.log is not None:
            values["hours"] = share.hours, times
            values["kwh"] = share.kwh, made.log
            values["unlogged"] = share.unlogged, made.log
            if made.remark and not position:
                values["remark"] = made.remark, made.log
        _row(gathering, "run_energy", run, values)
    for since, watt in made.points:
        assert made.log is not None
        _row(
            gathering,
            "power",
            run,
            {
                "run": (run.key, made.log),
                "since": (since, made.log),
                "watt": (watt, made.log),
            },
        )


def _row(
    gathering: Gathering, table: str, run: Draft, values: dict[str, tuple[Value, Origin]]
) -> None:
    draft = Draft(RECORDS[table], run.node)
    for name, (value, origin) in values.items():
        draft.values[name], draft.origins[name] = value, origin
    gathering.add(draft)
    draft.key = placed(draft.record.one, len(gathering.of(table)))
