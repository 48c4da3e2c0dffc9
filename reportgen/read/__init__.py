"""Reading: from the bytes of a season's files to nodes that know their place.

Reading order: ``place.py`` (a spot in a file, a problem), ``report.py`` (the one place that makes
a message), ``files.py`` (which files make a season, and their text), ``nodes.py`` and ``yaml.py``
(strict YAML into light nodes), ``numbers.py``, ``units.py``, ``grammar.py`` and ``dates.py`` (the
grammar of values), ``ids.py`` (what may be an id), ``short.py`` (the flat form of a batch file).

Power logs have a way of their own: ``zones.py`` (clock time and elapsed time), ``meter.py`` (from
the file to energy over time), ``meter_text.py``, ``meter_header.py``, ``meter_stamps.py``,
``meter_numbers.py``, ``meter_rows.py``, ``meter_log.py`` (its steps in their order).

May import ``units``. Knows YAML, which nobody else does; knows no record by name but those that
the flat form stands for.
"""
