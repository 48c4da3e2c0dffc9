"""A power log, as a meter at the plug saves it: from the file to energy over time.

Power is integrated by the trapezoid rule; a count of kWh is taken as it stands, without what a
meter set back to zero takes away. What was put right on the way is said, with the line.
"""

from __future__ import annotations

from itertools import chain, islice
from pathlib import Path

from reportgen.model.power_log.header import FIRST_LINES, find_columns
from reportgen.model.power_log.log import Log, log_of
from reportgen.model.power_log.rows import Rows
from reportgen.model.power_log.text import open_log
from reportgen.read.problem import Place, Problem, Refusal
from reportgen.read.zones import Zone


def read_log(path: Path, name: str, zone: Zone) -> tuple[Log | None, list[Problem]]:
    """The log in a file, and all that is to be said about it; ``name`` is what messages call it.

    There is no log where a problem is an error, or where the file has no reading yet.
    """
    stream, problem = open_log(path, name)
    if stream is None:
        assert problem is not None
        return None, [problem]
    with stream:
        head = list(islice(stream, FIRST_LINES))
        try:
            columns = find_columns(head)
        except Refusal as refusal:
            at = next((n for n, line in enumerate(head, 1) if line.strip()), 0)
            place = Place(name, at)
            return None, [Problem(place, refusal.what, refusal.expected, refusal.do)]
        rows = Rows(columns, zone, name)
        readings = rows.read(chain(head[columns.line :], stream))
    if any(each.severity == "error" for each in rows.problems):
        return None, rows.problems
    log, problems = log_of(readings, columns, name, bool(zone))
    return log, rows.problems + problems
