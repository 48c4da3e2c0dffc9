"""Named numbers of the trade and of physics, each with its unit and source."""

from __future__ import annotations

from reportgen.algebra.tables import constant
from reportgen.units import ENERGY, KG, MONEY, ONE, Unit

ONE_DAY = constant("one_day", 1, Unit.of("d"), "One day", "definition")

STALE_AFTER = constant(
    "stale_after", 180, Unit.of("d"), "Offers older than this are stale",
    "common practice, no published source: shop prices of dried food move within half a year",
)  # fmt: skip

SUBLIMATION_FLOOR = constant(
    "sublimation_floor", 0.788, ENERGY / KG, "Least energy that drying ice takes",
    "heat of sublimation of ice, 2838 kJ/kg between -45 and -10 °C (Murphy and Koop, Quarterly "
    "Journal of the Royal Meteorological Society 131, 2005, eq. 5)",
)  # fmt: skip

MOIST = constant(
    "moist", 0.10, ONE, "More water left than this is too moist to seal without air",
    "common practice in extension advice on storage without oxygen: about 10 % moisture or less",
)  # fmt: skip

ROUNDING = constant(
    "rounding", 0.005, MONEY, "Amounts of money closer than this are the same",
    "half of the smallest coin; a convention of this workbook",
)  # fmt: skip

BALANCE = constant(
    "balance", 0.02, ONE, "Weights may disagree by this share before it is worth a look",
    "common practice, no published source: what clings to trays and knives, and small scales",
)  # fmt: skip
