"""The sheets: what each shows, a file a sheet; and where everything stands.

Reading order: ``page.py`` (what a finished workbook is made of, as plain data), ``blocks.py`` (what a
sheet may hold: a table, a list of figures, text), then a file a sheet; ``layout.py`` gives every
name its cell; ``compose.py`` turns the sheets and a season's numbers into pages.

May import ``trade``, ``algebra``, ``model`` and ``units``. It knows nothing of files: ``write`` does.
"""
