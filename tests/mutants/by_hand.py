"""Deliberate faults: where each goes, and the tests that should notice it."""

from __future__ import annotations

from typing import NamedTuple


class Fault(NamedTuple):
    """``old`` stands once in the file and becomes ``new``."""

    name: str
    file: str
    old: str
    new: str
    tests: str


FAULTS = (
    Fault(
        "swapped operands in a definition",
        "reportgen/trade/loads.py", "return weight_out / weight_in",
        "return weight_in / weight_out",
        "tests/trade tests/published",
    ),
    Fault(
        "driving taken off in the costing",
        "reportgen/trade/lots.py",
        "where(of_season, purchase_cost + travel_cost, carried_running)",
        "where(of_season, purchase_cost - travel_cost, carried_running)",
        "tests/trade",
    ),
    Fault(
        "a unit factor dropped from the numbers",
        "reportgen/algebra/numbers.py",
        "        if factor is None:\n            return part",
        "        if factor is None or expr.unit:\n            return part",
        "tests/algebra tests/trade",
    ),
    Fault(
        "rows that came to an owner without any are not noticed",
        "reportgen/algebra/stood.py", "IF({there},0,1)", "IF({there},0,0)",
        "tests/workbook/test_running.py",
    ),
    Fault(
        "the place that a link named is taken whatever stands there",
        "reportgen/algebra/running_formulas.py",
        'there = stood.stands(f"INDEX({keys},{kept})", own)', 'there = f"COUNT({kept})"',
        "tests/workbook/test_running.py",
    ),
    Fault(
        "a unit factor turned over in the formulas",
        "reportgen/algebra/formulas.py", "'/' if factor.divide else '*'",
        "'*' if factor.divide else '/'", "tests/algebra tests/trade/test_workbooks.py",
    ),
    Fault(
        "a wrong unit",
        "reportgen/units/unit.py", "ounce = pound / 16 = oz", "ounce = pound / 12 = oz",
        "tests/published",
    ),
    Fault(
        "a range that begins a row late",
        "reportgen/layout/spots.py",
        'return f"{self._prefix(spot)}${letter}${spot.first}:${letter}${spot.last}"',
        'return f"{self._prefix(spot)}${letter}${spot.first + 1}:${letter}${spot.last}"',
        "tests/trade/test_workbooks.py",
    ),
    Fault(
        "a range that ends rows early",
        "reportgen/layout/placing.py",
        "last = made.first + made.rows\n",
        "last = made.first + made.rows - made.block.spare - 1\n",
        "tests/trade/test_workbooks.py tests/samples",
    ),
    Fault(
        "the wrong aggregate",
        "reportgen/trade/offers.py", "return lowest(offers.price_alike)",
        "return median(offers.price_alike)", "tests/trade",
    ),
    Fault(
        "median become mean",
        "reportgen/algebra/functions.py",
        'return column.aggregate("mean", (column.middle(),))',
        'return (column.middle(), column.aggregate("mean", ()))[1]',
        "tests/algebra tests/published",
    ),
    Fault(
        "a stale cached value in the workbook",
        "reportgen/write/cells.py",
        'cells.append(f"{begun}{row}{number}{filled}</f><v>{value!r}</v></c>")',
        'cells.append(f"{begun}{row}{number}{filled}</f><v>{values[0]!r}</v></c>")',
        "tests/trade/test_workbooks.py tests/write",
    ),
    Fault(
        "a guard dropped",
        "reportgen/algebra/guards.py",
        "return [] if self.certain(expr.table.name, expr.name) else [Need(\"value\", expr)]",
        "return []", "tests/algebra/test_engines.py",
    ),
    Fault(
        "a divisor's guard dropped",
        "reportgen/algebra/guards.py",
        'Need("divisor", expr)]\n\n', "]\n\n", "tests/algebra/test_engines.py",
    ),
    Fault(
        "a tolerance with the wrong sign",
        "reportgen/algebra/operations.py",
        '"<": lambda d: d < -SMALLEST.value', '"<": lambda d: d < SMALLEST.value',
        "tests/algebra",
    ),
    Fault(
        "a tolerance with the wrong sign in the formulas",
        "reportgen/algebra/formulas.py",
        '">=": "{}>=-{}"', '">=": "{}>={}"',
        "tests/algebra/test_engines.py",
    ),
    Fault(
        "a filter dropped",
        "reportgen/trade/products.py",
        "return total(loads.weight_out, loads.finished)", "return total(loads.weight_out)",
        "tests/trade",
    ),
    Fault(
        "crumbs that bear cost",
        "reportgen/trade/products.py",
        "dried + carried - crumbs, unknown()", "dried + carried + crumbs, unknown()", "tests/trade",
    ),
    Fault(
        "a wrong link",
        "reportgen/algebra/formulas.py",
        "row = self.places.cell(expr.table.name, locator(expr.link))",
        "row = self.places.cell(expr.table.name, locator([*expr.table.links][0]))",
        "tests/algebra/test_engines.py tests/trade/test_workbooks.py",
    ),
    Fault(
        "an estimate taken for a measurement",
        "reportgen/algebra/book.py",
        'int(measured == (mark == "measured"))', 'int(measured != (mark == "measured"))',
        "tests/algebra tests/trade",
    ),
    Fault(
        "rounding down",
        "reportgen/algebra/operations.py", "away = ceil(abs(cleaned))", "away = int(abs(cleaned))",
        "tests/algebra",
    ),
    Fault(
        "rounding up without cleaning the quotient",
        "reportgen/algebra/operations.py",
        "cleaned = rounded_half_away(num(steps), int(PLACES.value))", "cleaned = num(steps)",
        "tests/algebra",
    ),
    Fault(
        "brackets lost on the right of a minus",
        "reportgen/algebra/formulas.py",
        "self._bound(expr.left, level), self._bound(expr.right, level + 1)",
        "self._bound(expr.left, level), self._bound(expr.right, level)",
        "tests/algebra/test_engines.py",
    ),
    Fault(
        "unknown taken for zero in a total",
        "reportgen/algebra/operations.py",
        "return None if None in values else fsum(map(num, values))",
        "return fsum(num(v) for v in values if v is not None)", "tests/algebra tests/trade",
    ),
    Fault(
        "a share above the line",
        "reportgen/trade/equipment.py",
        "return parts_cost / (1 - spoiled)", "return parts_cost * (1 - spoiled)", "tests/trade",
    ),
    Fault(
        "trade, prices: a markup for a margin",
        "reportgen/trade/prices.py",
        "round_up(full_each / for_cost, ",
        "round_up(full_each * (1 + pricing.margin), ",
        "tests/trade/test_prices.py",
    ),
    Fault(
        "trade, prices: fees put on, not taken off",
        "reportgen/trade/prices.py",
        "return full_each / left_share",
        "return full_each * left_share",
        "tests/trade/test_prices.py",
    ),
    Fault(
        "trade, prices: fresh weight multiplied for the wrong form",
        "reportgen/trade/prices.py",
        "where(alike, net * product.drying_ratio, net)",
        "where(alike, net, net * product.drying_ratio)",
        "tests/trade/test_prices.py",
    ),
    Fault(
        "trade, plan: a ratio turned over",
        "reportgen/trade/to_make.py",
        "return dried_needed * product.ratio_used",
        "return dried_needed / product.ratio_used",
        "tests/trade/test_plan.py",
    ),
    Fault(
        "trade, windows: a run that ends with the day does not fit",
        "reportgen/trade/windows.py",
        "greatest(open_finish - open_gone, 0)",
        "greatest(open_finish - open_gone + ONE_DAY, 0)",
        "tests/trade/test_windows.py",
    ),
    Fault(
        "trade, closed: a run begins as its dryer closes",
        "reportgen/trade/closed.py",
        "return open_at - ONE_MINUTE",
        "return open_at + ONE_MINUTE",
        "tests/trade/test_windows.py",
    ),
    Fault(
        "trade, plan: a yield multiplied",
        "reportgen/trade/plan.py",
        "return prepped_planned / product.prep_yield_used",
        "return prepped_planned * product.prep_yield_used",
        "tests/trade/test_plan.py",
    ),
    Fault(
        "trade, plan: bulk counted for every row",
        "reportgen/trade/to_make.py",
        "return _left(product.unpacked, content_ahead)",
        "return _left(product.unpacked, content_ahead * 0)",
        "tests/trade/test_plan.py",
    ),
    Fault(
        "trade, queue: a start before the dryer is free",
        "reportgen/trade/queue.py",
        "return greatest(open_start, time_until)",
        "return first_known(open_start, time_until)",
        "tests/trade/test_plan.py",
    ),
    Fault(
        "trade, dryness: activity below the limit called moist",
        "reportgen/trade/dryness.py",
        "first_known(water_activity > ACTIVITY_LIMIT, no())",
        "first_known(water_activity < ACTIVITY_LIMIT, no())",
        "tests/trade/test_dryness.py",
    ),
    Fault(
        "trade, dryness: a weight that falls called steady",
        "reportgen/trade/dryness.py",
        "first_known(weight_change <= change_allowed, no())",
        "first_known(weight_change >= change_allowed, no())",
        "tests/trade/test_dryness.py",
    ),
    Fault(
        "trade, dryness: low and high water swapped",
        "reportgen/trade/dryness.py",
        "1 - (1 - water_at_start_low) * concentration",
        "1 - concentration / (1 - water_at_start_low)",
        "tests/trade/test_dryness.py",
    ),
    Fault(
        "trade, sealing: doubtful food in any container an error",
        "reportgen/trade/sealing.py",
        "return doubtful & airless",
        "return doubtful | airless",
        "tests/trade/test_dryness.py",
    ),
    Fault(
        "trade, keeping: the solid takes no room",
        "reportgen/trade/keeping.py",
        "return container.volume - net / product.skeletal_density",
        "return container.volume + net / product.skeletal_density",
        "tests/trade/test_keeping.py",
    ),
    Fault(
        "trade, uncertainty: the coverage dropped",
        "reportgen/trade/uncertainty.py",
        "return COVERAGE * u_share * running_per_packed",
        "return u_share * running_per_packed",
        "tests/trade/test_uncertainty.py",
    ),
    Fault(
        "trade, uncertainty: one meter's error taken for many",
        "reportgen/trade/weighings.py",
        "total(rows.energy_u, rows.finished)",
        "total(rows.energy_u, rows.dryer_first)",
        "tests/trade/test_uncertainty.py",
    ),
    Fault(
        "trade, uncertainty: a step taken for its standard uncertainty",
        "reportgen/trade/weighings.py",
        "return resolution * RECTANGULAR",
        "return resolution + resolution * RECTANGULAR",
        "tests/trade/test_uncertainty.py",
    ),
    Fault(
        "trade, energy: shared by hours though there is a log",
        "reportgen/trade/energy.py",
        "where(known(log_energy), cost_logged, cost_by_hours)",
        "where(known(log_energy), cost_by_hours, cost_logged)",
        "tests/trade/test_energy.py",
    ),
    Fault(
        "trade, energy: shared among loads by weight",
        "reportgen/trade/energy.py",
        "return run.energy_used * run_share",
        "return run.energy_used * run_share * run_share",
        "tests/trade/test_energy.py",
    ),
    Fault(
        "trade, payback: less than nothing left",
        "reportgen/trade/payback.py",
        "return greatest(payback_runs - runs_done, 0)",
        "return payback_runs - runs_done",
        "tests/trade/test_payback.py",
    ),
    Fault(
        "trade, payback: turned over",
        "reportgen/trade/payback.py",
        "return price / saving_known",
        "return saving_known / price",
        "tests/trade/test_payback.py",
    ),
    Fault(
        "trade, scenarios: a factor on what was, not on the scenario's rate",
        "reportgen/trade/scenarios.py",
        "return energy_paid * scenario.energy_factor",
        "return first_known(energy_paid, scenario.energy_factor * energy_paid)",
        "tests/trade/test_scenarios.py",
    ),
    Fault(
        "trade, drivers: the smallest first",
        "reportgen/trade/drivers.py",
        "return rank(weight, group, highest=True)",
        "return rank(weight, group)",
        "tests/trade/test_drivers.py",
    ),
    Fault(
        "trade, trace: a lot's packs left out",
        "reportgen/trade/rows.py",
        "found = dict.fromkeys((step.lot, step.pack) for step in steps(tables) if step.lot)",
        "found = {s.lot: (s.lot, s.pack) for s in steps(tables) if s.lot}.values()",
        "tests/trade/test_keeping.py",
    ),
    Fault(
        "trade, meter: power taken as it was before, not the mean of two",
        "reportgen/model/power_log/log.py",
        "yield (power + value) * (time - before) * _HALF_JOULES",
        "yield (power + power) * (time - before) * _HALF_JOULES",
        "tests/power_log/test_log.py",
    ),
    Fault(
        "trade, tariff: a night that does not wrap",
        "reportgen/model/tariff.py",
        "time >= self.begin or time < self.end", "time >= self.begin and time < self.end",
        "tests/model/test_tariff.py",
    ),
)  # fmt: skip
