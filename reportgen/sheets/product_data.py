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
                Group("Water", ("water", "water_low", "water_high", "target_moisture")),
                Group("Handling", ("prep_yield", "run_time", "tray_loading", "skeletal_density")),
                Group(
                    "Keeping and labels",
                    ("best_by", "cook_before_eating", "ingredients", "rehydrate", "storage"),
                ),
            ),
            rest=False,
        ),
        TableBlock(
            nominal_weights,
            (Group("Write down", ("product", "container", "weight")),),
            heading="Nominal weights of containers as bought",
            spare=5,
        ),
    ),
)
