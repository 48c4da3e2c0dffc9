"""The layout: tables of quantities and a description of sheets to finished pages, as plain data.

Reading order: ``blocks.py`` (what a sheet may hold: a table, a list of figures, lines of text),
``page.py`` (what a finished workbook is made of), ``compose.py`` (the way from the one to the
other). Where things stand: ``used.py`` (constants and factors that are needed), ``in_use.py``
(what a season has no use for yet), ``columns.py`` (which columns a table has, in which order),
``chart_room.py`` (rows of a chart), ``placing.py`` (gives every name its cell), ``spots.py`` (how
formulas write places). What stands there: ``context.py`` (what composing has at hand),
``formats.py`` (how a number is shown), ``heads.py`` (what stands above a column), ``validation.py``
(what may be typed), ``table_block.py`` (the rows of a table), ``row_marks.py`` (by which rows are
known again) and ``live.py`` (by which all other formulas are), ``lists.py`` (figures, constants,
rules, texts), ``charts.py``; ``translate.py`` (all of it in another
language). How it looks and prints: ``look.py`` (every font,
colour and border, in one place), ``text_width.py``, ``column_widths.py``, ``heights.py``,
``print_pieces.py`` (what belongs together in print), ``paging.py`` (how large, and what on which
sheet of paper).

The second half of the engine: it could make workbooks of another trade, and the tests do. May
import ``algebra`` and ``units``; it knows nothing of files, which ``write`` does.
"""
