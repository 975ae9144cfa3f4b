"""The parts of a job file, one small module each: what may be written there, and what it becomes."""
