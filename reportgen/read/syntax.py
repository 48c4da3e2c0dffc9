"""What the YAML parser objects to, in words for people who never heard of YAML."""

from __future__ import annotations

import re

import yaml

from reportgen.read.problem import Place, Problem

# What the parser says, and what is behind it. The first that fits counts.
_MEANINGS: tuple[tuple[str, str, str, str], ...] = (
    (
        r"nesting depth|nested",
        "lists and mappings are nested too deeply",
        "a few levels",
        "look for a bracket that is not closed",
    ),
    (
        r"character '\\t'|found a tab",
        "a tab stands where spaces are wanted",
        "spaces at the beginning of a line",
        "replace the tab by spaces",
    ),
    (
        r"mapping values are not allowed",
        "a colon stands where none can",
        "one 'key: value' on a line, the keys of a record in one column",
        "check the indentation, or put a text that holds ': ' in quotes",
    ),
    (
        r"could not find expected ':'",
        "this line is no 'key: value'",
        "a colon and a space after the key",
        "add the colon or the space behind it, or indent the line if it goes on with that above",
    ),
    (
        r"unexpected end of stream|found unexpected document (indicator|separator)",
        "a quoted text is not closed",
        "a closing \" or '",
        "close the quotes where the text ends",
    ),
    (
        r"expected ',' or '[\]}]'",
        "a bracket that opens here is not closed, or a comma is missing in it",
        "items parted by commas, and a closing ] or }",
        "close the bracket or add the comma",
    ),
    (
        r"did not find expected '-' indicator|expected <block end>.*<block mapping start>",
        "this line is not indented as its list",
        "each item begun with '- ', in one column",
        "move the line under the item it belongs to",
    ),
    (
        r"did not find expected key|expected <block end>",
        "this line does not fit in here",
        "the keys of one record in one column",
        "indent it as its neighbours, or close the quotes or brackets above it",
    ),
    (
        r"that cannot start any token",
        "a text may not begin with this character",
        "a letter, a digit or quotes",
        "put the text in quotes",
    ),
    (
        r"unknown escape|expected escape|escape sequence|invalid Unicode character",
        "a \\ in double quotes is followed by something it cannot go with",
        "\\\\ for the sign itself",
        "put the text in single quotes",
    ),
    (
        r"(special|control) characters are not allowed|unacceptable character",
        "a control character stands here, which no text file holds",
        "plain text",
        "delete it, or save the file again as plain text",
    ),
    (
        r"sequence entries are not allowed",
        "a '- ' stands where no list can begin",
        "a list on the lines below its key",
        "put the '- ' on a line of its own, indented",
    ),
    (
        r"block scalar|indentation indicator|expected comment or line break",
        "a text begun with | or > is not written as it should be",
        "| or > alone at the end of the line, the text indented below",
        "check the line, or put the text in quotes",
    ),
    (
        r"expected node content|found unexpected ':'",
        "a value or a closing bracket is missing",
        "values parted by commas, and as many ] and } as [ and {",
        "complete it, or put a text that holds brackets or colons in quotes",
    ),
    (
        r"tag|expected whitespace or line break|URI|UTF-8 octet",
        "a text may not begin with !",
        "a letter, a digit or quotes",
        "put the text in quotes",
    ),
    (
        r"mapping keys are not allowed",
        "a ? stands where a key is wanted",
        "a single word before the colon",
        "put a text that begins with ? in quotes",
    ),
    (
        r"expected .*alphabetic or numeric",
        "a text may not begin with & or *",
        "a letter, a digit or quotes",
        "put the text in quotes",
    ),
    (
        r"directive|non-alphabetical|found incompatible YAML document|expected '<document start>'"
        r"|did not find expected <document start>",
        "something stands here that belongs to no record",
        "'key: value' lines in one column, from the first line on",
        "indent the line as the others; delete lines that begin with %",
    ),
)


def explain(error: Exception, text: str, file: str) -> Problem:
    """The problem behind a parser's error, at the line it complains of."""
    said = str(getattr(error, "problem", None) or getattr(error, "reason", None) or error)
    context = str(getattr(error, "context", None) or "")
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    line, column = (mark.line + 1, mark.column + 1) if mark is not None else (_unfit(text), 1)
    if isinstance(error, RecursionError):
        said = "nested"
    start = getattr(error, "context_mark", None)
    if start is not None and re.search("quoted scalar|parsing a flow|simple key", context):
        line, column = start.line + 1, start.column + 1
    if _begins_with_tab(text, line):
        said, column = "found a tab", 1
    place = Place(file, line, column)
    for pattern, what, expected, do in _MEANINGS:
        if re.search(pattern, said):
            return Problem(place, what, expected, do)
    return Problem(
        place,
        f"this is not YAML ({said.strip()[:80]})",
        "'key: value' lines, lists with '- '",
        "check indentation, quotes and brackets here and on the line above",
    )


def _begins_with_tab(text: str, line: int) -> bool:
    lines = text.split("\n", line)
    return 0 < line <= len(lines) and "\t" in re.match(r"\s*", lines[line - 1]).group()  # type: ignore[union-attr]


def _unfit(text: str) -> int:
    """The line of the first character that YAML does not allow; 1 where there is none."""
    found = yaml.reader.Reader.NON_PRINTABLE.search(text)
    return text.count("\n", 0, found.start()) + 1 if found else 1
