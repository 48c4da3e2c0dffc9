"""Tests of the house itself: who may import whom, what every definition owes, what formulas use."""
