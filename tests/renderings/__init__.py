"""One season in all its renderings: what is shown as a number, and what is said with it.

``shown.py`` collects every figure of a rendering with its text; ``references.py`` says what each
must be: the figures as data, the workbook's caches, and what ironcalc makes of its formulas.
"""
