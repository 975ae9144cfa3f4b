"""Jobs: the file a maker writes, read and checked, and the plan that is made of it."""
