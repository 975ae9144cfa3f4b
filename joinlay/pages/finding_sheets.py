"""All findings on paper, the worst first, and how each drawer comes out; and the worst in short for a cover (CK-1 to CK-8)."""

from __future__ import annotations

from collections import Counter
from itertools import groupby
from typing import TYPE_CHECKING, Final

from joinlay.checks.assumed import assumed
from joinlay.checks.conditions import weight
from joinlay.checks.weights import weigh
from joinlay.findings import Harm
from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pages.drawer_charts import chart_block, drawers_named, ways_out, worst_ways
from joinlay.pages.plain_sheet import PageBlock, PlainPages, title_over
from joinlay.pages.printer import Printer
from joinlay.pen.lettering import fitted, set_line, words, wrapped
from joinlay.pen.marks import Fill, Line, Move, Role, Text, moved

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.boards import DrawerRole
    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import Sheet
    from joinlay.paper import Paper
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Stroke

__all__ = ["finding_sheets", "harm_count", "worst_findings"]

_TITLE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: From one line to the next, the white under a finding, and the column of the numbers.
_STEP, _FINE_STEP, _WHITE, _COLUMN = Fraction(5), Fraction(4), Fraction(4), Fraction(12)
#: From one small line to the next, of words that run on.
_CLOSE: Final = Fraction(18, 5)
_ZERO: Final = Fraction(0)
#: A title with the white under it.
_UNDER_TITLE: Final = Fraction(10)
#: Drawers that come out in more ways than these aren't all drawn.
_MOST_WAYS: Final = 6
#: In short: how far the sentence is set in.
_INDENT: Final = Fraction(6)

_HEADS: Final = {
    Harm.REFUSE: "Refused: cut nothing until this is mended",
    Harm.WARN: "Warnings: think about these before you cut",
    Harm.NOTE: "Good to know",
}
_COUNTED: Final = {Harm.REFUSE: ("refused", "refused"), Harm.WARN: ("warning", "warnings"), Harm.NOTE: ("note", "notes")}


def finding_sheets(
    plan: Plan, paper: Paper, *, printer: Printer | None = None, with_charts: bool = True, begun: Fraction = _ZERO
) -> tuple[Sheet, ...]:
    """Every finding of ``plan`` with its place, numbers, remedy, rule and source, the worst first; then charts of the drawers.

    Findings are numbered from 1 as they stand in the plan; that number is what a template means by "see finding 3". There are six
    charts at most, of the drawers that come out worst, and none without ``with_charts``. ``printer`` is taken at its word unless
    given; ``begun`` mm of the first sheet are left to what comes before it. Rules CK-1 to CK-8.
    """
    pages = PlainPages(plan, paper, "findings", printer or Printer(), begun)
    left, _, right, _ = pages.box
    wide = right - left
    blocks = [title_over(f"{plan.title}: {harm_count(plan)}", wide, _UNDER_TITLE)]
    numbered = enumerate(plan.findings, start=1)
    for harm, found in groupby(numbered, key=lambda pair: pair[1].harm):
        blocks.append(_heading(_HEADS[harm], wide))
        blocks += (_finding(number, finding, plan, wide) for number, finding in found)
    if plan.drawers:
        blocks.append(_beside(plan, wide))
    ways = ways_out(plan) if with_charts else []
    shown = worst_ways(ways, _MOST_WAYS)
    charts = [chart_block(way, plan.rule, wide) for way in shown]
    if len(shown) < len(ways):
        charts.insert(
            0, title_over(f"Of {len(ways)} ways to come out, the {len(shown)} that jam soonest or droop most", wide, _UNDER_TITLE)
        )
    parted = pages.flowed([*blocks, *charts])
    return pages.sheets([(f"page {n}", pages.stacked(page)) for n, page in enumerate(parted, start=1)])


def harm_count(plan: Plan) -> str:
    """How many findings of each harm, in words: ``1 warning, 9 notes``; ``nothing to remark`` where there are none."""
    tally = Counter(finding.harm for finding in plan.findings)
    said = [f"{tally[harm]} {_COUNTED[harm][tally[harm] != 1]}" for harm in Harm if tally[harm]]
    return ", ".join(said) or "nothing to remark"


