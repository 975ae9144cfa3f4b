"""Planning: a checked job becomes a plan. Pure: the same job gives the same plan, byte for byte."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from joinlay.assembly.glue_ups import glue_ups_of
from joinlay.assembly.order import order_of
from joinlay.assembly.steps import steps_of
from joinlay.boards import Hand, PartKind, PartRole
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.existing_case import fit_out
from joinlay.casework.piece import plan_piece
from joinlay.casework.seating import seat_drawer
from joinlay.checks.everything import find_everything, gathered
from joinlay.checks.glue_up_findings import check_glue_ups
from joinlay.checks.knob_profile_check import check_profile
from joinlay.checks.lumber_check import check_lumber
from joinlay.errors import BadInput
from joinlay.findings import Refused, note, refusal
from joinlay.jobs.finishing import finish, trace
from joinlay.jobs.known import Known
from joinlay.jobs.plan import Plan
from joinlay.jobs.remedies import settled
from joinlay.jobs.too_much import too_many_parts
from joinlay.lengths import Unit, said_by
from joinlay.records import dataclass
from joinlay.settings import choose
from joinlay.stock import Sheet

if TYPE_CHECKING:
    from collections.abc import Container, Iterator

    from joinlay.boards import DrawerRole
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.bay import Slot
    from joinlay.casework.existing_case import ExistingCase, Fitted
    from joinlay.casework.opening import DrawerMake, Opening
    from joinlay.casework.piece import Piece, PieceSpec
    from joinlay.findings import Finding
    from joinlay.jobs.job import Job
    from joinlay.lengths import Graduation
    from joinlay.shop import Shop, TenonStock
    from joinlay.stock.movement import Seasons

__all__ = ["plan"]


def plan(job: Job, known: Known | None = None) -> Plan:
    """Work ``job`` out: every board of every drawer with its cuts, and what was found on the way.

    Nothing is raised for a drawer that a rule refuses: it is left out of ``drawers`` and its refusal stands first among the
    findings, so that a maker sees everything that is wrong at once. The remedies of findings are proposed and not tried yet
    (``documents.mending`` does that). An opening that leaves a part no wood at all is refused by
    DR-1.

    ``known`` takes from the first plan it was given to what comes out the same again: to judge by, not to print from.
    """
    known = known or Known()
    drawers: list[Drawer] = []
    shops: dict[str, Shop] = {}
    findings: list[Finding] = list(_unmeasured(job))
    owners: dict[str, str] = {}
    missing: list[PartRole] = []
    piece = _piece(job.piece, job, findings, known) if job.piece else None
    fitted = _fitted(job.existing, job, findings) if job.existing else None
    around = piece or fitted
    for wanted in _wanted(job, around):
        try:
            given = (wanted, around, job.conditions.seasons)
            drawer = known.of(wanted.role, given, partial(_drawer, *given))
        except (Refused, BadInput) as refused:
            findings.append(_refused_drawer(wanted.role, refused, job.rule))
            owners[findings[-1].where] = wanted.role.name
            missing += _parts_of(wanted.role)
            continue
        drawers.append(drawer)
        shops[wanted.role.name] = wanted.shop
        findings.extend(drawer.assembly.findings)
        about = (*(found.where for found in drawer.assembly.findings), *(board.name for board in drawer.assembly.boards))
        owners |= dict.fromkeys((drawer.name, *about), drawer.name)
    if job.existing and fitted is None:
        missing += map(PartRole, PartKind)
    if job.piece and piece is None:
        missing += (*map(PartRole, PartKind), *(part for bank in job.banks for role in bank for part in _parts_of(role)))
    others = around.assemblies if around else ()
    if over := too_many_parts(board for one in (*others, *(drawer.assembly for drawer in drawers)) for board in one.boards):
        findings, drawers, others = [over], [], ()
        missing = [*map(PartRole, PartKind), *(part for wanted in _wanted(job, around) for part in _parts_of(wanted.role))]
    done = known.of(
        "finish",
        (drawers, others, job.rows, job.pulls, job.banding, job.shop, job.rule, missing),
        lambda: finish(drawers, others, job, missing),
    )
    findings += done.findings
    findings += find_everything(done.drawers, done.others, job.stocks, job.shop, job.conditions, shops)
    assemblies = (*done.others, *(drawer.assembly for drawer in done.drawers))
    boards = [board for assembly in assemblies for board in assembly.boards]
    findings += check_lumber(boards, job.stocks, job.unit)
    traced = trace(boards, job.outlines, job.rule, missing)
    findings += traced.findings
    choice = known.of("cuts", (boards, job.shop), lambda: choose(boards, job.shop))
    findings += choice.verdicts
    existing = fitted.boards if fitted else ()
    order = known.of("order", (done.drawers, done.others, existing), lambda: order_of(done.drawers, done.others, existing))
    findings += order.findings
    glue_ups = known.of(
        "glue-ups",
        (order, boards, existing, job.shop),
        lambda: glue_ups_of(steps_of(order), [*boards, *existing], job.shop),
    )
    findings += check_glue_ups(glue_ups, job.shop)
    if job.profile and done.knobs:
        findings += check_profile(job.profile, done.knobs, job.rule)
    made = {drawer.role for drawer in done.drawers}
    return Plan(
        title=job.title,
        file=job.file,
        unit=job.unit,
        rule=job.rule,
        shop=job.shop,
        stocks=job.stocks,
        drawers=done.drawers,
        others=done.others,
        findings=settled(gathered(findings), job, owners),
        paper=job.paper,
        on_hand=job.on_hand,
        pulls=job.pulls,
        knobs=done.knobs,
        conditions=job.conditions,
        outlines=traced.placed,
        profile=job.profile,
        choice=choice,
        order=order,
        over_all=(piece.spec.width, piece.spec.height, piece.spec.depth) if piece else None,
        glue_ups=glue_ups,
        maker=job.maker,
        date=job.date,
        opens=piece.opens if piece else (),
        existing=existing,
        rows=tuple(tuple(_made_of(row, made) for row in bank if _made_of(row, made)) for bank in job.rows),
    )


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A drawer to plan; ``slot`` is its place in a piece, None where only its opening is given."""

    role: DrawerRole
    opening: Opening
    make: DrawerMake
    shop: Shop
    tenon: TenonStock | None
    slot: Slot | None = None


