"""The look as styles of the file: a named style a role, a style id for each way a cell looks."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, NamedStyle, PatternFill, Protection, Side
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.utils.indexed_list import IndexedList

from reportgen.layout import look
from reportgen.layout.look import Edge, Face, Verdict
from reportgen.layout.page import Look, Role, Style


class _Font(Font):  # type: ignore[misc]
    """A font whose parts are written in the order of the schema (ECMA-376, CT_Font), which
    openpyxl does not keep."""


# Set when the class is made: openpyxl would put its own there.
_Font.__nested__ = Font.__nested__
_Font.__elements__ = (
    "b", "i", "strike", "condense", "extend", "outline", "shadow", "u", "vertAlign", "sz", "color",
    "name", "family", "charset", "scheme",
)  # fmt: skip


def plain_text(shell: Workbook) -> None:
    """Make our typeface that of cells without a style; column widths are counted in its digits."""
    font = _Font(name=look.FONT, size=look.SIZE, color=_rgb(look.INK))
    shell._fonts = IndexedList([font])
    shell._named_styles["Normal"].font = font


def style_ids(shell: Workbook, styles: Iterable[Style]) -> dict[Style, int]:
    """The id in the file of each style, in the order given."""
    scratch = shell.create_sheet()
    named: dict[Role, str] = {}
    ids = {}
    for row, style in enumerate(dict.fromkeys(styles), 1):
        if style.role not in named:
            named[style.role] = look.FACES[style.role].name
            shell.add_named_style(_named(look.FACES[style.role]))
        cell = scratch.cell(row, 1)
        cell.style = named[style.role]
        cell.number_format = style.format
        cell.alignment = _alignment(look.FACES[style.role], style)
        ids[style] = int(cell.style_id)
    shell.remove(scratch)
    return ids


def look_ids(shell: Workbook, looks: Iterable[Look]) -> dict[Look, int]:
    """The id in the file of each look that a condition gives, in the order given."""
    known = shell._differential_styles
    return {each: known.add(_verdict(look.VERDICTS[each])) for each in dict.fromkeys(looks)}


def _verdict(look_of: Verdict) -> DifferentialStyle:
    """Font, fill and border of a condition."""
    parts: dict[str, Any] = {
        "font": _Font(
            color=_rgb(look_of.ink), bold=look_of.bold or None, italic=look_of.italic or None
        )
    }
    if look_of.fill:
        parts["fill"] = PatternFill(bgColor=_rgb(look_of.fill), fill_type="solid")
    if look_of.frame:
        side = Side("thin", color=_rgb(look_of.frame))
        parts["border"] = Border(left=side, right=side, top=side, bottom=side)
    return DifferentialStyle(**parts)


def _named(face: Face) -> NamedStyle:
    return NamedStyle(
        name=face.name,
        font=_Font(
            name=look.FONT,
            size=face.size,
            bold=face.bold,
            italic=face.italic,
            underline="single" if face.underline else None,
            color=_rgb(face.ink),
        ),
        fill=PatternFill("solid", fgColor=_rgb(face.fill)) if face.fill else PatternFill(),
        border=Border(
            left=_side(face.left),
            right=_side(face.right),
            top=_side(face.top),
            bottom=_side(face.bottom),
        ),
        alignment=Alignment(vertical=face.vertical, wrap_text=face.wrap or None),
        protection=Protection(locked=face.locked),
    )


def _side(edge: Edge | None) -> Side:
    return Side(edge.weight, color=_rgb(edge.colour)) if edge else Side()


def _alignment(face: Face, style: Style) -> Alignment:
    several = style.top or (style.wrap and face.vertical == "center")
    return Alignment(
        horizontal=look.side(style) or None,
        indent=int(look.indented(style)),
        vertical="top" if several else face.vertical,
        wrap_text=True if face.wrap or style.wrap else None,
    )


def _rgb(colour: str) -> str:
    """Fully opaque: some programs heed the first pair, which is 00 by default."""
    return f"FF{colour}"