def worst_findings(plan: Plan, box: Box, *, most: int = 5) -> tuple[Stroke, ...]:
    """What a cover says of the findings in ``box``, in the sheet's mm and at least 14 high; as much as finds room there.

    First how many there are; then, of what was refused or warned of, the ``most`` worst with number and first sentence. What is
    only good to know is named by number and kind, but for the caution against tipping, which is told in words. All of it is on
    the finding sheets, in the same order.
    """
    left, bottom, right, top = box
    y = top - _TITLE - Fraction(1, 2)
    strokes: list[Stroke] = [Text((left, y), words("Findings", _TITLE, bold=True))]
    y -= _STEP + 1
    strokes.append(Text((left, y), fitted(harm_count(plan), right - left, (_WORD, _SMALL))))
    y -= Fraction(1)
    for lines in (*_worst(plan, right - left, most), *_good_to_know(plan, right - left)):
        height = sum((step for step, _, _ in lines), Fraction(2))
        if y - height < bottom:
            break
        y -= 2
        for step, indent, line in lines:
            y -= step
            strokes.append(Text((left + indent, y + 1), line))
    return tuple(strokes)


#: Lines of lettering: the way down to each, how far in it begins, and what it says.
_Lines = list[tuple[Fraction, Fraction, "Content"]]


def _worst(plan: Plan, wide: Fraction, most: int) -> Iterator[_Lines]:
    """What was refused and warned of: where in bold, under it the first sentence."""
    bad = [(number, finding) for number, finding in enumerate(plan.findings, start=1) if finding.harm is not Harm.NOTE]
    falling = [one for one in bad[most:] if one[1].kind == "tipping"]
    for number, finding in (*bad[:most], *falling):
        tag = _tag(finding) if finding.harm is Harm.REFUSE else ""
        head = fitted(f"{number}  {tag}{finding.where}", wide, (_WORD, _SMALL), bold=True)
        first = finding.sentence(plan.rule.text).split(". ")[0].rstrip(".")
        said = list(wrapped(f"{first[0].upper()}{first[1:]}.", wide - _INDENT, _SMALL))
        told = [(_FINE_STEP, _INDENT, fitted(line, wide - _INDENT, (_SMALL,))) for line in said]
        yield [(_STEP, _ZERO, head), *told, *((_STEP, _INDENT, line) for line in _anchor(finding, plan, wide - _INDENT))]


def _anchor(finding: Finding, plan: Plan, wide: Fraction) -> Iterator[Content]:
    """The caution against tipping, in lines as large as any other; nothing for other findings."""
    if finding.kind == "tipping":
        caution = finding.way_out(plan.rule.text).split(". ")[0]
        yield from (fitted(line, wide, (_WORD,)) for line in wrapped(f"{caution.rstrip('.')}.", wide, _WORD))


def _good_to_know(plan: Plan, wide: Fraction) -> Iterator[_Lines]:
    notes = [(number, finding) for number, finding in enumerate(plan.findings, start=1) if finding.harm is Harm.NOTE]
    for number, finding in notes:
        if finding.kind == "tipping":
            caution = finding.way_out(plan.rule.text).split(". ")[0] or finding.sentence(plan.rule.text)
            lines = wrapped(f"{number}  {caution.rstrip('.')}.", wide, _WORD)
            yield [(_STEP, _ZERO, fitted(line, wide, (_WORD,))) for line in lines]
    named = ", ".join(f"{finding.kind} {number}" for number, finding in notes if finding.kind != "tipping")
    if named:
        yield [(_STEP, _ZERO, fitted(line, wide, (_WORD,))) for line in wrapped(f"Good to know: {named}.", wide, _WORD)]


def _tag(finding: Finding) -> str:
    return "" if finding.harm is Harm.NOTE else f"{_COUNTED[finding.harm][0].upper()}: "


def _heading(said: str, wide: Fraction) -> PageBlock:
    line = Line((_ZERO, Fraction(-8)), (wide, Fraction(-8)), Role.FRAME)
    return PageBlock((Text((_ZERO, Fraction(-6)), words(said, _WORD, bold=True)), line), Fraction(19, 2), leads=True)


def _finding(number: int, finding: Finding, plan: Plan, wide: Fraction) -> PageBlock:
    """A black bar down the side of what is refused, a thin one by a warning; colour never carries it alone.

    What is only good to know is told small and in one run, but for the caution against tipping.
    """
    show, room = plan.rule.text, wide - _COLUMN
    whence = ", ".join(filter(None, (finding.rule, finding.source)))
    whence = f"{finding.kind}: {whence}" if whence else finding.kind
    told = [f"{said[0].upper()}{said[1:]}" for said in (finding.sentence(show), finding.way_out(show)) if said]
    if finding.harm is Harm.NOTE and finding.kind != "tipping":
        return _note(number, finding.where, " ".join((*(f"{said.rstrip('.')}." for said in told), f"({whence})")), wide)
    # Of a note the figures are small; the caution is as large as any.
    sizes = (_SMALL if finding.harm is Harm.NOTE else _WORD, _WORD)
    strokes: list[Stroke] = [Text((_ZERO, -_STEP), words(str(number), _TITLE, bold=True))]
    y = Fraction(0)
    for line in wrapped(f"{_tag(finding)}{finding.where}", room, _WORD, bold=True):
        y -= _STEP
        strokes.append(Text((_COLUMN, y + Fraction(1, 2)), words(line, _WORD, bold=True)))
    for said, high, step in zip(told, sizes, (_FINE_STEP if high is _SMALL else _STEP for high in sizes), strict=False):
        for line in wrapped(said, room, high):
            y -= step
            strokes.append(Text((_COLUMN, y + Fraction(1, 2)), words(line, high)))
        y -= Fraction(1)
    for line in wrapped(whence, room, _SMALL):
        y -= _FINE_STEP
        strokes.append(Text((_COLUMN, y + Fraction(1, 2)), words(line, _SMALL)))
    if finding.harm is not Harm.NOTE:
        bar = Fraction(3, 2) if finding.harm is Harm.REFUSE else Fraction(1, 2)
        strokes.append(Fill(corners((_COLUMN - 3 - bar, y, _COLUMN - 3, Fraction(-1))), Fraction(1)))
    return PageBlock(tuple(strokes), -y + _WHITE)


