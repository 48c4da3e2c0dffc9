"""Hand-outs as HTML: templates filled in with plain data, and every text escaped."""

from __future__ import annotations

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from reportgen.marks import seen
from reportgen.write import seal, themes


def render(folder: Path, template: str, content: object) -> bytes:
    """A hand-out as one file that asks nothing of the network, with its seal.

    ``folder`` holds the templates; the template reads ``content``, an object of plain data.
    """
    environment = Environment(
        loader=FileSystemLoader(folder),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=lambda value: seen(value) if type(value) is str else value,
    )
    environment.filters["share"] = _share
    environment.globals.update(
        day=themes.DAY,
        night=themes.NIGHT,
        fills=[(fill, themes.on(fill)) for fill in themes.SERIES],
    )
    return seal.page(environment.get_template(template).render(it=content).encode("utf-8"))


def _share(share: float) -> str:
    """A share of the width of a picture: ``12.34%``."""
    return f"{share * 100:.2f}%"
