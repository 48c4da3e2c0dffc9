"""The writer: what it puts into the file, read back by other programs."""
