"""Tests of the layout: a toy trade of boats, and rules of every workbook that can be made."""
