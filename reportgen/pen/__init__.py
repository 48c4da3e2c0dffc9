"""The pen: changes a YAML file and leaves every byte that need not change as it is.

A library that reads and writes YAML again gives back its own spacing, quoting and line breaks; what
comes home from a workbook may touch the values that changed and nothing else. So a change is a
splice of the text, at the marks that the parser sets.

Reading order: ``scalars.py`` (a value as YAML writes it), ``pen.py`` (the changes, at the places
that the reader of spans finds).

May import ``read``; it knows nothing of seasons.
"""
