"""The records of a recipe: what is known of a product before it is made."""

from __future__ import annotations

from reportgen.model.fields import Flag, Quantity, Record, Share, Text, Word
from reportgen.model.kinds import Cautions, Named, Sourced, Words
from reportgen.units import AREA, DENSITY, FRESH, HOUR, KG, Unit

MONTH = Unit.of("month")

recipes = Record(
    "products",
    "Product data: what a recipe says.",
    (
        Text("name", "The product's name."),
        Text("kind", "Fruit, vegetable, herb, dish.", ours=True),
        Sourced(
            "water",
            "Water as prepared.",
            of=Share("water", "Water as prepared, wet basis.", below_all=True),
        ),
        Sourced(
            "prep_yield",
            "Prepared from purchased.",
            of=Share("prep_yield", "Prepared weight from one of purchased."),
        ),
        Sourced(
            "target_moisture",
            "Water to aim for.",
            of=Share("target_moisture", "Water left to aim for, wet basis.", below_all=True),
        ),
        Sourced(
            "skeletal_density",
            "Density of the solid.",
            of=Quantity(
                "skeletal_density",
                "Density of the solid without its pores.",
                DENSITY,
                positive=True,
            ),
        ),
        Sourced(
            "run_time",
            "Hours a run takes.",
            of=Quantity("run_time", "Hours a run takes.", HOUR, positive=True),
        ),
        Sourced(
            "tray_loading",
            "Wet weight on a tray.",
            of=Quantity("tray_loading", "Wet weight by tray area.", KG / AREA, positive=True),
        ),
        Sourced(
            "best_by",
            "How long it keeps.",
            of=Quantity("best_by", "How long it keeps at best.", MONTH, positive=True),
        ),
        Named(
            "containers",
            "What it is bought in, with the nominal weight of each.",
            record="nominal_weights",
            value="weight",
            label="container",
        ),
        Text("ingredients", "As a label names them."),
        Words("allergens", "As the law of the place names them."),
        Flag("cook_before_eating", "To be cooked before it is eaten."),
        Text("rehydrate", "How to bring it back."),
        Text("storage", "How to keep it."),
        Cautions("cautions", "What whoever makes or eats it must know."),
    ),
)

nominal_weights = Record(
    "nominal_weights",
    "What a container of a product weighs, by name, where it was not weighed.",
    (
        Word("container", "The container's name.", required=True),
        Sourced(
            "weight",
            "Nominal weight.",
            of=Quantity("weight", "Nominal net weight.", FRESH, positive=True),
        ),
    ),
    key="derived",
    owner="products",
)
