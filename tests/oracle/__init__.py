"""A second reckoning, written from the contract's text in plain Python, without the algebra.

``written.py`` reads what a user wrote, one text at a time; ``reckon.py`` and ``outlook.py`` work
the quantities out; ``test_oracle.py`` holds the program against them over made-up seasons. What is
not known is NaN, which arithmetic passes on by itself.
"""
