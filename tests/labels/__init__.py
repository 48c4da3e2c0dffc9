"""Labels: what stands on them, their sizes, and the printed page itself."""
