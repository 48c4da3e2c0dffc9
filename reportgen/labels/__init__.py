"""Labels: what stands on each, and where each stands on the sheet, as plain data.

Reading order: ``weight.py`` (the net weight in both systems, never overstated), ``code.py`` (what
the QR code says), ``texts.py`` (the fixed words in the reader's language), ``choose.py`` (which
packs get labels, and which are refused), ``content.py`` (one pack's label), ``label_sheet.py`` and
``sizes.py`` (label sheets, and how they are named), ``type_size.py`` (the least height of letters),
``measure.py`` (how much room a text takes), ``fit.py`` (the largest type that all labels hold),
``html_file.py`` (all of it as a page to print), ``tickets.py`` (a price list, and tickets for the
shelf).

Stands after ``report``. May import ``report``, ``algebra``, ``model``, ``units``, ``read`` and, to
fill in the template, ``write.html``. Nothing else in the program imports segno. All it shows of a
pack was worked out by the definitions; here weights are only put into other units and cut to the
digits shown.
"""
