"""The writer: from a finished workbook as plain data to the bytes of an .xlsx file.

Reading order: ``workbook.py`` (the whole of it, one function), ``shell.py`` (what the library
writes: names, print ranges, charts), ``styles.py`` (the look as styles of the file), ``sheet.py``
(a sheet's own part: views, columns, links, protection, print), ``cells.py`` (its cells, written by
our own fast serialiser, each formula with its value), ``validation.py`` (what may be typed),
``comments.py``, ``charts.py``, ``escaping.py`` (texts and elements as XML holds them), ``parts.py``
(the parts of the file, always in the same order and bytes), ``usual.py`` (names and prefixes as
readers expect them), ``limits.py`` (what the format refuses), ``seal.py`` (how a file tells that
nobody changed it), ``files.py`` (bytes to a file, whole or not at all); ``themes.py`` (colours by
day and night), ``html.py`` (templates filled in).

Part of the engine: it knows no food. May import of ``layout`` the finished pages and how they look
(``page``, ``look``, ``heights``, ``paging``), and ``algebra.places.ROW``. Nothing else in the
program imports openpyxl or Jinja2.
"""

import os

# openpyxl takes lxml where it is installed, and writes other bytes of the same meaning with it.
os.environ["OPENPYXL_LXML"] = "False"
