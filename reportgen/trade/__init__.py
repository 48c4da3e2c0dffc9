"""The trade: every quantity of a season, a file a subject, checks beside what they guard.

Reading order: ``tables.py`` (the tables and their links), ``constants.py`` (named numbers with
their sources), then in the order of the work: ``equipment.py``, ``lots.py``, ``runs.py``,
``loads.py``, ``packs.py``, ``offers.py``, ``products.py``, ``season.py``, ``verdict.py``.

May import ``algebra``, ``model`` and ``units``. It knows nothing of cells.
"""

from reportgen.algebra.book import Book
from reportgen.trade import (
    equipment,
    loads,
    lots,
    offers,
    packs,
    products,
    runs,
    season,
    tables,
    verdict,
)
from reportgen.trade.tables import TABLES

SUBJECTS = (equipment, lots, runs, loads, packs, offers, products, season, verdict)
"""The modules whose definitions make up the book, in reading order."""

BOOK = Book(TABLES, tables.checks)
"""All tables and definitions of the trade, run, checked and sorted."""
