"""Independent spreadsheet engines, and what they say of a workbook of ours.

``cells.py`` reads formulas and values straight from a workbook's XML; ``libreoffice.py``,
``gnumeric.py`` and ``iron.py`` recalculate it; ``compare.py`` lists the cells on which they
disagree.
"""
