"""The sheets: what each shows, a file a sheet; and where everything stands.

Reading order: ``page.py`` (what a finished workbook is made of, as plain data), ``blocks.py``
(what a sheet may hold: a table, a list of figures, lines of text), then a file a sheet, and
``all.py`` with their order; ``used.py`` finds the constants and factors that are needed,
``room.py`` the rows of a chart, ``spots.py`` says how places are written, ``layout.py`` gives every
name its cell; ``formats.py`` says how a number is shown, ``context.py`` what composing has at hand,
``heads.py`` what stands above a column, ``measure.py`` how wide a text is, ``widths.py`` how wide a
column; ``compose.py`` turns sheets and a season's numbers into pages, ``pieces.py`` says what of
them belongs together in print.

May import ``trade``, ``algebra``, ``model`` and ``units``. It knows nothing of files: ``write``
does.
"""
