"""Small seasons as text, with round figures, and what the program makes of them."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent

from reportgen.algebra.numbers import Numbers, Value
from reportgen.program import read

# Round figures, so that a pencil will do: a run costs 2 in upkeep (20 every 10 runs) and 4 in wear
# ((3000 - 600) / 600); a tin's packaging costs 2 (1.90 / 0.95); 16 oz make 1 lb.
HEAD = """
season: Pencil Lane
currency: USD
units: {fresh: lb, dried: oz}
rates: {electricity: 0.25 USD/kWh, labor: 10 USD/h, travel: 0.50 USD/mile}
dryers:
  - {id: barn, trays: 4, tray_area: 0.125 m2, mean_power: 800 W, price: 3000 USD, resale: 600 USD,
     life: 600 run, upkeep: [{item: oil, cost: 20 USD, every: 10 run}]}
containers:
  - {id: tin, parts: {tin: 1.50 USD, lid: 0.40 USD}, spoiled: 5 %}
pricing: {margin: 25 %, fees: 10 %, would_buy: 50 %}
"""

# A food of our own: nine tenths water, a fifth is lost in preparing it.
RECIPES = {
    "turnip-cubes": """
    name: Turnip cubes
    water: {value: 90 %, low: 88 %, high: 92 %, source: practice}
    prep_yield: {value: 80 %, source: practice}
    containers: {crate: {value: 20 lb, source: practice}}
    """,
    "beet-cubes": """
    name: Beet cubes
    water: {value: 87.5 %, source: practice}
    prep_yield: {value: 75 %, source: practice}
    containers: {crate: {value: 24 lb, source: practice}}
    """,
}


class Figures:
    """The figures of a season: ``figures("lots", "prepped", "t-1")``."""

    def __init__(self, numbers: Numbers) -> None:
        self.numbers = numbers

    def row(self, table: str, key: str) -> int:
        return self.numbers.cells[table]["key"].index(key)

    def __call__(self, table: str, name: str, key: str = "") -> Value:
        row = self.row(table, key) if key else 0
        return self.numbers.value(table, name, row)

    def of(self, table: str, key: str, *names: str) -> list[Value]:
        return [self(table, name, key) for name in names]

    def failing(self) -> list[str]:
        """The checks that fail."""
        checks = self.numbers.cells["checks"]
        return [str(key) for key, n in zip(checks["key"], checks["failing"], strict=True) if n]

    def mark(self, table: str, name: str, key: str) -> Value:
        """Whether a figure rests on estimates."""
        book = self.numbers.book
        column = book.companion(book.tables[table], name, "estimated")
        for made in list(book.tables[table].definitions.values()):
            book.ensure(made)
        for definition in book.order:
            self.numbers.compute(definition)
        return bool(self.numbers.rule(column)(self.row(table, key)))


def season(folder: Path, text: str, head: str = HEAD) -> Figures:
    """The figures of a season of one file."""
    (folder / "recipes").mkdir(exist_ok=True)
    for name, recipe in RECIPES.items():
        (folder / "recipes" / f"{name}.yaml").write_text(dedent(recipe))
    (folder / "season.yaml").write_text(dedent(head) + dedent(text))
    done = read(folder)
    assert done.problems == []
    assert done.numbers is not None
    return Figures(done.numbers)
