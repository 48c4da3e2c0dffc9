"""Texts and elements as XML holds them; the library's own function brings the reading of URLs with
it, and its elements cost more than all cells."""

from __future__ import annotations


def escape(text: str) -> str:
    """The text between two tags."""
    return text.replace("&", "&amp;").replace(">", "&gt;").replace("<", "&lt;")


def escape_value(text: str) -> str:
    """The text in an attribute, within double quotes; its lines stay lines."""
    return escape(text).replace('"', "&quot;").replace("\n", "&#10;").replace("\t", "&#09;")


def element(name: str, inside: str = "", /, **attributes: str | float | None) -> str:
    """An element around what is inside, which is XML; attributes of which nothing is known are
    left out."""
    said = [
        f'{key}="{escape_value(value) if isinstance(value, str) else f"{value:.10g}"}"'
        for key, value in attributes.items()
        if value is not None
    ]
    head = " ".join([name, *said])
    return f"<{head}>{inside}</{name}>" if inside else f"<{head} />"
