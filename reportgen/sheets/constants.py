"""Named numbers and unit factors, with their sources."""

from reportgen.layout.blocks import Block, ConstantsBlock, Sheet


def constants(*others: Block) -> Sheet:
    """The sheet of the constants, below whatever else is for auditing alone."""
    return Sheet(
        name="Constants",
        purpose="Named numbers and unit factors that formulas use, each with its source.",
        tab="audit",
        blocks=(*others, ConstantsBlock("Constants and unit factors")),
        aside=True,
    )
