"""Whole workbooks against two independent engines, and against fresh builds after an edit.

``forms.py`` writes a season's tables into a workbook that an engine reads quickly, ``places.py``
says where each figure stands in it and reads it back by key, ``typing_in.py`` says which cells
someone types to make an edit, ``making.py`` does all this for many seasons in several processes.
"""
