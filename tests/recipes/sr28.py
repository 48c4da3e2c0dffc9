"""Values typed from the USDA National Nutrient Database for Standard Reference, Release 28.

Source: USDA Agricultural Research Service, SR28, abbreviated file (ABBREV), revised May 2016,
public domain. Grams in 100 g of the edible portion; refuse in per cent of the weight as purchased.
All rows were read in the file, except those of MEMORY: there the water and refuse were read, the
composition is from memory, not seen.
"""

from __future__ import annotations

from typing import NamedTuple


class Food(NamedTuple):
    """One row: water, protein, fat, ash, carbohydrate by difference, fibre (part of it), refuse."""

    water: float
    protein: float
    fat: float
    ash: float
    carbohydrate: float
    fibre: float
    refuse: float


SR28: dict[str, Food] = {
    "01077": Food(88.13, 3.15, 3.25, 0.67, 4.80, 0, 0),  # milk, whole, 3.25 % fat
    "01085": Food(90.84, 3.37, 0.08, 0.75, 4.96, 0, 0),  # milk, nonfat
    "01116": Food(87.90, 3.47, 3.25, 0.72, 4.66, 0, 0),  # yogurt, plain, whole milk
    "01123": Food(76.15, 12.56, 9.51, 1.06, 0.72, 0, 12),  # egg, whole, raw
    "01132": Food(76.40, 9.99, 10.98, 1.01, 1.61, 0, 0),  # egg, whole, scrambled
    "02044": Food(92.06, 3.15, 0.64, 1.49, 2.65, 1.6, 36),  # basil, fresh
    "02045": Food(85.95, 3.46, 1.12, 2.45, 7.02, 2.1, 41),  # dill weed, fresh
    "02047": Food(0.20, 0, 0, 99.80, 0, 0, 0),  # salt, table
    "02049": Food(65.11, 5.56, 1.68, 3.20, 24.45, 14.0, 32),  # thyme, fresh
    "02064": Food(78.65, 3.75, 0.94, 1.76, 14.89, 8.0, 39),  # peppermint, fresh
    "05064": Food(65.26, 31.02, 3.57, 1.06, 0, 0, 28),  # chicken breast, meat only, roasted
    "09003": Food(85.56, 0.26, 0.17, 0.19, 13.81, 2.4, 10),  # apples, with skin
    "09004": Food(86.67, 0.27, 0.13, 0.17, 12.76, 1.3, 23),  # apples, without skin
    "09019": Food(88.22, 0.17, 0.10, 0.24, 11.27, 1.1, 0),  # applesauce, unsweetened
    "09021": Food(86.35, 1.40, 0.39, 0.75, 11.12, 2.0, 7),  # apricots
    "09040": Food(74.91, 1.09, 0.33, 0.82, 22.84, 2.6, 36),  # bananas
    "09042": Food(88.15, 1.39, 0.49, 0.37, 9.61, 5.3, 4),  # blackberries
    "09050": Food(84.21, 0.74, 0.33, 0.24, 14.49, 2.4, 5),  # blueberries
    "09063": Food(86.13, 1.00, 0.30, 0.40, 12.18, 1.6, 10),  # cherries, sour, red
    "09070": Food(82.25, 1.06, 0.20, 0.48, 16.01, 2.1, 8),  # cherries, sweet
    "09078": Food(87.13, 0.39, 0.13, 0.15, 12.20, 4.6, 2),  # cranberries
    "09089": Food(79.11, 0.75, 0.30, 0.66, 19.18, 2.9, 1),  # figs
    "09132": Food(80.54, 0.72, 0.16, 0.48, 18.10, 0.9, 4),  # grapes, European type
    "09148": Food(83.07, 1.14, 0.52, 0.61, 14.66, 3.0, 24),  # kiwifruit, green
    "09150": Food(88.98, 1.10, 0.30, 0.30, 9.32, 2.8, 47),  # lemons, without peel
    "09176": Food(83.46, 0.82, 0.38, 0.36, 14.98, 1.6, 29),  # mangos
    "09181": Food(90.15, 0.84, 0.19, 0.65, 8.16, 0.9, 49),  # cantaloupe
    "09191": Food(87.59, 1.06, 0.32, 0.48, 10.55, 1.7, 9),  # nectarines
    "09200": Food(86.75, 0.94, 0.12, 0.44, 11.75, 2.4, 27),  # oranges
    "09236": Food(88.87, 0.91, 0.25, 0.43, 9.54, 1.5, 4),  # peaches
    "09252": Food(83.96, 0.36, 0.14, 0.32, 15.23, 3.1, 10),  # pears
    "09266": Food(86.00, 0.54, 0.12, 0.22, 13.12, 1.4, 49),  # pineapple
    "09279": Food(87.23, 0.70, 0.28, 0.37, 11.42, 1.4, 6),  # plums
    "09302": Food(85.75, 1.20, 0.65, 0.46, 11.94, 6.5, 4),  # raspberries
    "09307": Food(93.61, 0.90, 0.20, 0.76, 4.54, 1.8, 25),  # rhubarb
    "09316": Food(90.95, 0.67, 0.30, 0.40, 7.68, 2.0, 6),  # strawberries
    "09326": Food(91.45, 0.61, 0.15, 0.25, 7.55, 0.4, 48),  # watermelon
    "11011": Food(93.22, 2.20, 0.12, 0.58, 3.88, 2.1, 47),  # asparagus
    "11052": Food(90.32, 1.83, 0.22, 0.66, 6.97, 2.7, 12),  # beans, snap, green
    "11081": Food(87.06, 1.68, 0.18, 1.12, 9.96, 2.0, 0),  # beets, boiled
    "11090": Food(89.30, 2.82, 0.37, 0.87, 6.64, 2.6, 39),  # broccoli
    "11109": Food(92.18, 1.28, 0.10, 0.64, 5.80, 2.5, 20),  # cabbage
    "11124": Food(88.29, 0.93, 0.24, 0.97, 9.58, 2.8, 11),  # carrots
    "11135": Food(92.07, 1.92, 0.28, 0.76, 4.97, 2.0, 61),  # cauliflower
    "11143": Food(95.43, 0.69, 0.17, 0.75, 2.97, 1.6, 11),  # celery
    "11156": Food(90.65, 3.27, 0.73, 1.00, 4.35, 2.5, 0),  # chives
    "11165": Food(92.21, 2.13, 0.52, 1.47, 3.67, 2.8, 15),  # cilantro
    "11167": Food(76.05, 3.27, 1.35, 0.62, 18.70, 2.0, 64),  # corn, sweet, yellow
    "11215": Food(58.58, 6.36, 0.50, 1.50, 33.06, 2.1, 13),  # garlic
    "11238": Food(89.74, 2.24, 0.49, 0.73, 6.79, 2.5, 0),  # mushrooms, shiitake
    "11246": Food(83.00, 1.50, 0.30, 1.05, 14.15, 1.8, 56),  # leeks
    "11260": Food(92.45, 3.09, 0.34, 0.85, 3.26, 1.0, 3),  # mushrooms, white
    "11282": Food(89.11, 1.10, 0.10, 0.35, 9.34, 1.7, 10),  # onions
    "11297": Food(87.71, 2.97, 0.79, 2.20, 6.33, 3.3, 5),  # parsley
    "11300": Food(88.89, 2.80, 0.20, 0.56, 7.55, 2.6, 6),  # peas, edible-podded
    "11304": Food(78.86, 5.42, 0.40, 0.87, 14.45, 5.1, 62),  # peas, green
    "11333": Food(93.89, 0.86, 0.17, 0.43, 4.64, 1.7, 18),  # peppers, sweet, green
    "11367": Food(77.46, 1.71, 0.10, 0.72, 20.01, 1.8, 0),  # potatoes, boiled without skin
    "11422": Food(91.60, 1.00, 0.10, 0.80, 6.50, 0.5, 30),  # pumpkin
    "11457": Food(91.40, 2.86, 0.39, 1.72, 3.63, 2.2, 28),  # spinach
    "11477": Food(94.79, 1.21, 0.32, 0.58, 3.11, 1.0, 5),  # zucchini, with skin
    "11485": Food(86.41, 1.00, 0.10, 0.80, 11.69, 2.0, 16),  # squash, butternut
    "11507": Food(77.28, 1.57, 0.05, 0.99, 20.12, 3.0, 28),  # sweet potato, raw
    "11510": Food(80.13, 1.37, 0.14, 0.63, 17.72, 2.5, 0),  # sweet potato, boiled without skin
    "11529": Food(94.52, 0.88, 0.20, 0.50, 3.89, 1.2, 9),  # tomatoes, year-round average
    "11821": Food(92.21, 0.99, 0.30, 0.47, 6.03, 2.1, 18),  # peppers, sweet, red
    "23570": Food(55.90, 27.40, 15.50, 1.20, 0, 0, 0),  # ground beef 85/15, browned
}
"""NDB number → row."""

MEMORY = frozenset({"05064", "23570"})
"""Rows whose composition is from memory, not seen."""

KALE = Food(89.6, 2.92, 1.49, 1.5, 4.42, 4.1, 39)
"""FoodData Central 168421 (SR Legacy, 2018): protein, fat and carbohydrate read; ash and fibre
from memory; water by difference. Refuse from SR28 11233, whose water (84.04 g) it corrects."""
