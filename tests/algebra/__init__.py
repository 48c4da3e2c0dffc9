"""The algebra on its own, with toys that have nothing to do with food.

``toy.py`` makes tables, books and their numbers in a line or two; ``toy_workbook.py`` writes a book
as a workbook with a layout of its own, so that two engines can say what its formulas give.
"""
