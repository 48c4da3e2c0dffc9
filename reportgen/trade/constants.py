"""Named numbers of the trade and of physics, each with its unit and source."""

from __future__ import annotations

from reportgen.algebra.tables import constant
from reportgen.model.power_log.records import GAP_HOURS
from reportgen.trade.ice import least_energy
from reportgen.units import DRIED, ENERGY, HOUR, KG, MONEY, ONE, Unit

ONE_DAY = constant("one_day", 1, Unit.of("d"), "One day", "definition")

ONE_MINUTE = constant("one_minute", 1, Unit.of("min"), "One minute", "definition")

ONE_SECOND = constant("one_second", 1, Unit.of("s"), "One second", "definition")

ONE_WEEK = constant("one_week", 7, Unit.of("d"), "One week", "definition")

MONDAY = constant(
    "monday", 2, Unit.of("d"), "From a Saturday, with which days are counted, to Monday",
    "ISO 8601: a week begins on Monday",
)  # fmt: skip

LOG_GAP = constant(
    "log_gap", GAP_HOURS, HOUR, "Time without a reading that is worth a look",
    "common practice, no published source: a plug reports every few minutes at most",
)  # fmt: skip

STALE_AFTER = constant(
    "stale_after", 180, Unit.of("d"), "Age from which an offer is stale",
    "common practice, no published source: shop prices of dried food move within half a year",
)  # fmt: skip

SUBLIMATION_FLOOR = constant(
    "sublimation_floor", least_energy(), ENERGY / KG, "Least energy that drying ice takes",
    "heat of sublimation between -45 and -10 °C, from how the pressure over ice rises (IAPWS "
    "R14-08(2011), sublimation curve; Clausius and Clapeyron)",
)  # fmt: skip

FLOOR_TIMES = constant(
    "floor_times", 10, ONE, "Times the least energy, above which it is doubtful",
    "common practice, no published source: dryers at home take two to five times as much",
)  # fmt: skip

DEAR_ELECTRICITY = constant(
    "dear_electricity", 2, MONEY / ENERGY, "Price of electricity above which it is doubtful",
    "common practice, no published source: several times what households pay anywhere; for "
    "currencies that are worth about a dollar",
)  # fmt: skip
DOLLAR_SIZED = frozenset({"USD", "EUR", "GBP", "CHF", "CAD", "AUD", "NZD", "SGD"})
"""Currencies that are worth about a dollar; of others nothing is said."""

MOIST = constant(
    "moist", 0.10, ONE, "Water left that is too much to seal without air",
    "common practice in extension advice on storage without oxygen: about 10 % moisture or less",
)  # fmt: skip

ROUNDING = constant(
    "rounding", 0.005, MONEY, "Difference of money that counts as none",
    "half of the smallest coin; a convention of this workbook",
)  # fmt: skip

BALANCE = constant(
    "balance", 0.02, ONE, "Share by which weights or meters may disagree",
    "common practice, no published source: what clings to trays and knives, and small scales "
    "and meters",
)  # fmt: skip

STEADY = constant(
    "steady", 0.005, ONE, "Share within which two weighings agree",
    "common practice, no published source: half a percent is above what a kitchen scale adds",
)  # fmt: skip

COARSE = constant(
    "coarse", 0.01, ONE, "Step of a scale, by weight, that is too coarse to tell",
    "a convention of this workbook: a step of more than 1 % hides twice what may still be leaving",
)  # fmt: skip

ACTIVITY_LIMIT = constant(
    "activity_limit", 0.60, ONE, "Water activity up to which no microbes grow",
    "Beuchat, Cereal Foods World 26 (1981) 345: no growth at 0.60 and below",
)  # fmt: skip

OXYGEN_IN_AIR = constant(
    "oxygen_in_air", 0.2095, ONE, "Oxygen in air, by volume",
    "US Standard Atmosphere 1976, from memory",
)  # fmt: skip

LAPSE = constant(
    "lapse", 0.0065 / 288.15, ONE / Unit.of("m"), "Fall of temperature with height, by that at sea",
    "US Standard Atmosphere 1976: 6.5 K a kilometre, 288.15 K; from memory",
)  # fmt: skip

PRESSURE_EXPONENT = constant(
    "pressure_exponent", 5.25588, ONE, "Exponent of the pressure with height",
    "US Standard Atmosphere 1976, from memory",
)  # fmt: skip

RECTANGULAR = constant(
    "rectangular", 1 / 12**0.5, ONE, "Standard uncertainty of one step of a scale",
    "JCGM 100:2008 (GUM), 4.3.7: a rectangular distribution, one over the root of twelve",
)  # fmt: skip

COVERAGE = constant(
    "coverage", 2, ONE, "Coverage factor of the expanded uncertainty",
    "JCGM 100:2008 (GUM), 6.3: about 95 %",
)  # fmt: skip

POWER_SPREAD = constant(
    "power_spread", 0.25, ONE, "How far a mean power may be off, where nothing is said",
    "common practice, no published source",
)  # fmt: skip

CONTAINER_OFF = constant(
    "container_off", 0.1, ONE, "How far a container's nominal weight may be off",
    "common practice, no published source",
)  # fmt: skip

SINCE_EVER = constant(
    "since_ever", 36_500, Unit.of("d"), "Days that a price without a first day was asked before",
    "a convention of this workbook",
)  # fmt: skip

ONE_YEAR = constant("one_year", 365, Unit.of("d"), "Days in a year", "common year")

AT_A_GLANCE = constant(
    "at_a_glance", 10, ONE, "Places of the list of what to eat first",
    "a convention of this workbook",
)  # fmt: skip

SIDE_BY_SIDE = constant(
    "side_by_side", 2, ONE, "Dryers, where one more stands beside the first", "definition"
)

HUNDRED = constant("hundred", 100, ONE, "A share as per cent", "definition")

MONEY_PLACES = constant(
    "money_places", 2, ONE, "Places of an amount of money in a sentence",
    "a convention of this workbook",
)  # fmt: skip

PERCENT_PLACES = constant(
    "percent_places", 2, ONE, "Places of a share in per cent in a sentence",
    "a convention of this workbook",
)  # fmt: skip

FINE_COST = constant(
    "fine_cost", 0.2, MONEY / DRIED, "Cost by weight below which more places are told",
    "a convention of this workbook: what a gram costs differs in the third place",
)  # fmt: skip

FINE_PLACES = constant(
    "fine_places", 4, ONE, "Places of such a low cost in a sentence",
    "a convention of this workbook",
)  # fmt: skip
