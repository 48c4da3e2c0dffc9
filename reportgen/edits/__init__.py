"""Edits come home: what was changed in a workbook, set against what is written now.

Reading order: ``memory.py`` (what a workbook remembers), ``recalled.py`` (the same, read from one
that came back), ``found.py`` (its records, wherever they stand by now), ``typed.py`` (what was
typed into a cell), ``present.py`` (the records as they are written now), ``differences.py``,
``typed_over.py`` (formulas), ``words.py`` (texts and units), ``whole_rows.py``, ``notebook.py`` (a
day's work in a row) and ``sides.py`` (what of it is a change); then the way into the files:
``amounts.py``, ``written.py`` (a value as they write it), ``records.py`` (where a record stands),
``short_rows.py``, ``rewrite.py`` and ``entries.py`` (new values), ``restructure.py`` (records taken
away, put in, renamed), ``new_records.py``, ``own_recipes.py`` (product data), ``apply.py`` (all
changes of a workbook), ``safely.py`` (all files or none); ``remarks.py`` (comments, which would be
lost); ``effects.py`` (what it does to the figures).

May import ``pen``, ``returned``, ``read``, ``model``, ``layout``, ``algebra`` and ``units``.
The module ``homecoming`` above puts it together.
"""
