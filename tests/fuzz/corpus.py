"""What mutation begins with: every case of an error, small whole seasons, the samples' files.

An input is one text of sections, each headed ``--- file name ---``, as in ``tests/errors/cases``.
"""

from __future__ import annotations

import re
from pathlib import Path, PurePosixPath

from cli.seasons import BATCH, SEASON

ROOT = Path(__file__).parents[2]
_SECTION = re.compile(r"^--- (.+) ---\n", re.MULTILINE)
_EXPECTED = re.compile(r"^--- expected ---\n.*", re.MULTILINE | re.DOTALL)
TARIFF = """electricity:
    - {from: "16:00", to: "21:00", days: mon-fri, price: 0.31 USD/kWh}
    - {price: 0.12 USD/kWh}
"""
LOG = "time,W\n2025-09-05 18:00,700\n2025-09-05 22:00,650\n2025-09-06 23:59,690\n"
SHORT = """product: pear-slices
bought: 3 lug at 28.50 USD
wet: [4.0 lb, 3.9 lb, 3.9 lb]
run: {started: "18:30", duration: 34.5 h, energy: {from: 1042.3 kWh, to: 1064.1 kWh}}
dry: 26 oz
packed: 4 jar of 4.0 oz
"""
PLAN = "plan: [{product: pear-slices, container: jar, count: 24, net: 4 oz, start: 2025-10-05}]\n"
RECIPE = """name: Pears
water: {value: 84 %, low: 82 %, high: 86 %, source: practice}
prep_yield: {value: 80 %, source: practice}
containers: {lug: {value: 24 lb, source: practice}}
run_time: {value: 30 h, source: practice}
"""


def joined(files: dict[str, str]) -> str:
    return "".join(f"--- {name} ---\n{text}" for name, text in files.items())


def parted(text: str) -> dict[str, str]:
    """The files of an input; names that would leave the season are another name."""
    _, *parts = _SECTION.split(text)
    files = {}
    for name, held in zip(parts[::2], parts[1::2], strict=True):
        path = PurePosixPath(name.replace("\0", "").replace("\\", "/")[:80])
        if path.is_absolute() or ".." in path.parts or not path.name:
            path = PurePosixPath("batches/odd.yaml")
        files[path.as_posix()] = held
    return {"season.yaml": SEASON, **files}


def corpus() -> list[str]:
    """Every input to begin with, always in the same order."""
    whole = [
        {"season.yaml": SEASON, "batches/2025-09-05.yaml": BATCH},
        {"season.yaml": SEASON + PLAN, "batches/2025-09-05-pears.yaml": SHORT},
        {
            "season.yaml": SEASON.replace(
                "rates: {electricity: 0.20 USD/kWh, labor: 10 USD/h, travel: 0.50 USD/mile}\n",
                f"timezone: Europe/Paris\nrates:\n  labor: 10 USD/h\n  {TARIFF}",
            ),
            "batches/a.yaml": BATCH.replace("    energy: 20 kWh\n", "    meter: logs/a.csv\n"),
            "batches/logs/a.csv": LOG,
            "recipes/pear-slices.yaml": RECIPE,
        },
    ]
    cases = [
        _EXPECTED.sub("", each.read_text("utf-8"))
        for each in sorted((ROOT / "tests" / "errors" / "cases").glob("*.txt"))
    ]
    return [*map(joined, whole), *cases]
