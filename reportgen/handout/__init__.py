"""The page of a season, and the costing sheet of one product, as plain data.

Reading order: ``content.py`` (what a hand-out is made of), ``locale_format.py`` (numbers, money and
days as a place writes them, by Babel), ``gather.py`` (from a season's numbers to figures that know
where they come from), ``pictures.py`` (bars and curves), ``season_page.py`` (the page of the
season), ``costing_groups.py`` (what a costing sheet shows), ``product_sheet.py`` (the sheet of a
product); ``part.py`` (a part of a book, from some given quantities on), ``partner.py`` (the part
that a partner gets) and ``partner_sheets.py`` (its sheets).

Stands after ``report``. May import ``report``, ``sheets``, ``trade``, ``model``, ``texts`` and of
the engine ``algebra``, ``layout`` and ``units``. It knows nothing of HTML: ``write`` does. It does
no arithmetic on quantities: all it shows was worked out by the definitions.
"""
