"""What is said of a season without a workbook: figures, where they come from, what is still open.

Reading order: ``show.py`` (values as people read them), ``basis.py`` (measured, estimated or both),
``figures.py`` (every quantity, as data and as tables), ``reads.py`` (what one cell was worked out
from), ``spoken.py`` (rules with the numbers put in), ``origins.py`` (where an input was written),
``headings.py`` (what a heading means), ``explain.py`` (the tree of them), ``assumed.py`` (where
estimates begin), ``verdicts.py`` (failing checks, and what is still open), ``made_of.py``
(ingredients and allergens, through mixes); ``recipe_list.py`` (the product data).

Stands beside ``sheets``. May import ``trade``, ``algebra``, ``model``, ``units``, ``read.problem``
and ``layout.formats``. It knows nothing of YAML, of workbooks or of the command line, and does no
arithmetic on quantities: all it shows was worked out by the definitions.
"""
