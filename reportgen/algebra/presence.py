"""What a formula asks, before it works anything out, of each thing that it needs."""

from __future__ import annotations

from reportgen.algebra import running_formulas, totals
from reportgen.algebra.expr import DefinitionError
from reportgen.algebra.guards import Need
from reportgen.algebra.nodes import Aggregate, Ahead, Find, Parent, Strays
from reportgen.algebra.places import Places, locator
from reportgen.algebra.running import Running


def guard(need: Need, text: str, running: Running | None, places: Places) -> str:
    """The condition that a need is met, but for that of a divisor; ``text``: the formula of what is
    needed, or of what a row is found by."""
    expr = need.expr
    match need.kind:
        case "text" if isinstance(expr, Parent):
            # The quotient fails as well where no row is found.
            return f'COUNT(1/({text}<>""))'
        case "text":
            return f'({text}<>"")'
        case "row" if isinstance(expr, Parent):
            return f"COUNT({places.cell(expr.table.name, locator(expr.link))})"
        case "some" if isinstance(expr, Find):
            return f"COUNT({totals.place(expr, text, places)})"
        case "some" if isinstance(expr, Strays):
            return f"({totals.strays(expr, places)}>0)"
        case "some" if isinstance(expr, Aggregate):
            return totals.some(expr, places)
        case "value":
            return f"COUNT({text})"
        case "rows" if isinstance(expr, Aggregate):
            return f"({running_formulas.missing(running, expr, places)}=0)"
        case "rows" if isinstance(expr, Ahead):
            return f"({totals.missing_ahead(expr, places)}=0)"
    raise DefinitionError(f"formulas: no guard {need.kind} for {type(expr).__name__}")
