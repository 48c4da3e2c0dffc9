"""Power logs: from the file that a meter at the plug saves to each run's energy and power.

Reading order: ``records.py`` (the records that are filled in), ``by_period.py`` (a run's hours and
energy by period of the tariff), ``reading.py`` (a file to energy over time) and its steps in their
order: ``text.py``, ``header.py``, ``stamps.py``, ``numbers.py``, ``rows.py``, ``log.py``.

May import what ``model`` may.
"""
