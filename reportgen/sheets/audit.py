"""The sheets for auditing: every check with its verdict, every quantity with its rule."""

from reportgen.layout.blocks import Group, RulesBlock, Sheet, TableBlock
from reportgen.trade.tables import checks

CHECK_COLUMNS = (
    Group("Verdict", ("of", "what", "verdict", "failing", "first", "do")),
    Group("Kind", ("severity", "is_error"), printed=False),
)

CHECKS = Sheet(
    name="Checks",
    purpose="Every check, whether it passes, where it fails first, and what to do.",
    tab="audit",
    blocks=(TableBlock(checks, CHECK_COLUMNS),),
)

METHOD = Sheet(
    name="Method",
    purpose="Every quantity: its unit, its rule in words, its source, and where it stands.",
    tab="audit",
    blocks=(RulesBlock("Quantities"),),
)
