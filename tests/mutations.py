"""Deliberate faults, one at a time, and which test catches each.

Not part of the test run: ``python tests/mutations.py`` copies the tree, puts one fault into the
copy, runs the tests that should notice, and takes it out again. It ends with 1 where a fault went
unnoticed, or where the place it belongs to has changed. ``python tests/mutations.py median`` tries
those whose name holds the word.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parent.parent
COPIED = ("reportgen", "recipes", "templates", "samples", "tests", "pyproject.toml", "README.md")


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
        "reportgen/trade/loads.py", "return weight_out / wet", "return wet / weight_out",
        "tests/trade tests/published",
    ),
    Fault(
        "swapped operands in the costing",
        "reportgen/trade/lots.py",
        "return (purchase_cost + travel_cost) / usable",
        "return usable / (purchase_cost + travel_cost)",
        "tests/algebra tests/trade",
    ),
    Fault(
        "a unit factor dropped from the numbers",
        "reportgen/algebra/numbers.py",
        "        if factor is None:\n            return part",
        "        if factor is None or expr.unit:\n            return part",
        "tests/algebra tests/trade",
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
        "reportgen/sheets/layout.py",
        'return f"{self._prefix(spot)}${letter}${spot.first}:${letter}${spot.last}"',
        'return f"{self._prefix(spot)}${letter}${spot.first + 1}:${letter}${spot.last}"',
        "tests/trade/test_workbooks.py",
    ),
    Fault(
        "a range that ends rows early",
        "reportgen/sheets/layout.py",
        "last = made.first + made.rows\n",
        "last = made.first + made.rows - made.block.spare - 1\n",
        "tests/trade/test_workbooks.py tests/sheets tests/edits tests/samples",
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
        'cells.append(f"{row.join(number)}{value!r}</v></c>")',
        'cells.append(f"{row.join(number)}{values[0]!r}</v></c>")',
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
        'return f"{difference}>=-{smallest}"', 'return f"{difference}>={smallest}"',
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
        "return dried + carried - crumbs", "return dried + carried + crumbs", "tests/trade",
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
        "return None if None in values else sum(map(num, values), 0.0)",
        "return sum((num(v) for v in values if v is not None), 0.0)", "tests/algebra tests/trade",
    ),
    Fault(
        "a share above the line",
        "reportgen/trade/equipment.py",
        "return parts_cost / (1 - spoiled)", "return parts_cost * (1 - spoiled)", "tests/trade",
    ),
)  # fmt: skip


def main(words: list[str]) -> int:
    """Try the faults whose names hold all the words; print who caught each."""
    chosen = [fault for fault in FAULTS if all(word in fault.name for word in words)]
    missed = 0
    with tempfile.TemporaryDirectory(prefix="mutations-") as folder:
        tree = Path(folder)
        for name in COPIED:
            _copy(ROOT / name, tree / name)
        found = _python(["-c", "import reportgen; print(reportgen.__file__)"], tree)
        assert Path(found.strip()).is_relative_to(tree), f"not the copy is tested but {found}"
        for fault in chosen:
            caught = _try(fault, tree)
            missed += caught is None
            print(f"{'NOT CAUGHT' if caught is None else 'caught    '}  {fault.name}", flush=True)
            if caught:
                print(f"            by {caught}", flush=True)
    print(f"{len(chosen) - missed} of {len(chosen)} caught")
    return 1 if missed else 0


def _copy(source: Path, target: Path) -> None:
    if source.is_dir():
        shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__", ".*"))
    elif source.exists():
        shutil.copyfile(source, target)


def _try(fault: Fault, tree: Path) -> str | None:
    """The first test that fails with the fault in place; None where all pass."""
    path = tree / fault.file
    sound = path.read_text(encoding="utf-8")
    if sound.count(fault.old) != 1:
        raise SystemExit(f"{fault.name}: {fault.old!r} stands {sound.count(fault.old)} times in "
                         f"{fault.file}; correct this list")  # fmt: skip
    path.write_text(sound.replace(fault.old, fault.new), encoding="utf-8")
    try:
        targets = [each for each in fault.tests.split() if (tree / each).exists()]
        said = _pytest(targets, tree)
    finally:
        path.write_text(sound, encoding="utf-8")
    found = re.search(r"^(FAILED|ERROR) (\S+)", said, re.MULTILINE)
    if found is None:
        if " passed" not in said:
            raise SystemExit(f"{fault.name}: the tests did not run:\n{said}")
        return None
    refused = found[1] == "ERROR" and "DefinitionError" in said
    return "the program itself, which refuses to load it" if refused else found[2]


def _pytest(targets: list[str], tree: Path) -> str:
    return _python(["-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *targets], tree)


def _python(arguments: list[str], tree: Path) -> str:
    # The copy comes first on the path, before the package that is installed. The same moment in
    # each file's time would let Python take the old bytecode for the new, so none is written.
    environment = os.environ | {"PYTHONPATH": str(tree), "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run(
        [sys.executable, *arguments],
        cwd=tree, env=environment, capture_output=True, text=True, check=False,
    )  # fmt: skip
    return done.stdout + done.stderr


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