def _made_of(row: tuple[DrawerRole, ...], made: Container[DrawerRole]) -> tuple[DrawerRole, ...]:
    """Those of a row that could be made."""
    return tuple(role for role in row if role in made)


def _wanted(job: Job, around: Piece | Fitted | None) -> Iterator[_Wanted]:
    for one in job.drawers if around is None else ():
        yield _Wanted(one.role, one.opening, one.make, one.shop, one.tenon)
    for slot in around.slots if around else ():
        yield _Wanted(slot.drawer, slot.opening, slot.wish.make, slot.wish.shop, slot.wish.tenon, slot)


def _parts_of(drawer: DrawerRole) -> Iterator[PartRole]:
    """The parts that a drawer would have been made of."""
    for kind in (PartKind.DRAWER_FRONT, PartKind.DRAWER_BACK, PartKind.DRAWER_BOTTOM):
        yield PartRole(kind, drawer)
    yield from (PartRole(PartKind.DRAWER_SIDE, drawer, hand) for hand in Hand)


def _drawer(wanted: _Wanted, around: Piece | Fitted | None, seasons: Seasons) -> Drawer:
    """A drawer, in its slot where there is a piece around it. Raises Refused or BadInput where it can't be made."""
    drawer = plan_drawer(wanted.role, wanted.opening, wanted.make, wanted.shop, tenon=wanted.tenon, seasons=seasons)
    return seat_drawer(around, wanted.slot, drawer) if around and wanted.slot else drawer


def _piece(spec: PieceSpec, job: Job, findings: list[Finding], known: Known) -> Piece | None:
    """The piece around the drawers; None, with the refusal among ``findings``, where it can't be made."""
    try:
        piece = known.of("piece", (spec, job.shop), lambda: plan_piece(spec, job.shop))
    except (Refused, BadInput) as refused:
        findings.append(_finding_of(refused, job.rule).at("piece"))
        return None
    findings.extend(piece.findings)
    return piece


def _fitted(case: ExistingCase, job: Job, findings: list[Finding]) -> Fitted | None:
    """Runners and stops in the case that is there; None, with the refusal among ``findings``, where they can't be made."""
    try:
        fitted = fit_out(case, [drawer.there for drawer in job.drawers], job.shop)
    except (Refused, BadInput) as refused:
        findings.append(_finding_of(refused, job.rule).at("runners"))
        return None
    findings.extend(fitted.findings)
    return fitted


def _refused_drawer(drawer: DrawerRole, refused: Refused | BadInput, rule: Graduation) -> Finding:
    """Why ``drawer`` can't be made, with the drawer in its place where a joint hasn't named it already."""
    finding = _finding_of(refused, rule)
    return finding if finding.where else finding.at(drawer.name)


def _finding_of(refused: Refused | BadInput, rule: Graduation) -> Finding:
    """The finding of what was raised, its lengths on the maker's ``rule``.

    Figures that leave a part no wood, which no rule was asked about, are refused by DR-1.
    """
    if isinstance(refused, Refused):
        return refused.finding
    remedy = "Look at the opening, the stock and the offsets of this drawer together: there is no room for what was asked."
    return refusal("drawer size", "{why}", remedy, "DR-1", "by geometry", why=said_by(refused, rule.text)).finding


def _unmeasured(job: Job) -> Iterator[Finding]:
    """Measured thickness beats nominal, always; say where only the nominal one is known (EN 315, PS 1)."""
    for name, stock in job.stocks.items():
        if stock.measured is None and isinstance(stock, Sheet):
            yield note(
                "unmeasured stock",
                "only the nominal thickness {nominal} is known; a sheet may be a good deal thinner and still be in tolerance. "
                "Measure it and write measured = ... before cutting",
                "CK-1",
                "EN 315" if job.unit is Unit.MM else "PS 1",
                nominal=stock.nominal,
            ).at(name)
