"""Finishing a planned job: the knobs on its fronts and the bands on its edges (PU, EB)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from joinlay.casework.assembly import Assembly
from joinlay.casework.banding import band_board
from joinlay.casework.pulls import drill_holes, knob_blanks, place_pulls
from joinlay.casework.seating import with_board
from joinlay.errors import BadInput, nearest_names
from joinlay.findings import Finding, Refused, refusal

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.pulls import Pull
    from joinlay.jobs.job import Job
    from joinlay.jobs.parts.finish import BandingPart

__all__ = ["Finished", "finish"]


@dataclass(frozen=True, slots=True)
class Finished:
    """Drawers and assemblies with their ``knobs`` and bands, and what was found on the way. No knobs where they were refused."""

    drawers: tuple[Drawer, ...]
    others: tuple[Assembly, ...]
    findings: tuple[Finding, ...]
    knobs: tuple[Pull, ...] = ()


def finish(drawers: Sequence[Drawer], others: Sequence[Assembly], job: Job) -> Finished:
    """``drawers`` drilled for the job's knobs and everything banded as it asks (PU-1 to PU-3, EB-1 to EB-3).

    The blanks to turn the knobs from come as an assembly ``pulls`` of their own. What a rule refuses is among the findings, and the boards
    it was about stay as they were.
    """
    findings: list[Finding] = []
    drilled, blanks, knobs = _with_knobs(drawers, job, findings)
    made = (*others, Assembly("pulls", blanks)) if blanks else tuple(others)
    _refuse_unknown_parts(drilled, made, job, findings)
    banded = tuple(replace(d, assembly=_banded(d.assembly, job, findings)) for d in drilled)
    return Finished(banded, tuple(_banded(assembly, job, findings) for assembly in made), tuple(findings), knobs)


def _banks(drawers: Sequence[Drawer], job: Job) -> Iterator[list[Drawer]]:
    """The drawers bank by bank; those given by their openings are one bank. One that was refused is missing from its bank."""
    if job.piece is None:
        yield list(drawers)
        return
    by_name = {drawer.name: drawer for drawer in drawers}
    first = 1
    for bank in job.piece.banks:
        names = [f"drawer {n}" for n in range(first, first + len(bank.drawers))]
        yield [by_name[name] for name in names if name in by_name]
        first += len(bank.drawers)


def _with_knobs(
    drawers: Sequence[Drawer], job: Job, findings: list[Finding]
) -> tuple[list[Drawer], tuple[Board, ...], tuple[Pull, ...]]:
    if job.pulls is None:
        return list(drawers), (), ()
    drilled: list[Drawer] = []
    blanks: list[Board] = []
    placed: list[Pull] = []
    for bank in _banks(drawers, job):
        fronts = [drawer.board("front") for drawer in bank]
        try:
            knobs = place_pulls(fronts, job.pulls, job.shop)
            drilled += [with_board(drawer, drill_holes(front, knobs)) for drawer, front in zip(bank, fronts, strict=True)]
            blanks += knob_blanks(knobs, job.pulls.stock, fronts, job.shop.practice)
            placed += knobs
        except (Refused, BadInput) as refused:
            findings.append(_refusal_of(refused, "pulls"))
            return list(drawers), (), ()
    return drilled, tuple(blanks), tuple(placed)


def _banded(assembly: Assembly, job: Job, findings: list[Finding]) -> Assembly:
    return replace(assembly, boards=tuple(_band(board, job, findings) for board in assembly.boards)) if job.banding else assembly


def _band(board: Board, job: Job, findings: list[Finding]) -> Board:
    wanted = [part for part in job.banding if part.part.value == board.part]
    if not wanted:
        return board
    try:
        banded, found = band_board(board, [part.banding_on(board) for part in wanted], job.shop.practice)
    except (Refused, BadInput) as refused:
        findings.append(_refusal_of(refused, "banding"))
        return board
    findings.extend(found)
    return banded


def _refuse_unknown_parts(drawers: Sequence[Drawer], others: Sequence[Assembly], job: Job, findings: list[Finding]) -> None:
    if not job.banding:
        return
    assemblies = [*others, *(drawer.assembly for drawer in drawers)]
    kinds = tuple(dict.fromkeys(board.part for assembly in assemblies for board in assembly.boards))
    findings.extend(_unknown(part, kinds) for part in job.banding if part.part.value not in kinds)


def _unknown(part: BandingPart, kinds: Sequence[str]) -> Finding:
    near = ", ".join(nearest_names(part.part.value, kinds) or kinds)
    wrong = BadInput(f"no part of the piece is called {part.part.value!r}; nearest: {near}.")
    return _refusal_of(wrong, part.part.origin)


def _refusal_of(refused: Refused | BadInput, what: str) -> Finding:
    """The finding of ``refused``; plain bad input becomes a refusal of ``what``."""
    if isinstance(refused, Refused):
        return refused.finding
    remedy = "Change it in the job file."
    kind = "banding" if what != "pulls" else "pull"
    return refusal(kind, "{why}", remedy, "PU-1" if kind == "pull" else "EB-1", "by geometry", why=str(refused)).at(what).finding
