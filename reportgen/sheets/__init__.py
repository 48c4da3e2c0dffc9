"""The sheets of a season's workbook: what each shows, not where.

Reading order: ``all.py`` (which there are, in their order), then a file a sheet, or a few of a
kind, named for what the reader sees; ``headings.py`` (what stands under each heading).

May import ``trade``, ``algebra`` and of ``layout`` what a sheet is made of (``blocks``), and
what it puts above columns by itself. The layout finds the cells.
"""
