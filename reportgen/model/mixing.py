"""The records of mixes: blends, powders, what was packed anew, made dishes, and what went in."""

from __future__ import annotations

from reportgen.model.fields import Count, Day, Id, Quantity, Record, Ref, Several, Text
from reportgen.model.kinds import Dryness, Items, Weight
from reportgen.units import DRIED, HOUR, MONEY

mixes = Record(
    "mixes",
    "What was made of dried food: a blend, a powder, packs filled anew, a dish.",
    (
        Id("id", "The mix's id."),
        Ref("product", "What it is; a recipe of your own.", table="products", required=True),
        Day("date", "The day it was made."),
        Items("from", "What went in: bulk, packs that were opened, other mixes.",
              record="mix_parts"),
        Items("bought", "What was bought and went in as it was.", record="bought_parts"),
        Weight("out", "Weight of what came out; left out, all that went in.", DRIED,
               positive=True, head="weight out"),
        Dryness("dryness", "What a meter showed of the finished mix.", weighings=False),
        Quantity("labor", "Time spent.", HOUR, zero=True, head="time"),
    ),
)  # fmt: skip

mix_parts = Record(
    "mix_parts",
    "What of our own went into a mix.",
    (
        Ref("product", "The product, where bulk went in.", table="products"),
        Ref("pack", "The pack that was opened.", table="packs"),
        Ref("mix", "The other mix that went in.", table="mixes", head="other mix"),
        Count("count", "How many containers were opened.", default=1, positive=True),
        Weight("weight", "Weight of bulk or of the other mix.", DRIED, positive=True),
    ),
    key="position",
    owner="mixes",
)

bought_parts = Record(
    "bought_parts",
    "What was bought and went into a mix as it was.",
    (
        Text("item", "What it is.", required=True),
        Weight("weight", "Weight that went in.", DRIED, positive=True),
        Quantity("price", "What that weight of it cost.", MONEY),
        Several("allergens", "Allergens that its package names; an empty list: none."),
        Dryness("dryness", "What a meter showed of it.", weighings=False),
        Day("best_by", "The best-by day on its package."),
    ),
    key="position",
    owner="mixes",
)
