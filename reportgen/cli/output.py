"""The file that a command writes: named, guarded, put in its place."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from pathlib import Path
    from typing import BinaryIO

    from reportgen.write.files import Target

force_option = click.option(
    "--force", is_flag=True, help="Overwrite a file even if someone has changed it."
)


def target(path: Path, endings: tuple[str, ...], what: str, force: bool) -> Target:
    """The place of a file that will be written; ends the command, before any work, where it may
    not be."""
    from reportgen.write.files import Target, Unwelcome

    if path.suffix.lower() not in endings:
        wrong = f"{path}: the {what}'s name must end in {endings[0]}"
        raise click.BadParameter(wrong, param_hint="-o")
    try:
        return Target(path, force)
    except Unwelcome as wrong:
        raise click.BadParameter(str(wrong), param_hint="-o") from None


def page_target(path: Path, force: bool) -> Target:
    """The place of a page."""
    return target(path, (".html", ".htm"), "page", force)


def put_page(target: Target, page: bytes) -> None:
    """Put a page in its place."""
    put(target, lambda out: out.write(page))


def put(target: Target, write: Callable[[BinaryIO], object]) -> None:
    """Write a file and put it in its place."""
    from reportgen.write.files import Unwelcome
    from reportgen.write.limits import Unwritable

    try:
        target.fill(write)
    except Unwritable as wrong:
        click.echo(f"{target.path}: {wrong}", err=True)
        raise click.exceptions.Exit(1) from None
    except Unwelcome as wrong:
        raise click.BadParameter(str(wrong), param_hint="-o") from None
