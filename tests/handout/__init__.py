"""Hand-outs in a real browser, and their figures against every other rendering."""
