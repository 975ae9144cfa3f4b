"""The tables of a job file: what may be written in each, how it is checked, and what it becomes."""
