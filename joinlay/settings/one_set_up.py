"""Joints that one set-up cuts whole, and joints that miss it by a little, with what would make it so (LR-5)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Cut, CutKind, Surface
from joinlay.boards.names import in_few_words
from joinlay.findings import note
from joinlay.lengths import Length, mm
from joinlay.settings.choice import Rank
from joinlay.settings.elements import Role
from joinlay.settings.lying import from_surface, opens_at
from joinlay.shop import is_sold

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.findings import Finding
    from joinlay.settings.cards import Draft
    from joinlay.settings.choice import Run

__all__ = ["one_set_up_findings"]

#: Farther off than this the maker would have to choose another joint, so nothing is said. Our own choice.
_LITTLE: Final = mm(2)


def one_set_up_findings(drafts: Sequence[Draft]) -> tuple[Finding, ...]:
    """A note for each set-up that cuts whole joints, and for each pair of sizes that keeps a joint from it by 2 mm or less.

    A joint counts where at least two cards serve it and all of them ask for the same machine, cutter, fence and height. Joints
    that say the same are told together. Rule LR-5 (check value A17: stock 1/2, cutter 1/4, everything 1/4).
    """
    said: dict[tuple[object, ...], tuple[Finding, list[str]]] = {}
    for joint, served in _by_joint(drafts).items():
        for finding in _judge(joint, served):
            key = (finding.what, *((name, number) for name, number in finding.numbers.items()))
            said.setdefault(key, (finding, []))[1].append(joint)
    return tuple(finding.at(in_few_words(joints)) for finding, joints in said.values())


def _by_joint(drafts: Sequence[Draft]) -> Mapping[str, list[Draft]]:
    found: dict[str, list[Draft]] = {}
    for draft in drafts:
        for joint in draft.joints:
            found.setdefault(joint, []).append(draft)
    return found


def _judge(joint: str, served: Sequence[Draft]) -> Iterator[Finding]:
    plain = [
        draft
        for draft in served
        if draft.way.role is not Role.SHAPED and draft.runs[0].rank in (Rank.GROOVE, Rank.ACROSS, Rank.END_RABBET)
    ]
    if len(plain) < 2 or len(plain) != len(served):
        return
    ways = {(draft.way.machine, draft.way.tool, draft.way.passes) for draft in plain}
    if len(ways) == 1:
        last = plain[0].way.passes[-1]
        yield note(
            "one set-up",
            "one set-up cuts it whole: fence {fence} from the {cutter} cutter, cutter "
            "{height} high; turn the parts and touch "
            "nothing else",
            "LR-5",
            "by geometry",
            fence=last.near_side,
            cutter=plain[0].way.tool.width,
            height=last.height,
        )
        return
    dado, rabbet = _dado_and_rabbet(joint, plain)
    if dado is not None and rabbet is not None:
        yield from _near_miss(dado, rabbet)


def _dado_and_rabbet(joint: str, drafts: Sequence[Draft]) -> tuple[tuple[Run, Cut] | None, tuple[Run, Cut] | None]:
    mine = [(run, cut) for draft in drafts for run in draft.runs for cut in run.cuts if cut.joint == joint]
    dado = next((each for each in mine if each[1].kind is CutKind.DADO), None)
    rabbet = next(
        (each for each in mine if each[0].rank is Rank.END_RABBET and opens_at(each[0].board, each[1], Surface.FAR_FACE)), None
    )
    others = [each for each in mine if each[1].kind not in (CutKind.DADO, CutKind.RABBET)]
    return (None, None) if others else (dado, rabbet)


def _near_miss(dado: tuple[Run, Cut], rabbet: tuple[Run, Cut]) -> Iterator[Finding]:
    """A plain locking rabbet is one set-up when the end part is two cutters thick and dado and tongue are one cutter deep and
    long.

    Nothing is said where the dado would then be over half the side's thickness (LR-4), or where no such cutter is to be had.
    """
    width, depth = dado[1].along.size, dado[1].depth
    thick: Length = rabbet[0].board.size(Axis.INTO)
    end = Surface.END if opens_at(rabbet[0].board, rabbet[1], Surface.END) else Surface.FAR_END
    tongue = from_surface(rabbet[0].board, rabbet[1].along, end).stop
    misses = (abs(thick - width * 2), abs(depth - width), abs(tongue - width))
    side: Length = dado[0].board.size(Axis.INTO)
    if max(misses) > _LITTLE or not any(misses):
        return
    if misses[0]:
        # Dado and tongue follow of themselves: with the right thickness the joint is made one cutter deep and long.
        ways = ["if the part with the tongue were {wanted} thick (it is {thick})"] if width * 2 <= side else []
        ways += ["with a {half} cutter in place of the {width} one"] if is_sold(thick / 2) and thick <= side else []
        if ways:
            yield note(
                "nearly one set-up",
                f"one set-up would cut it whole {', or '.join(ways)}",
                "LR-5",
                "by geometry",
                wanted=width * 2,
                width=width,
                thick=thick,
                half=thick / 2,
            )
        return
    if width * 2 > side:
        return
    yield note(
        "nearly one set-up",
        "one set-up would cut it whole if the dado were {width} deep (it is "
        "{depth}) and the tongue {width} long "
        "(it is {tongue}): ask for no tip gap and no fit",
        "LR-5",
        "by geometry",
        width=width,
        depth=depth,
        tongue=tongue,
    )
