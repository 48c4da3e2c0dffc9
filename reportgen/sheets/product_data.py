"""What the recipes say of each product."""

from reportgen.layout.blocks import Group, Sheet, TableBlock
from reportgen.trade.tables import nominal_weights, products

PRODUCT_DATA = Sheet(
    name="Product data",
    purpose="What the recipes say of each product; measured values on other sheets come first.",
    tab="record",
    blocks=(
        TableBlock(
            products,
            (
                Group("Product", ("name", "kind")),
                Group("Water", ("water", "water_low", "water_high")),
                Group("Prep yield", ("prep_yield", "prep_yield_low", "prep_yield_high")),
                Group(
                    "To aim for",
                    ("target_moisture", "target_moisture_low", "target_moisture_high"),
                ),
                Group("Run time", ("run_time", "run_time_low", "run_time_high")),
                Group("On a tray", ("tray_loading", "tray_loading_low", "tray_loading_high")),
                Group(
                    "Density",
                    ("skeletal_density", "skeletal_density_low", "skeletal_density_high"),
                ),
                Group("How long it keeps", ("best_by", "best_by_low", "best_by_high")),
                Group(
                    "Labels",
                    ("cook_before_eating", "ingredients", "rehydrate", "storage"),
                ),
            ),
            rest=False,
        ),
        TableBlock(
            nominal_weights,
            (Group("Write down", ("product", "container", "weight", "weight_low", "weight_high")),),
            heading="Nominal weights of containers as bought",
            spare=5,
        ),
    ),
)
