"""Reading: from the bytes of a season's files to nodes that know their place.

Reading order: ``problem.py`` (a place in a file, a problem), ``report.py`` (the one place that
makes a message) and ``near.py`` (the near match of a misspelt word), ``opened.py`` (plain files
only), ``folder.py`` (which files make a season) and ``files.py`` (their text), ``nodes.py``,
``syntax.py`` and ``yaml.py`` (strict YAML into light nodes, and what it objects to),
``spans.py`` (where each value begins and ends, for who writes it anew),
``numbers.py``, ``units.py``, ``currencies.py``, ``grammar.py`` and ``dates.py`` (the grammar of
values), ``ids.py`` (what may be an id), ``file_names.py``, ``short_lines.py`` and ``short.py`` (the
flat form of a batch file), ``zones.py`` (clock time and elapsed time).

Power logs have a reader of their own, ``model/power_log``.

May import ``units``. Knows YAML, which nobody else does; knows no record by name but those that the
flat form stands for.
"""
