"""Pages of help on findings, in the maker's words."""
