"""Edits come home: what was changed in a workbook, set against what is written now.

Reading order: ``written.py`` (a value as the season's files write it), ``records.py`` (where a
record stands in its file), ``rewrite.py`` (changes into files).

May import ``read``, ``model``, ``units`` and ``pen``.
"""
