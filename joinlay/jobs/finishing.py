"""Finishing a planned job: the knobs on its fronts, the bands on its edges, and the maker's own outlines (PU, EB, CK-7)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import Whole
from joinlay.casework.assembly import Assembly
from joinlay.casework.banding import band_board
from joinlay.casework.outline_place import is_for, place_outline
from joinlay.casework.pulls import drill_holes, knob_blanks, place_pulls
from joinlay.casework.seating import with_board
from joinlay.checks.outline_check import check_outline
from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.findings import Finding, Refused, refusal
from joinlay.lengths import said_by
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board, PartRole
    from joinlay.boards.outline import PlacedOutline
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.outline_place import OutlineWish
    from joinlay.casework.pulls import Pull
    from joinlay.jobs.job import Job
    from joinlay.jobs.tables.finish import BandingEntry
    from joinlay.lengths import Graduation

__all__ = ["Finished", "Traced", "finish", "trace"]


@dataclass(frozen=True, slots=True)
class Finished:
    """Drawers and other assemblies with their bands, their ``knobs``, and what was found. No knobs where one was refused."""

    drawers: tuple[Drawer, ...]
    others: tuple[Assembly, ...]
    findings: tuple[Finding, ...]
    knobs: tuple[Pull, ...] = ()


def finish(drawers: Sequence[Drawer], others: Sequence[Assembly], job: Job, missing: Sequence[PartRole] = ()) -> Finished:
    """``drawers`` drilled for the job's knobs and everything banded as it asks (PU-1 to PU-3, EB-1 to EB-3).

    The blanks to turn the knobs from come as an assembly ``pulls`` of their own. What a rule refuses is among the findings, and
    the boards it was about stay as they were. ``others`` are the assemblies beside the drawers: case, frame, runners, stops.
    ``missing`` are the parts of what was refused already: that they aren't there is not told again.
    """
    findings: list[Finding] = []
    drilled, blanks, knobs = _with_knobs(drawers, job, findings)
    made = (*others, Assembly(Whole.PULLS, blanks)) if blanks else tuple(others)
    _refuse_unknown_parts(drilled, made, job, findings, missing)
    banded = tuple(replace(d, assembly=_banded(d.assembly, job, findings)) for d in drilled)
    return Finished(banded, tuple(_banded(assembly, job, findings) for assembly in made), tuple(findings), knobs)


def _banks(drawers: Sequence[Drawer], job: Job) -> Iterator[tuple[list[Drawer], list[int]]]:
    """The drawers bank by bank with the row of each, without those that were refused; drawers given by their openings are one
    bank.
    """
    by_role = {drawer.role: drawer for drawer in drawers}
    for bank in job.rows:
        kept = [[by_role[role] for role in row if role in by_role] for row in bank]
        rows = [row for row in kept if row]
        yield [drawer for row in rows for drawer in row], [n for n, row in enumerate(rows) for _ in row]


def _with_knobs(
    drawers: Sequence[Drawer], job: Job, findings: list[Finding]
) -> tuple[list[Drawer], tuple[Board, ...], tuple[Pull, ...]]:
    if job.pulls is None:
        return list(drawers), (), ()
    drilled: list[Drawer] = []
    blanks: list[Board] = []
    placed: list[Pull] = []
    clear = job.shop.practice.length("keep-out clearance")
    for bank, rows in _banks(drawers, job):
        fronts = [drawer.front for drawer in bank]
        try:
            knobs = place_pulls(fronts, job.pulls, job.shop, rows)
            drilled += [with_board(drawer, drill_holes(front, knobs, clear)) for drawer, front in zip(bank, fronts, strict=True)]
            blanks += knob_blanks(knobs, job.pulls.stock, fronts, job.shop.practice)
            placed += knobs
        except (Refused, BadInput) as refused:
            findings.append(_refusal_of(refused, "pulls", job.rule))
            return list(drawers), (), ()
    return drilled, tuple(blanks), tuple(placed)


def _banded(assembly: Assembly, job: Job, findings: list[Finding]) -> Assembly:
    return replace(assembly, boards=tuple(_band(board, job, findings) for board in assembly.boards)) if job.banding else assembly


def _band(board: Board, job: Job, findings: list[Finding]) -> Board:
    wanted = [entry for entry in job.banding if entry.part.value == board.role.kind.value]
    if not wanted:
        return board
    try:
        banded, found = band_board(board, [entry.banding_on(board) for entry in wanted], job.shop.practice)
    except (Refused, BadInput) as refused:
        findings.append(_refusal_of(refused, "banding", job.rule))
        return board
    findings.extend(found)
    return banded


def _refuse_unknown_parts(
    drawers: Sequence[Drawer], others: Sequence[Assembly], job: Job, findings: list[Finding], missing: Sequence[PartRole]
) -> None:
    if not job.banding:
        return
    assemblies = [*others, *(drawer.assembly for drawer in drawers)]
    there = [board.part for assembly in assemblies for board in assembly.boards]
    kinds = tuple(dict.fromkeys((*there, *(part.kind.value for part in missing))))
    findings.extend(_no_part_to_band(entry, kinds, job.rule) for entry in job.banding if entry.part.value not in kinds)


def _no_part_to_band(entry: BandingEntry, kinds: Sequence[str], rule: Graduation) -> Finding:
    near = ", ".join(nearest_names(entry.part.value, kinds) or kinds)
    wrong = BadInput(f"no part of the piece is called {quoted(entry.part.value)}; nearest: {near}.")
    return _refusal_of(wrong, entry.part.origin, rule)


def _refusal_of(refused: Refused | BadInput, what: str, rule: Graduation) -> Finding:
    """The finding of ``refused``; plain bad input becomes a refusal of ``what``."""
    if isinstance(refused, Refused):
        return refused.finding
    remedy = "Change it in the job file."
    kind = "banding" if what != "pulls" else "pull"
    return (
        refusal(kind, "{why}", remedy, "PU-1" if kind == "pull" else "EB-1", "by geometry", why=said_by(refused, rule.text))
        .at(what)
        .finding
    )


# -- outlines -------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Traced:
    """Outlines in their places, in the order of the job and then of the boards, and what was found on the way."""

    placed: tuple[PlacedOutline, ...]
    findings: tuple[Finding, ...]


def trace(boards: Sequence[Board], wishes: Sequence[OutlineWish], rule: Graduation, missing: Sequence[PartRole] = ()) -> Traced:
    """Each of ``wishes`` on every one of ``boards`` that it is for (CK-7); of the parts ``missing`` their refusal has told
    already.

    ``rule`` is the maker's.

    Nothing is raised: what is refused is among the findings.
    """
    placed: list[PlacedOutline] = []
    findings: list[Finding] = []
    for wish in wishes:
        own = [board for board in boards if is_for(wish, board)]
        if not own and not any(wish.on in (part.kind.value, part.name) for part in missing) and boards:
            findings.append(_no_part_for(wish, boards))
        for board in own:
            try:
                one = place_outline(board, wish)
            except Refused as refused:
                findings.append(refused.finding)
            except BadInput as bad:
                findings.append(_refused_outline(said_by(bad, rule.text)).at(board.name))
            else:
                placed.append(one)
                findings += check_outline(one)
    return Traced(tuple(placed), tuple(findings))


def _no_part_for(wish: OutlineWish, boards: Sequence[Board]) -> Finding:
    kinds = tuple(dict.fromkeys(board.part for board in boards))
    near = nearest_names(wish.on, (*kinds, *(board.name for board in boards))) or kinds
    return _refused_outline(
        f"The {wish.purpose} is for {quoted(wish.on)}, and no part is called that; nearest: {', '.join(near)}."
    ).at(wish.outline.file)


def _refused_outline(why: str) -> Finding:
    return refusal("outline", "{why}", "Change it in the job file.", "CK-7", "by geometry", why=why).finding
