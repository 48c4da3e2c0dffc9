"""Random seasons, as the YAML files that a user would write, and random edits of them.

``form.py`` is the structure and how it becomes text; ``pen.py`` writes numbers with units;
``settings.py``, ``outlook.py`` and ``batches.py`` make up what stands in the files; ``edits.py``
changes one thing.

Everything draws from a ``random.Random`` that is handed in. ``sample_seasons`` makes one from a
seed, for batches that go to a slow engine; the strategies of ``strategies.py`` hand in one that
hypothesis controls, so that failures shrink.
"""

from seasons.edits import Edit, edit
from seasons.form import PRODUCTS, Season
from seasons.make import edited_often, make, sample_edits, sample_seasons, tiny
from seasons.strategies import edited_seasons, seasons

__all__ = [
    "PRODUCTS",
    "Edit",
    "Season",
    "edit",
    "edited_often",
    "edited_seasons",
    "make",
    "sample_edits",
    "sample_seasons",
    "seasons",
    "tiny",
]
