"""Texts as XML holds them; the library's own function brings the reading of URLs with it."""

from __future__ import annotations


def escape(text: str) -> str:
    """The text between two tags."""
    return text.replace("&", "&amp;").replace(">", "&gt;").replace("<", "&lt;")


def escape_value(text: str) -> str:
    """The text in an attribute, within double quotes; its lines stay lines."""
    return escape(text).replace('"', "&quot;").replace("\n", "&#10;")
