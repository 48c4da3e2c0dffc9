"""What the operations do to values: functions of the row's number, made from such functions.

``None`` is unknown, and so is whatever needs it.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Iterable, Sequence
from decimal import ROUND_HALF_UP, Decimal
from math import ceil, fsum, sqrt

from reportgen.algebra.expr import DefinitionError
from reportgen.algebra.nodes import Aggregate
from reportgen.algebra.tables import PLACES, SMALLEST, TEXT_PLACES

Value = float | str | bool | None
Rule = Callable[[int], Value]

_ARITHMETIC: dict[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
}
_HOLDS: dict[str, Callable[[float], bool]] = {
    "<": lambda d: d < -SMALLEST.value,
    "<=": lambda d: d <= SMALLEST.value,
    ">": lambda d: d > SMALLEST.value,
    ">=": lambda d: d >= -SMALLEST.value,
    "=": lambda d: abs(d) <= SMALLEST.value,
    "<>": lambda d: abs(d) > SMALLEST.value,
}


def always(value: Value) -> Rule:
    """The same in every row."""
    return lambda i: value


def arithmetic(op: str, left: Rule, right: Rule) -> Rule:
    """``left`` + - * ``right``."""
    act = _ARITHMETIC[op]

    def work(i: int) -> Value:
        a = left(i)
        if a is None:
            return None
        b = right(i)
        return None if b is None else act(a, b)  # type: ignore[arg-type]

    return work


def quotient(left: Rule, right: Rule, smallest: float) -> Rule:
    """``left`` / ``right``; unknown where the divisor is no larger than ``smallest``."""

    def divide(i: int) -> Value:
        a, b = left(i), right(i)
        if a is None or b is None or abs(num(b)) <= smallest:
            return None
        return num(a) / num(b)

    return divide


def comparison(op: str, left: Rule, right: Rule) -> Rule:
    """Two amounts compared, with the tolerance that tells amounts apart."""
    holds = _HOLDS[op]

    def compare(i: int) -> Value:
        a, b = left(i), right(i)
        return None if a is None or b is None else holds(num(a) - num(b))

    return compare


def alike(left: Rule, right: Rule, equal: bool, rows: Sequence[Sequence[int | None]]) -> Rule:
    """Whether two texts are the same, as a spreadsheet compares; ``rows``: where their parents
    stand, which must be there."""

    def compare(i: int) -> Value:
        if any(row[i] is None for row in rows):
            return None
        return (_folded(left(i)) == _folded(right(i))) is equal

    return compare


def logic(op: str, parts: Sequence[Rule]) -> Rule:
    """And, or, not; unknown where any part is."""
    if op == "not":
        (part,) = parts
        return lambda i: None if (v := part(i)) is None else not v
    settle = all if op == "and" else any

    def settled(i: int) -> Value:
        values = [p(i) for p in parts]
        return None if None in values else settle(map(bool, values))

    return settled


def call(op: str, parts: Sequence[Rule]) -> Rule:
    """The least or greatest of some numbers, the size of one, its square root."""

    def called(i: int) -> Value:
        values = [p(i) for p in parts]
        if None in values:
            return None
        numbers = [num(v) for v in values]
        match op:
            case "min":
                return min(numbers)
            case "max":
                return max(numbers)
            case "abs":
                return abs(numbers[0])
            case "power":
                return numbers[0] ** numbers[1] if numbers[0] > 0 else None
        return sqrt(numbers[0]) if numbers[0] >= 0 else None

    return called


def rounded_up(ratio: Rule, step: Rule) -> Rule:
    """The steps that ``ratio`` counts, rounded up to whole ones, times the step."""

    def rounded(i: int) -> Value:
        steps = ratio(i)
        if steps is None:
            return None
        cleaned = rounded_half_away(num(steps), int(PLACES.value))
        away = ceil(abs(cleaned))
        return (away if cleaned >= 0 else -away) * num(step(i))

    return rounded


def scaled(part: Rule, number: float, divide: bool) -> Rule:
    """The part in another unit."""
    if divide:
        return lambda i: None if (v := part(i)) is None else num(v) / number
    return lambda i: None if (v := part(i)) is None else num(v) * number


def joined(parts: Sequence[Rule]) -> Rule:
    """Texts one after the other."""

    def join(i: int) -> Value:
        texts = [p(i) for p in parts]
        return None if None in texts else "".join(map(str, texts))

    return join


def fold(expr: Aggregate, column: Sequence[Value]) -> Callable[[Sequence[int]], Value]:
    """What an aggregate makes of the rows it is given."""
    match expr.op:
        case "count":
            return len
        case "missing":
            return lambda rows: sum(1 for r in rows if column[r] is None)
        case "total" if not expr.blank_is_zero:

            def total(rows: Sequence[int]) -> Value:
                values = [column[r] for r in rows]
                return None if None in values else fsum(map(num, values))

            return total
        case "total" | "known":
            return lambda rows: fsum(num(v) for r in rows if (v := column[r]) is not None)
        case "mean":

            def mean(rows: Sequence[int]) -> Value:
                values = [num(v) for r in rows if (v := column[r]) is not None]
                return fsum(values) / len(values) if values else None

            return mean
        case "latest" | "earliest":
            pick = max if expr.op == "latest" else min
            return lambda rows: pick(
                (num(v) for r in rows if (v := column[r]) is not None), default=None
            )
    raise DefinitionError(f"numbers: no aggregate {expr.op}")


def before(
    column: Sequence[Value], bound: Rule, fold: Callable[[Sequence[int]], Value], blank: bool
) -> Callable[[int, Sequence[int]], Value]:
    """What an aggregate makes of those rows whose column is below a number, or ``blank``."""

    def earlier(i: int, rows: Sequence[int]) -> Value:
        limit = bound(i)
        return None if limit is None else fold(below(column, limit, blank, rows))

    return earlier


def below(column: Sequence[Value], limit: Value, blank: bool, rows: Iterable[int]) -> list[int]:
    """Those of the rows whose column is below a number, or ``blank``; none where it is unknown."""
    if limit is None:
        return []
    return [r for r in rows if (blank if (v := column[r]) is None else num(v) < num(limit))]


def ahead(column: Sequence[Value], order: Sequence[Value], groups: Iterable[Sequence[int]]) -> Rule:
    """A column's sum over the rows of the group that come before; unknown after an unknown one."""
    sums: dict[int, Value] = {}
    for rows in groups:
        so_far: Value = 0.0
        for row in sorted(rows, key=lambda row: num(order[row])):
            sums[row] = so_far
            own = column[row]
            so_far = None if so_far is None or own is None else num(so_far) + num(own)
    return sums.get


