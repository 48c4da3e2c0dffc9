"""The writer: from a finished workbook as plain data to the bytes of an .xlsx file.

Reading order: ``workbook.py`` (the whole of it, one function), ``look.py`` (every font, colour and
border, in one place), ``styles.py`` (the look as styles of the file), ``shell.py`` (sheets, views,
protection, print), ``notes.py`` (what is said at a cell: comments, links, what may be typed),
``charts.py``, ``cells.py`` (the cells themselves, written by our own fast serialiser, each formula
with its value), ``heights.py`` (rows tall enough for their text), ``paging.py`` (how large a sheet
is printed, and what on which page), ``parts.py`` (the parts of the file, always in the same order
and bytes), ``limits.py`` (what the format refuses), ``seal.py`` (how a file tells that nobody
changed it), ``files.py`` (bytes to a file, whole or not at all);
``themes.py`` (colours by day and night), ``html.py`` (templates filled in), ``labels_html.py``
(labels as a page to print).

May import ``sheets.page``, how wide texts are (``sheets.measure``, ``sheets.widths``), ``labels``
and ``algebra.places.ROW``. Nothing else in the program imports openpyxl or segno.
"""
