"""The command line: a thin layer that turns words into calls, and results into text.

Reading order: ``reading.py`` (the season that every command begins with, and what is wrong with
it), then a file a command: ``new.py``, ``check.py``, ``build.py`` with ``progress.py``,
``figures.py``, ``explain.py``, ``page.py``, ``sheet.py``, ``recipes.py``, ``labels.py`` with
``label_sizes.py``, ``edits.py`` with ``said_of_edits.py``.

Only this folder knows click. What takes long to import is imported inside the commands, so that
``--help`` is there at once.
"""

from __future__ import annotations

import contextlib
import errno
import io
import os
import sys
from typing import Any, BinaryIO

import click

from reportgen.cli import (
    build,
    check,
    edits,
    explain,
    figures,
    labels,
    new,
    page,
    prices,
    recipes,
    sheet,
)
from reportgen.cli.refused import message
from reportgen.marks import seen
from reportgen.stop import stopped_by

REFUSED = 2
"""The exit code for a wrong command line, and for what the system refuses; 1 is wrong input."""
FAULT = 3
"""The exit code for a fault of the program itself."""
NOBODY_READS = 141
"""The exit code where the reader of the output has left (128 and the number of SIGPIPE)."""


class InOrder(click.Group):
    """Commands in the order of the work, not of the alphabet."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The commands as they were added."""
        return list(self.commands)

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; what the system refuses is a message, and no fault of the program."""
        try:
            return super().invoke(ctx)
        except OSError as refused:
            if refused.errno == errno.EPIPE:
                raise SystemExit(NOBODY_READS) from None
            raise Refused(message(refused)) from refused
        except MemoryError as refused:
            raise Refused(message(refused)) from None


class Refused(click.ClickException):
    """The system, or the surroundings, refuse something."""

    exit_code = REFUSED


def _version(ctx: click.Context, option: click.Parameter, wanted: bool) -> None:
    if not wanted:
        return
    from importlib.metadata import PackageNotFoundError, version

    try:
        found = version("reportgen")
    except PackageNotFoundError:
        found = "from its source folder, not installed"
    click.echo(f"reportgen {found}")
    ctx.exit()


@click.group(
    cls=InOrder,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Exit codes: 0 done, 1 the input is wrong, 2 the command line is wrong or the system "
    "refuses something, 3 a fault of the program. Messages about what is wrong go to stderr.",
)
@click.option(
    "--version",
    is_flag=True,
    is_eager=True,
    expose_value=False,
    callback=_version,
    help="Show the version and exit.",
)
def app() -> None:
    """From what you bought, dried and packed to a workbook that says what it gave and cost.

    You write down a season of freeze-drying in YAML files: lots of produce, runs of the dryer,
    packs, what shops ask. reportgen reads the folder and works out yields, costs and prices.

    \b
    Begin with:
      reportgen new my-season       files to start from, with comments
      reportgen check my-season     is it read as you meant it, what is still open
      reportgen build my-season     the workbook

    Freeze-drying does not make food safe, and weight alone does not prove that it is dry. The
    numbers judge what is plausible, not what is safe; local food rules have the last word.
    """


for _command in (
    new.new, check.check, build.build, edits.compare, edits.take, figures.figures,
    explain.explain, recipes.recipes, labels.labels, prices.prices, page.page, sheet.sheet,
):  # fmt: skip
    app.add_command(_command)


def main() -> int:
    """Run the command line; its exit code, once all that was said is written out.

    The entry point is ``reportgen.__main__``, which listens to signals.
    """
    try:
        _streams()
        if sys.flags.optimize > 1:
            raise Refused(
                "PYTHONOPTIMIZE=2 takes away the words that the program explains itself with; "
                "unset it, then run the command again"
            )
        code = app(prog_name="reportgen", standalone_mode=False) or 0  # what Exit was raised with
    except Exception as end:
        code = _told(end)
    except SystemExit as end:
        code = end.code if isinstance(end.code, int) else REFUSED
    return _flushed(code)


class Said(io.TextIOWrapper):
    """A stream in UTF-8, also where the locale says ASCII: names of farms and foods are in any
    language; marks that turn the order of letters round are seen as such."""

    def __init__(self, buffer: BinaryIO, line_buffering: bool) -> None:
        super().__init__(
            buffer, encoding="utf-8", errors="backslashreplace", line_buffering=line_buffering
        )

    def write(self, text: str) -> int:
        return super().write(seen(text))


def _told(end: Exception) -> int:
    """Say how a command came to its end; its exit code."""
    stopped = stopped_by(end)
    if stopped is not None:
        raise stopped
    with contextlib.suppress(OSError):
        match end:
            case click.exceptions.Exit():
                return end.exit_code
            case click.ClickException():
                code = end.exit_code
                end.show()
                return code
            case OSError():  # stdout or stderr themselves
                click.echo(f"Error: {message(end)}", err=True)
            case _:
                _last_resort(end)
                return FAULT
    return end.exit_code if isinstance(end, click.ClickException) else REFUSED


def _streams() -> None:
    """Streams that say everything in UTF-8, and fail like any other file where they are closed."""
    # What is left half done says, on its way out, what nobody can do anything about.
    sys.unraisablehook = lambda _: None
    for number, name in ((1, "stdout"), (2, "stderr")):
        stream = getattr(sys, name)
        if stream is None:
            # Else the next file that is opened would get the number, and our messages with it.
            handle = os.open(os.devnull, os.O_RDONLY if number == 1 else os.O_WRONLY)
            stream = os.fdopen(handle, "w", closefd=False)
        if isinstance(stream, io.TextIOWrapper):
            setattr(sys, name, Said(stream.detach(), line_buffering=stream.line_buffering))


def _flushed(code: int) -> int:
    """Write out what is still held back; the exit code."""
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except OSError as wrong:
            with contextlib.suppress(OSError):
                os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
            if wrong.errno == errno.EPIPE:
                code = code or NOBODY_READS
            elif stream is sys.stdout:
                code = code or REFUSED
                with contextlib.suppress(OSError):
                    click.echo(f"Error: {message(wrong)}", err=True)
    return code


def _last_resort(fault: Exception) -> None:
    """Say that the program is at fault, and what its makers need to find out why."""
    place = fault.__traceback__
    while place is not None and place.tb_next is not None:
        place = place.tb_next
    where = "an unknown place"
    if place is not None:
        path = place.tb_frame.f_code.co_filename.replace("\\", "/")
        where = f"{'/'.join(path.split('/')[-3:])}:{place.tb_lineno}"
    version = ".".join(map(str, sys.version_info[:3]))
    what = " ".join(str(fault).split())[:200]
    click.echo(
        "This is a fault of reportgen, not of your season.\n"
        "Please report it to the makers, with the command you typed and this line:\n"
        f"    {type(fault).__name__} at {where}, Python {version}, {sys.platform}: {what}",
        err=True,
    )
