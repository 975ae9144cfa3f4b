"""The piece: openings, drawers, and the case and frame around them."""
