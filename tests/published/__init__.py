"""Figures that other people published, each reached through the program's own definitions.

``case.py`` is a case: what it is, who published it, whether that was seen, and the figure;
``figures.py`` makes the numbers of a season from its records, without files. Then a file a subject.
"""
