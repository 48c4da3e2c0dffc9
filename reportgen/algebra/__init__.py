"""The algebra of quantities: one definition gives the value, the live formula and the words.

Reading order: ``expr.py`` (the nodes of an expression, and the operators that make them),
``functions.py`` (what definitions may call), ``tables.py`` (tables, links, the decorators),
``views.py`` (what a definition's parameters are), ``book.py`` (runs every definition once, checks
units, sorts), ``guards.py`` (what must be known for an expression to have a value),
``estimates.py`` (which figures rest on estimates), ``factors.py`` (a conversion as a labelled cell
has it), then the three renderers: ``numbers.py``, ``formulas.py``, ``words.py``.

May import ``units`` only. It knows nothing of food, of YAML or of cells.
"""
