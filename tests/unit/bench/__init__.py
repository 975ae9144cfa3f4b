"""The page at the bench, asked as a browser asks it."""
