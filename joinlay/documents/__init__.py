"""Documents: the plan as files, made whole in memory and written whole: PDF, SVG, CSV, JSON."""
