"""The algebra of quantities: one definition gives the value, the live formula and the words.

Reading order: ``expr.py`` (an expression, and the operators that make it), ``reading.py`` (what a
node declares of the columns it reads), ``nodes.py`` (what is read from tables; how to walk a tree),
``functions.py`` (what definitions may call), ``inputs.py`` (a column that is written down),
``tables.py`` (tables, links, the decorators), ``views.py`` (what a definition's parameters are),
``book.py`` (runs every definition once, checks units, sorts), ``guards.py`` (what must be known for
an expression to have a value), ``estimates.py`` (which figures rest on estimates), ``factors.py``
(a conversion as a labelled cell has it). ``phrases.py`` (fixed texts that can be said in other
languages). Then the three renderers: ``numbers.py`` with ``operations.py`` (what each operation
does to values) and ``language.py`` (numbers whose texts are in another language); ``places.py``
(where names live), ``formulas.py`` with ``presence.py`` (what is asked before), ``totals.py``
(formulas over other rows), ``blocks.py``, ``running.py`` and ``running_formulas.py`` (totals that
cost their own length), ``standing.py`` and ``stood.py`` (rows that need not be looked for),
``order.py`` (ranks that cost their own length); ``words.py``. The first half of the engine.

May import ``units`` only. It knows nothing of food, of YAML or of
cells.
"""