def until(
    begin: Sequence[Value], end: Sequence[Value], times: Sequence[Value] | None, own: Rule
) -> Rule:
    """How much of the stretches lies below the row's own number, each times its own."""
    whole = list(zip(begin, end, times or [1] * len(begin), strict=True))
    known = all(each is not None for _, _, each in whole)

    def below(i: int) -> Value:
        here = own(i)
        if here is None or not known:
            return None
        at = num(here)
        lengths = (
            (max(at - num(first or 0), 0.0) - max(at - num(last or 0), 0.0)) * num(each)
            for first, last, each in whole
        )
        return fsum(lengths)

    return below


def rank(column: Sequence[Value], groups: Iterable[Sequence[int]], highest: bool) -> Rule:
    """A row's place among the known ones of its group, ties in the order of the rows."""
    sign = -1 if highest else 1
    ranks: dict[int, Value] = {}
    for rows in groups:
        known = [row for row in rows if column[row] is not None]
        known.sort(key=lambda row: sign * num(column[row]))
        ranks.update({row: place for place, row in enumerate(known, 1)})
    return ranks.get


def rounded_half_away(number: float, places: int) -> Decimal:
    """Rounded as spreadsheets do: half away from zero, on the decimal digits that are shown."""
    return Decimal(repr(number)).quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)


def as_text(value: Value, places: float = TEXT_PLACES.value) -> str:
    """A number as part of a text: rounded to so many places, without trailing zeros."""
    text = f"{rounded_half_away(num(value), int(places)) + 0:f}"  # no -0
    return text.rstrip("0").rstrip(".") if "." in text else text


def num(value: Value) -> float:
    """A value that is known to be a number."""
    return value  # type: ignore[return-value]


def folded(value: Value) -> Value:
    """A text as a spreadsheet compares it, which takes capitals for small letters."""
    return value.casefold() if isinstance(value, str) else value


def _folded(value: Value) -> str:
    return "" if value is None else str(value).casefold()


def blank_is_none(value: Value) -> Value:
    """A value as a cell holds it."""
    # A spreadsheet cannot tell an empty text from none.
    return None if value == "" else value


def as_number(value: Value) -> Value:
    """A truth value as a number."""
    return int(value) if isinstance(value, bool) else value
