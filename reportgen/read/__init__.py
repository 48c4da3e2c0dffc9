"""Reading: from the bytes of a season's files to nodes that know their place.

Reading order: ``place.py`` (a spot in a file, a problem), ``report.py`` (the one place that makes
a message) and ``near.py`` (the near match of a misspelt word), ``opened.py`` (plain
files only), ``folder.py`` (which files make a season) and ``files.py`` (their text), ``nodes.py``, ``syntax.py`` and ``yaml.py`` (strict YAML into light nodes,
and what it objects to), ``numbers.py``, ``units.py``, ``currencies.py``, ``grammar.py`` and
``dates.py`` (the grammar of values), ``ids.py`` (what may be an id), ``naming.py``, ``phrases.py``
and ``short.py`` (the flat form of a batch file).

Power logs have a way of their own: ``zones.py`` (clock time and elapsed time), ``meter.py`` (from
the file to energy over time), ``meter_text.py``, ``meter_header.py``, ``meter_stamps.py``,
``meter_numbers.py``, ``meter_rows.py``, ``meter_log.py`` (its steps in their order).

May import ``units``. Knows YAML, which nobody else does; knows no record by name but those that
the flat form stands for.
"""
