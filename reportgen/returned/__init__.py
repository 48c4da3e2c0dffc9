"""Workbooks that come back: what stands in the cells of a file from outside.

Such a file is hostile until it is read. Sizes, parts, ratios, depth and cells are limited;
entities, external parts and macros are never followed; formulas are never worked out.

Reading order: ``cells.py`` (what a cell holds), ``archive.py`` (parts of a file, within limits),
``days.py`` (days as formats write them), ``xlsx.py`` and ``ods.py`` (the two formats),
``reading.py`` (either of them).

May import ``read`` for the refusals it raises, and ``units`` for the calendar; it knows nothing of
seasons.
"""