def _note(number: int, where: str, said: str, wide: Fraction) -> PageBlock:
    """Its number and its place in bold, and what is ``said`` of it running on behind them."""
    room = wide - _COLUMN
    strokes: list[Stroke] = [Text((_ZERO, -_CLOSE), words(str(number), _WORD, bold=True))]
    y = -_CLOSE
    *heads, place = wrapped(where, room, _SMALL, bold=True)
    for line in heads:
        strokes.append(Text((_COLUMN, y), words(line, _SMALL, bold=True)))
        y -= _CLOSE
    name = words(place, _SMALL, bold=True)
    strokes.append(Text((_COLUMN, y), name))
    after = set_line(name).width + 2
    said = " ".join(said.split())
    first = next(wrapped(said, room - after, _SMALL))
    if set_line(words(first, _SMALL)).width <= room - after:
        strokes.append(Text((_COLUMN + after, y), words(first, _SMALL)))
        said = said[len(first) :]
    for line in wrapped(said, room, _SMALL):
        y -= _CLOSE
        strokes.append(Text((_COLUMN, y), words(line, _SMALL)))
    return PageBlock(tuple(strokes), -y + Fraction(6, 5))


def _beside(plan: Plan, wide: Fraction) -> PageBlock:
    """What the findings are reckoned with and, beside that, what the drawers weigh."""
    more = wide * Fraction(3, 5)
    left, right = _stack(_reckoned(plan, more)), _stack(_weights(plan, wide - more - _COLUMN))
    strokes = (*left.strokes, *(moved(stroke, Move(more + _COLUMN, _ZERO)) for stroke in right.strokes))
    return PageBlock(strokes, max(left.height, right.height))


def _stack(blocks: Iterable[PageBlock]) -> PageBlock:
    strokes: list[Stroke] = []
    y = _ZERO
    for block in blocks:
        strokes += (moved(stroke, Move(_ZERO, y)) for stroke in block.strokes)
        y -= block.height
    return PageBlock(tuple(strokes), -y)


def _weights(plan: Plan, wide: Fraction) -> Iterator[PageBlock]:
    """Each drawer empty and loaded, drawers that weigh the same in one row (CK-4)."""
    rows: dict[tuple[str, str], list[DrawerRole]] = {}
    for drawer, one in zip(plan.drawers, weigh(plan.drawers, plan.conditions), strict=True):
        rows.setdefault((weight(one.empty, plan.rule), weight(one.loaded, plan.rule)), []).append(drawer.role)
    yield _heading("What they weigh, about", wide)
    for (empty, loaded), drawers in rows.items():
        y = _ZERO
        strokes: list[Stroke] = []
        for line in wrapped(f"{drawers_named(drawers)}: {empty} empty, {loaded} loaded", wide, _SMALL):
            y -= _FINE_STEP
            strokes.append(Text((_ZERO, y + 1), words(line, _SMALL)))
        yield PageBlock(tuple(strokes), -y)


def _reckoned(plan: Plan, wide: Fraction) -> Iterator[PageBlock]:
    """What they hang on: the figures that the maker wrote, by where they are written, and the usual ones."""
    yield _heading("Reckoned with", wide)
    by_whence: dict[str, list[str]] = {}
    for one in assumed(plan.conditions, plan.shop.practice, plan.rule, is_whole=plan.is_whole):
        by_whence.setdefault(f"written in {one.written}" if one.written else "the usual figures", []).append(one.said)
    strokes: list[Stroke] = []
    y = _ZERO
    for whence, said in by_whence.items():
        for line in wrapped(f"{whence}: {'; '.join(said)}", wide, _SMALL):
            y -= _CLOSE
            strokes.append(Text((_ZERO, y + 1), words(line, _SMALL)))
    yield PageBlock(tuple(strokes), -y + 1)
