"""The page at the bench in a real browser; run by name, since it needs one: ``pytest tests/browser -n0``."""
