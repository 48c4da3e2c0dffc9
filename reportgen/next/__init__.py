"""The next season begins from the last, and what was measured becomes product data of one's own.

Reading order: ``closing.py`` (what a season closes with: packs, lots, bulk, dryers, offers),
``settings.py`` (the settings of its file, as they stand), ``opening.py`` (the files of the next
season), ``same.py`` (what it opens with is what the last closed with); ``learn.py`` (recipes from
lots and runs).

Nothing is worked out here: every figure is a quantity of ``trade``. May import ``edits`` (how a
value is written), ``pen``, ``report`` (what rests on estimates), ``trade``, ``model``, ``read``,
``algebra`` and ``units``.
"""
