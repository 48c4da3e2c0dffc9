"""The sheets for auditing: every check with its verdict, every quantity with its rule."""

from reportgen.algebra.tables import Table
from reportgen.layout.blocks import Group, RulesBlock, Sheet, TableBlock
from reportgen.trade.tables import checks, typed

_CHECK_COLUMNS = (
    Group("Verdict", ("of", "what", "verdict", "failing", "first", "do")),
    Group("Kind", ("severity", "is_error"), printed=False),
)


def checks_of(checks: Table, typed: Table) -> Sheet:
    """The sheet of a book's checks."""
    columns = Group("Text in it", ("of", "what", "with_text", "where_first", "text_typed"))
    return Sheet(
        name="Checks",
        purpose="Every check, whether it passes, where it fails first, and what to do.",
        tab="audit",
        blocks=(
            TableBlock(checks, _CHECK_COLUMNS),
            TableBlock(typed, (columns,), heading="Cells for numbers: text in them is not read"),
        ),
        small=True,
    )


CHECKS = checks_of(checks, typed)

METHOD = Sheet(
    name="Method",
    purpose="Every quantity: its unit, its rule in words, its source, and where it stands.",
    tab="audit",
    blocks=(RulesBlock("Quantities"),),
    small=True,
    aside=True,
)
