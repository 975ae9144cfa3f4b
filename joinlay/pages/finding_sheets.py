"""All findings on paper, the worst first, and how each drawer comes out; and the worst of them in short for a cover (CK-1 to CK-8)."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING, Final

from joinlay.checks.assumed import assumed
from joinlay.drawings.lettering import fitted, words
from joinlay.drawings.marks import Fill, Line, Role, Text
from joinlay.drawings.outlines import corners
from joinlay.findings import Harm
from joinlay.pages.drawer_charts import chart_block, ways_out
from joinlay.pages.frames import wrapped
from joinlay.pages.paper import Printer
from joinlay.pages.plain_sheet import Block, PlainPages, flow

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.drawings.lettering import Content
    from joinlay.drawings.marks import Box, Stroke
    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan
    from joinlay.pages.paper import Paper
    from joinlay.pages.sheet import Sheet

__all__ = ["finding_sheets", "harm_count", "worst_findings"]

_TITLE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: From one line to the next, the white under a finding, and the column of the numbers.
_STEP, _FINE_STEP, _WHITE, _COLUMN = Fraction(11, 2), Fraction(4), Fraction(5), Fraction(12)
_ZERO: Final = Fraction(0)

_HEADS: Final = {
    Harm.REFUSE: "Refused: cut nothing until this is mended",
    Harm.WARN: "Warnings: think about these before you cut",
    Harm.NOTE: "Good to know",
}
_COUNTED: Final = {Harm.REFUSE: ("refused", "refused"), Harm.WARN: ("warning", "warnings"), Harm.NOTE: ("note", "notes")}


def finding_sheets(plan: Plan, paper: Paper, *, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """Every finding of ``plan`` with what, where, numbers, way out, rule and source, the worst first; then each drawer's way out as a chart.

    Findings are numbered as they stand in the plan, from 1; that number is what a template means by "see finding 3" (CK-1 to CK-8).
    """
    pages = PlainPages(plan, paper, "findings", printer or Printer())
    left, bottom, right, top = pages.box
    wide = right - left
    blocks = [_title(f"{plan.title}: {harm_count(plan)}")]
    numbered = enumerate(plan.findings, start=1)
    for harm, found in groupby(numbered, key=lambda pair: pair[1].harm):
        blocks.append(_heading(_HEADS[harm], wide))
        blocks += (_finding(number, finding, plan, wide) for number, finding in found)
    if plan.drawers:
        blocks += _reckoned(plan, wide)
    charts = [chart_block(way, plan.rule, wide) for way in ways_out(plan)]
    parted = [*flow(blocks, top - bottom), *flow(charts, top - bottom)]
    return pages.sheets([(f"page {n}", pages.stacked(page)) for n, page in enumerate(parted, start=1)])


def harm_count(plan: Plan) -> str:
    """How many findings of each kind, in words: ``1 warning, 9 notes``; ``nothing to remark`` where there are none. No rule."""
    tally = Counter(finding.harm for finding in plan.findings)
    said = [f"{tally[harm]} {_COUNTED[harm][tally[harm] != 1]}" for harm in Harm if tally[harm]]
    return ", ".join(said) or "nothing to remark"


def worst_findings(plan: Plan, box: Box, *, most: int = 5) -> tuple[Stroke, ...]:
    """What a cover says of the findings: how many, and the worst in short, at most ``most`` or as many as find room in ``box``.

    Each has its number, where it is, and its first sentence in two lines at most; what there is no room for is on the finding sheets. No
    rule; the worst first as they are sorted there.
    """
    left, bottom, right, top = box
    y = top - _TITLE - Fraction(1, 2)
    strokes: list[Stroke] = [Text((left, y), fitted(f"Findings: {harm_count(plan)}", right - left, (_TITLE, _WORD), bold=True))]
    y -= 3
    for number, finding in enumerate(plan.findings[:most], start=1):
        lines = _in_short(finding, plan, right - left - _COLUMN)
        if y - _STEP * len(lines) - 2 < bottom:
            break
        y -= 2
        strokes.append(Text((left, y - _STEP + Fraction(3, 2)), words(str(number), _WORD, bold=True)))
        for line in lines:
            y -= _STEP
            strokes.append(Text((left + _COLUMN, y + Fraction(3, 2)), line))
    return tuple(strokes)


def _in_short(finding: Finding, plan: Plan, room: Fraction) -> list[Content]:
    first = finding.sentence(plan.rule.text).split(". ")[0].rstrip(".")
    lines = list(wrapped(f"{_tag(finding)}{finding.where}: {first}.", room, _WORD))
    if len(lines) > 2:
        lines = [lines[0], " ".join(lines[1:])]
    return [fitted(line, room, (_WORD,)) for line in lines]


def _tag(finding: Finding) -> str:
    return "" if finding.harm is Harm.NOTE else f"{_COUNTED[finding.harm][0].upper()}: "


def _title(said: str) -> Block:
    return Block((Text((_ZERO, -_TITLE - 2), words(said, _TITLE, bold=True)),), Fraction(12), leads=True)


def _heading(said: str, wide: Fraction) -> Block:
    line = Line((_ZERO, Fraction(-9)), (wide, Fraction(-9)), Role.FRAME)
    return Block((Text((_ZERO, Fraction(-7)), words(said, _WORD, bold=True)), line), Fraction(13), leads=True)


def _finding(number: int, finding: Finding, plan: Plan, wide: Fraction) -> Block:
    """A black bar down the side of what is refused, a thin one by a warning, none by a note; colour never carries it alone."""
    show, room = plan.rule.text, wide - _COLUMN
    strokes: list[Stroke] = [Text((_ZERO, Fraction(-11, 2)), words(str(number), _TITLE, bold=True))]
    y = Fraction(0)
    named = f"{_tag(finding)}{finding.where}"
    for line in wrapped(named, room, _WORD, bold=True):
        y -= _STEP
        strokes.append(Text((_COLUMN, y + Fraction(1, 2)), words(line, _WORD, bold=True)))
    for said in filter(None, (finding.sentence(show), finding.way_out(show))):
        for line in wrapped(said[0].upper() + said[1:], room, _WORD):
            y -= _STEP
            strokes.append(Text((_COLUMN, y + Fraction(1, 2)), words(line, _WORD)))
        y -= Fraction(1)
    whence = ", ".join(filter(None, (finding.rule, finding.source)))
    for line in wrapped(f"{finding.kind}: {whence}" if whence else finding.kind, room, _SMALL):
        y -= _FINE_STEP
        strokes.append(Text((_COLUMN, y + Fraction(1, 2)), words(line, _SMALL)))
    if finding.harm is not Harm.NOTE:
        bar = Fraction(3, 2) if finding.harm is Harm.REFUSE else Fraction(1, 2)
        strokes.append(Fill(corners((_COLUMN - 3 - bar, y, _COLUMN - 3, Fraction(-1))), Fraction(1)))
    return Block(tuple(strokes), -y + _WHITE)


def _reckoned(plan: Plan, wide: Fraction) -> Iterator[Block]:
    """What they hang on: each figure, and whether the maker wrote it."""
    yield _heading("Reckoned with", wide)
    strokes: list[Stroke] = []
    y = _ZERO
    for one in assumed(plan.conditions, plan.shop.practice, plan.rule):
        y -= _STEP
        whence = f"written in {one.written}" if one.written else "the usual figure"
        strokes.append(Text((_COLUMN, y + 1), fitted(f"{one.said}: {whence}", wide - _COLUMN, (_WORD, _SMALL))))
    yield Block(tuple(strokes), -y + _WHITE)
