"""Past seasons side by side, by product: a small book and workbook of their own.

Reading order: ``quantities.py`` (the figures that are copied, and what is worked out from them),
``copy.py`` (from the seasons' figures to rows, in the units of the first), ``sheets.py`` (what is
shown). The algebra, the layout and the writer are those of a single season.

May import ``sheets``, ``trade``, ``model`` and the engine, and of ``read`` only problems and their
places. The trade's figures are copied, never worked out again.
"""
