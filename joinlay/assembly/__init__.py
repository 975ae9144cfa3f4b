"""Putting the piece together: which part stops which, in what order they go together, and how square it must stand."""
