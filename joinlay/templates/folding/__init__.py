"""Fold-over strips: one paper for both halves of a loose tenon joint, folded over the edge where their outsides meet."""

from joinlay.templates.folding.fold_strips import fold_strips

__all__ = ["fold_strips"]
