"""joinlay: a bank of drawers on wooden runners, worked out before any wood is cut.

For programs there are three functions, one after the other: ``read`` a job, ``plan`` it, bind its ``packet``; ``check``, which
plans a job file and tries what would mend it; and the types they give.

>>> import joinlay
>>> chest = joinlay.plan(joinlay.read("examples/print-chest.toml"))
>>> front = chest.drawers[2].board("front")
>>> chest.rule.text(front.length)
'32 7/16 in'
>>> front.length.mm
Fraction(65913, 80)

Everything is fetched when it is asked for, so ``import joinlay`` itself takes no time. The package is a house with one way
through it: a job is read and checked, planned into boards with cuts, and every drawing, setting and list is made from that plan.
Imports go down only; DEVELOPERS.md names the floors. What is not listed here is the house's own and may change.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from joinlay.boards import Board, Cut
    from joinlay.casework.assembly import Drawer
    from joinlay.documents.packet import Packet
    from joinlay.errors import BadInput, JoinlayError, Trouble, Troubles
    from joinlay.findings import Change, Finding, Harm, Remedy
    from joinlay.jobs.job import Job
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension, Length
    from joinlay.pages import Printer

__all__ = [
    "BadInput",
    "Board",
    "Change",
    "Cut",
    "Dimension",
    "Drawer",
    "Finding",
    "Harm",
    "Job",
    "JoinlayError",
    "Length",
    "Packet",
    "Plan",
    "Printer",
    "Remedy",
    "Trouble",
    "Troubles",
    "__version__",
    "check",
    "packet",
    "plan",
    "read",
]

__version__ = "0.1.0"

#: Where each type stands in the house.
_TYPES = {
    "BadInput": "joinlay.errors",
    "Board": "joinlay.boards",
    "Change": "joinlay.findings",
    "Cut": "joinlay.boards",
    "Dimension": "joinlay.lengths",
    "Drawer": "joinlay.casework.assembly",
    "Finding": "joinlay.findings",
    "Harm": "joinlay.findings",
    "Job": "joinlay.jobs.job",
    "JoinlayError": "joinlay.errors",
    "Length": "joinlay.lengths",
    "Packet": "joinlay.documents.packet",
    "Plan": "joinlay.jobs.plan",
    "Printer": "joinlay.pages",
    "Remedy": "joinlay.findings",
    "Trouble": "joinlay.errors",
    "Troubles": "joinlay.errors",
}


def read(path: str | Path) -> Job:
    """Read a job file, with the shop file and the SVG files it names, and check it.

    ``path`` is the job file; what it names is looked for beside it. Each file is read once, as UTF-8, and none is written. The
    job has every length exactly, each with the file and line it is written in; ``Job`` says what else.

    Raises Troubles with everything that is wrong, by file and line; BadInput where the file isn't there or can't be read. Both
    are JoinlayErrors, and both say in a sentence what was given and what would do.

    >>> job = joinlay.read("examples/print-chest.toml")
    >>> job.title, job.drawer_count, job.unit.value
    ('Print chest', 4, 'inch')
    >>> job.shop.saw.kerf.mm, job.shop.saw.kerf.origin
    (Fraction(127, 40), 'print-chest.toml:49')
    >>> joinlay.read("no-such-job.toml")
    Traceback (most recent call last):
    joinlay.errors.BadInput: there is no file no-such-job.toml; joinlay start writes one.
    """
    from pathlib import Path

    from joinlay.documents.job_file import job_in

    return job_in(Path(path))


def plan(job: Job) -> Plan:
    """Work a job out: every board with its cuts and its place, and everything that was found.

    Pure: the same job gives the same plan, and no file, clock or environment is asked. The plan is made even where a rule refuses
    something: a drawer that can't be made is left out, and why stands first among ``findings``, the worst of which come first.
    ``is_refused`` says whether anything was refused; then nothing should be cut from it.

    The ``remedies`` of a finding are changes to the job file, as each rule proposes them; ``check`` tries them.

    Lengths are exact fractions of a millimetre (``.mm``); ``plan.rule.text`` says one as the maker reads it, and ``.expression``
    how it was worked out. A board is measured from its reference face, edge and end.

    >>> chest = joinlay.plan(joinlay.read("examples/print-chest.toml"))
    >>> chest.is_refused, len(chest.drawers), [assembly.name for assembly in chest.others][:2]
    (False, 4, ['case', 'face frame'])
    >>> width = chest.dimensions()["drawer 3 front width"]
    >>> chest.rule.text(width), width.expression(chest.rule.text)
    ('32 7/16 in', 'drawer 3 opening width 32 1/2 in - 2 x side clearance 1/32 in')
    >>> worst = chest.findings[0]
    >>> worst.kind, worst.harm.name, worst.rule
    ('tipping', 'WARN', 'CK-5')
    >>> groove = next(cut for cut in chest.drawers[2].board("front").cuts if cut.kind.value == "groove")
    >>> groove.surface.value, chest.rule.text(groove.depth)
    ('face', '7/32 in')
    """
    from joinlay.jobs.planning import plan as worked_out

    return worked_out(job)


def check(path: str | Path) -> Plan:
    """The plan of a job file, each of its findings with only those ``remedies`` that help: as ``joinlay check`` and ``joinlay
    mend`` tell them.

    What a rule proposes may break another. So each remedy is made in the text of the job, all its ``changes`` together, and that
    planned again: one is kept only where its finding is gone and nothing as bad is new. No file is written. A ``Change`` says
    what to write: ``key`` of ``table``, in row ``index`` from 0 of a table that stands in rows. Raises as ``read`` does.

    >>> worst = joinlay.check("examples/print-chest.toml").findings[0]
    >>> [(one.table, one.index, one.key, one.value) for remedy in worst.remedies for one in remedy.changes]
    [('use', None, 'stands', 'anchored')]
    """
    from pathlib import Path

    from joinlay.documents.job_file import texts_of
    from joinlay.documents.mending import planned, tried
    from joinlay.jobs.known import Known

    texts, known = texts_of(Path(path)), Known()
    return tried(texts, planned(texts, known), known)


def packet(plan: Plan, printer: Printer | None = None, *, is_all: bool = False) -> Packet:
    """Bind everything a maker prints for one plan, in the order of the work, on the plan's own paper.

    ``printer`` is one as measured, to correct every sheet for; None draws each sheet as it is. ``Packet`` has its ``chapters``
    and their ``sheets``, numbered through, and the ``templates`` that lie on them at true size; ``pdf()`` gives the PDF, all of
    it or some sheets, as bytes. It has what is used at the bench; with ``is_all`` what is only looked at too: every part, gauges,
    charts, sections of the joints. Nothing is written, and the same plan gives the same bytes. Print at actual size, and measure
    a check square before any wood is marked.

    Raises BadInput for a paper that templates can't lie on, and for a letter of the job that the typeface lacks.

    >>> packet = joinlay.packet(joinlay.plan(joinlay.read("examples/print-chest.toml")))
    >>> packet.paper.title, packet.chapters[0].heading, packet.sheets[-1].number == len(packet.sheets)
    ('letter', 'Cover', True)
    >>> packet.pdf(packet.sheets[:1])[:5]
    b'%PDF-'
    """
    from joinlay.documents.packet import packet_for
    from joinlay.documents.wanted_sheets import EVERYTHING, LEAN

    return packet_for(plan, printer, EVERYTHING if is_all else LEAN)


def __getattr__(name: str) -> object:
    """One of the types, fetched from where it stands."""
    if name not in _TYPES:
        raise AttributeError(f"module 'joinlay' has no attribute {name!r}")
    from importlib import import_module

    found: object = getattr(import_module(_TYPES[name]), name)
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    """Every name that is given, fetched or not."""
    return sorted({*globals(), *__all__})
