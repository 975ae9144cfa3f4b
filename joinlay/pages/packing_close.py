"""Templates packed close to save paper: the large ones are laid first, and the sheets then put in the order of the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.pages.laying_out import lay_out
from joinlay.pages.sheet import bind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.lengths import Unit
    from joinlay.pages.paper import Paper, Printer
    from joinlay.pages.sheet import Sheet
    from joinlay.templates.template import Template

__all__ = ["pack_close"]


def pack_close(
    templates: Sequence[Template], paper: Paper, *, title: str, file: str, unit: Unit, printer: Printer | None = None
) -> tuple[Sheet, ...]:
    """Sheets with ``templates``, fewer than where they are laid in their order: the small ones fill what the large ones leave (PR-4).

    The sheet with the long bars comes first, then the others in the order of the first template on each.
    Everything else as ``lay_out``, and what it raises.
    """
    turn = {id(template): n for n, template in enumerate(templates)}
    large_first = sorted(templates, key=lambda template: (-template.size[0] * template.size[1], turn[id(template)]))
    sheets = lay_out(large_first, paper, title=title, file=file, unit=unit, printer=printer)
    if not sheets:
        return ()
    # The long bars are on the first that was laid, and there a maker looks for them (PR-2).
    first, *rest = sheets
    return bind([first, *sorted(rest, key=lambda sheet: min(turn[id(laid.template)] for laid in sheet.laid))])
