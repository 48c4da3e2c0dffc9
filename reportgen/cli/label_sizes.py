"""The sizes that ``labels`` is given: which sheet, which panel, and what to do where they do not
fit."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, TypeVar

import click

if TYPE_CHECKING:
    from reportgen.labels.fit import TooSmall
    from reportgen.labels.label_sheet import LabelSheet

T = TypeVar("T")


def area(text: str | None) -> Fraction | None:
    """The container's display panel in square inches."""
    from reportgen.labels import sizes

    return None if text is None else _read("panel", sizes.area, text)


def sheets(words: Mapping[str, str | None], usual: str) -> list[LabelSheet]:
    """The sheet that the options name; where they name none, those to be tried one after another.

    ``usual`` is the paper where none is named.
    """
    from reportgen.labels.label_sheet import KNOWN, USUAL

    name, size = words["sheet"], words["size"]
    given = [each for each in ("size", "paper", "grid", "margin", "gap") if words[each]]
    if name and given:
        raise click.UsageError(f"--sheet and --{given[0]} exclude each other; give one of them")
    if given and not size:
        raise click.UsageError(f"--{given[0]} needs --size, the size of one label")
    if size:
        return [_own(words, size, usual)]
    if not name:
        return [KNOWN[each] for each in USUAL[usual]]
    found = KNOWN.get(name.lower())
    if found is None:
        raise click.BadParameter(
            f"no sheet is called '{name}'; there are {', '.join(KNOWN)}; or give --size",
            param_hint="--sheet",
        )
    return [found]


def _own(words: Mapping[str, str | None], size: str, usual: str) -> LabelSheet:
    from reportgen.labels import sizes
    from reportgen.labels.label_sheet import PAPERS, laid_out

    paper = (words["paper"] or usual).lower()
    page = PAPERS[paper] if paper in PAPERS else _read("paper", sizes.pair, paper)
    label = _read("size", sizes.pair, size)
    if not all((*page, *label)):
        raise click.BadParameter("a label has some width and height", param_hint="--size")
    grid = words["grid"] and _read("grid", sizes.grid, words["grid"])
    margin = words["margin"] and _read("margin", sizes.pair, words["margin"])
    gap = words["gap"] and _read("gap", sizes.pair, words["gap"])
    none = (Fraction(0), Fraction(0))
    made = laid_out(page, label, grid or None, margin or None, gap or none)
    if made is None or not made.fits:
        wide, high = (f"{float(side):g}" for side in page)
        raise click.BadParameter(
            f"such labels do not fit on a page of {wide} by {high} mm; fewer, smaller ones or "
            "other margins do",
            param_hint="--size",
        )
    return made


def _read(option: str, reader: Callable[[str], T], text: str) -> T:
    from reportgen.read.problem import Refusal

    try:
        return reader(text)
    except Refusal as wrong:
        raise click.BadParameter(
            f"{wrong.what}; expected {wrong.expected}", param_hint=f"--{option}"
        ) from None


def too_small(found: TooSmall, sheet: LabelSheet, least: float) -> click.UsageError:
    """What to do where a label does not hold its text."""
    wide, high = float(sheet.width), float(sheet.height)
    advice = []
    if found.larger:
        advice.append(f"take a larger label (--sheet {found.larger[0]})")
    elif not found.label.short:
        advice.append("take a larger label (--size)")
    if not found.label.short:
        advice.append("print only what your own shelf needs (--short)")
    advice.append("shorten its texts")
    needs = (
        f"about {found.needs + 2 * float(sheet.pad):.0f} mm of height"
        if found.needs < 1000
        else "more width beside its code"
    )
    return click.UsageError(
        f"the label of pack {found.label.pack} does not fit: in type of {least:g} points it needs "
        f"{needs}, and the label is {wide:.4g} by {high:.4g} mm. Nothing is cut off; "
        f"{', or '.join(advice)}."
    )
