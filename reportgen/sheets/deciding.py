"""What makes sheets of use that help to decide: something was sold, planned, or asked about.

A household that eats what it dries has its answers on Summary and Cost; the other sheets of results
come with a reason to look at them.
"""

from reportgen.layout.blocks import Use
from reportgen.trade.tables import changes, market_packs, plan, uses

SOLD = (Use(uses, "sold"), Use(market_packs, "took"))
DECIDING = (*SOLD, Use(plan, "product"), Use(changes, "key"))

FEW = 11
"""So many of a kind are read as they stand, on one page: no chart or middle says more of them."""
