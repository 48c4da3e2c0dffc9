"""Units: what a number is measured in, and the exact factor from one unit to another.

Reading order: ``unit.py`` (the registry, :class:`Unit`, :func:`factor`), ``named.py`` (the units
the rest of the package speaks of, and the spellings that are read from a season), ``days.py`` (days
as a spreadsheet counts them).

May be imported from everywhere; imports nothing of the package. Only this folder builds a pint
registry.
"""

from reportgen.units.named import (
    AREA,
    DAY,
    DENSITY,
    DISTANCE,
    DRIED,
    ENERGY,
    FRESH,
    HOUR,
    KG,
    LENGTH,
    MONEY,
    POWER,
    SPELLINGS,
    VOLUME,
)
from reportgen.units.unit import ONE, Unit, UnitError, factor

__all__ = [
    "AREA",
    "DAY",
    "DENSITY",
    "DISTANCE",
    "DRIED",
    "ENERGY",
    "FRESH",
    "HOUR",
    "KG",
    "LENGTH",
    "MONEY",
    "ONE",
    "POWER",
    "SPELLINGS",
    "VOLUME",
    "Unit",
    "UnitError",
    "factor",
]
