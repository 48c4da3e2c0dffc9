"""Batch files in the short form, as people write them: one lot, its run and its packs."""

from __future__ import annotations

from typing import Any

from seasons.form import Season
from seasons.outlook import BOUGHT_IN
from seasons.pen import Pen, day, number


def with_short_files(pen: Pen, season: Season, count: int) -> Season:
    """The season with some days' work beside it, each in a file that is named for its day."""
    result = season.copied()
    known = {row.record["product"] for name in ("lots", "offers") for row in season.table(name)}
    for _ in range(count):
        product = pen.rng.choice([*sorted(known), "pear-slices", "apple-rings"])
        name = f"batches/{day(pen.rng.randint(0, 90))}-{product.partition('-')[0]}"
        result.files[f"{name}.yaml"] = _file(pen, season.head, product)
    return result


def _file(pen: Pen, head: dict[str, Any], product: str) -> dict[str, Any]:
    grams = pen.between(4000, 15000)
    found: dict[str, Any] = {"product": product}
    if pen.maybe(0.9):
        found["bought"], weighed = _bought(pen, product, grams)
        if weighed:
            found["weighed"] = pen.wet(grams)
    others = {
        "prepped": pen.wet(grams * pen.between(0.6, 0.9)),
        "set_aside": pen.wet(grams * 0.02),
        "lost": pen.wet(grams * 0.01),
        "labor": pen.time(0.3, 4),
        "source": "orchard stand",
        "travel": f"{pen.rng.randint(2, 40)} {pen.road}",
        "note": "a wet morning",
    }
    found |= {key: each for key, each in others.items() if pen.maybe(0.3)}
    if pen.maybe(0.85):
        _dried(pen, head, found, grams * pen.between(0.4, 0.6))
    return found


def _bought(pen: Pen, product: str, grams: float) -> tuple[str, bool]:
    """What was bought, and whether its weight has to be said beside."""
    weight = pen.wet(grams)
    known = list(BOUGHT_IN.get(product, {}))
    container = pen.rng.choice([*known, "box"])
    count, price = pen.rng.randint(1, 4), pen.money(3, 40)
    ways = [
        f"{count} {container} at {price}",
        f"{count} {container} for {price}",
        f"{count} {container}",
        f"{weight} for {price}",
        weight,
        "grown",
    ]
    if " " not in weight.partition(" ")[2]:
        unit = weight.partition(" ")[2]
        ways.append(f"{weight} at {pen.money(0.001 if unit == 'g' else 0.5, 3, unit)}")
    said = pen.rng.choice(ways)
    return said, f" {container}" in said and (container not in known or pen.maybe(0.3))


def _dried(pen: Pen, head: dict[str, Any], found: dict[str, Any], wet: float) -> None:
    trays = pen.rng.randint(1, 4)
    weights = [pen.wet(wet / trays) for _ in range(trays)]
    found["wet"] = weights if trays > 1 else weights[0]
    run: dict[str, Any] = {"started": f"{pen.clock()}"}
    if len(head["dryers"]) > 1:
        run["dryer"] = pen.rng.choice(head["dryers"])["id"]
    if pen.maybe(0.8):
        run["duration"] = pen.time(16, 40)
    if pen.maybe(0.6):
        run["energy"] = f"{number(pen.between(9, 30), 1)} kWh"
    if pen.maybe(0.4):
        run["labor"] = pen.time(0.2, 2)
    if pen.maybe(0.95):
        found["run"] = run
    elif "dryer" in run:
        found["run"] = {"dryer": run["dryer"]}
    dry = wet * pen.between(0.12, 0.2)
    if pen.maybe(0.9):
        found["dry"] = pen.dry(dry)
        if pen.maybe(0.4):
            found["dryness"] = {"water_activity": "0.22"}
    if pen.maybe(0.7):
        found["packed"] = _packed(pen, head, dry)


def _packed(pen: Pen, head: dict[str, Any], dry: float) -> Any:
    lines: list[Any] = []
    mapped = pen.maybe(0.25)
    for _ in range(pen.rng.randint(1, 2)):
        container = pen.rng.choice(head["containers"])["id"]
        count = pen.rng.randint(1, 5)
        net = pen.dry(dry / count / 3)
        if mapped:
            lines.append({"count": str(count), "container": container, "net": net})
        else:
            line = f"{count} {container}" + (f" of {net}" if pen.maybe(0.85) else "")
            lines.append(line + (f" on {day(100)}" if pen.maybe(0.2) else ""))
    if len(lines) == 1 and isinstance(lines[0], str) and pen.maybe(0.5):
        return lines[0]
    return lines
