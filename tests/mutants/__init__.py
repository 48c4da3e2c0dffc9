"""Deliberate faults in the definitions, and whether a test that knows the right answer from
elsewhere notices.

``made.py`` makes them from the trees: one node changed, all else as it is, of the same type and
dimension (what the units refuse is no fault that could be shipped). ``plan.py`` runs the tests once
and notes which of them work with a season in which a fault shows at all. ``tried.py`` forks a
process for each fault, puts it into the book and runs those tests, the likeliest first.
``memory.py`` keeps what a fault cannot change, which makes that quick; ``report.py`` counts them.
``equal.yaml`` names faults that change nothing, with the reason. ``by_hand.py`` holds faults in any
part of the program, each a text that becomes another; ``copied.py`` tries those in a copy.
"""
