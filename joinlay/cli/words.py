"""What several commands say, and how ``check``, ``make`` and ``joint`` answer: one place, so that they keep one voice.

What only one other command says stands at the foot of its file; what a command or an option is for, beside it in ``app``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

AS_JSON: Final = "Answer in JSON, for programs."

JOINT: Final = "Work out one joint from a few numbers."
JOINT_USAGE: Final = "Usage: joinlay joint NAME --OPTION LENGTH ..."
JOINT_METRIC: Final = "A number without a unit is in millimetres, and the usual shop is a metric one."
JOINT_INCH: Final = "A number without a unit is in inches, and the usual shop is one in inches; so it is unless told."
JOINT_TEMPLATE: Final = "Print this joint's template to a PDF file."
JOINT_PAPER: Final = "The paper for --template; letter or, with --metric, a4 unless told."

LOOSE_TENON: Final = "Loose tenons: how thick, wide and long, how many, and where."
LT_END: Final = "Thickness of the part mortised in its end."
LT_FACE: Final = "Thickness of the part mortised in its face."
LT_LENGTH: Final = "Length of the joint line."
LT_TENON: Final = "Thickness of the tenon stock to use; the rules choose from the usual shop unless told."
LT_KEEP_OUT: Final = (
    "Where another cut lies on the joint line, FROM:TO from its datum end, as that cut measures; the clearance it needs (LT-11) "
    "is added. May be given more than once."
)
LT_IN: Final = "What the joint is in: drawer (unless told), case or frame."
LT_SOLID: Final = "The parts are solid wood, which needs more wood at the ends."

LOCKING_RABBET: Final = "A locking rabbet: the dado in the side, the tongue on the end part, and what to add to its length."
LR_SIDE: Final = "Thickness of the side."
LR_END: Final = "Thickness of the front or back."
LR_CUTTER: Final = "Diameter of the cutter."
LR_HALF_BLIND: Final = "The front laps the end of the side and hides it."
LR_DADO_DEPTH: Final = "Depth of the dado in the side; by the rules unless told."
LR_TIP_GAP: Final = "Space past the tip of the tongue; by the rules unless told."
LR_TONGUE: Final = "With --half-blind: width of the side's dado; the cutter's unless told."

DADO: Final = "A dado: a channel across the grain that takes the thickness of another part."
RABBET: Final = "A rabbet: a step along an edge that takes a panel."
GROOVE: Final = "A groove for a drawer's bottom."
INTO: Final = "Thickness of the wood it is cut in."
PANEL: Final = "Thickness of what goes into it, as measured."
CUTTER: Final = "Diameter of the cutter; the widest of the usual shop that fits unless told."
DEPTH: Final = "Depth of the cut; by the rules unless told."
DADO_OFFSET: Final = "End of the board to the dado, for its template; 2 in, or 50 mm with --metric, unless told."
STOPPED: Final = "Stop short of the edge that shows."
RABBET_WIDTH: Final = "Width of the rabbet; by the rules unless told."
OFFSET: Final = "Bottom edge to the groove; by the rules unless told."


STEP_PACKET: Final = "the packet"
STEP_TEMPLATES: Final = "each template"
STEP_LIST: Final = "the cutting list"
STEP_PLAN: Final = "the plan"
STEP_WRITING: Final = "writing"

# -- answers -----------------------------------------------------------------------------------------

DXF_WITH_ALL: Final = "--dxf goes with the whole of make: leave out --only, --pages and --count, or leave out --dxf."

HARM: Final = {"REFUSE": "refused", "WARN": "warning", "NOTE": "note"}


def counted(number: int, one: str, many: str = "") -> str:
    """``1 drawer``, ``3 drawers``."""
    return f"{number} {one if number == 1 else many or f'{one}s'}"


def verdict(title: str, drawers: int, tally: Sequence[tuple[int, str]]) -> str:
    """The first line of ``check``: what the job is and what was found."""
    found = ", ".join(counted(number, word) if word != "refused" else f"{number} refused" for number, word in tally if number)
    return f"{title}: {counted(drawers, 'drawer')}, {found or 'nothing to remark'}."


def more_on(kind: str) -> str:
    """Under the findings of ``check``: where to read more of the worst."""
    return f"More on the first of these: joinlay help-on {kind}"


def reckoned_with(usual: Sequence[str], own: Sequence[str]) -> str:
    """Under the findings of ``check``: the figures they hang on, the maker's own and the usual ones."""
    lines = []
    if own:
        lines.append(f"Reckoned with your figures: {'; '.join(own)}.")
    if usual:
        lines.append(f"Reckoned with usual figures: {'; '.join(usual)}.")
    return "\n".join(lines)


def started(path: object) -> str:
    """After ``start``: what was written and what comes next."""
    return f"{path} is written, and checks clean as it stands.\n\nNext: fill it in, then joinlay check {path}"


def is_there(path: object) -> str:
    """``start`` onto a file that exists."""
    return f"{path} is there already; give another name, or --force to write over it."


def next_make(path: object) -> str:
    """After a clean ``check``."""
    return f"Next: joinlay make {path}"


def next_mend(path: object) -> str:
    """After a ``check`` that refused."""
    return f"Next: change what was refused in {path}, then check again."


def made(title: str, folder: object, number: int) -> str:
    """After ``make``: how many files, and where."""
    return f"{title}: {counted(number, 'file')} in {folder}"


def paper_taken(papers: Iterable[str]) -> str:
    """``37 sheets of letter and 4 of 24 in roll``, of the paper of each sheet; lying on its side it is the same paper."""
    tally: dict[str, int] = {}
    for paper in papers:
        name = paper.removesuffix(" landscape")
        tally[name] = tally.get(name, 0) + 1
    (first, number), *rest = tally.items()
    return " and ".join([f"{counted(number, 'sheet')} of {first}", *(f"{more} of {name}" for name, more in rest)])


def next_print(taken: str) -> str:
    """After ``make``: what to do with them."""
    return f"Next: print packet.pdf ({taken}) at actual size, and measure its check square before you mark any wood."


def sheets_counted(title: str, taken: str) -> str:
    """``make --count``: how much paper it takes."""
    return f"{title}: {taken}"


def sheet_numbers(first: int, how_many: int) -> str:
    """``7``, or ``7 to 12``."""
    return str(first) if how_many == 1 else f"{first} to {first + how_many - 1}"


NEXT_COUNTED: Final = "Next: make it; --pages 2-5 prints some of it, --only 'drawer 1 front' what one part needs."
NEXT_AGAIN: Final = "Next: print it at actual size, and measure its check square before you mark any wood."
CHANGED_SINCE: Final = (
    "The job has changed since the packet in that folder was made: its sheets and these don't belong together. "
    "Make the whole packet again."
)


def made_again(title: str, numbers: Sequence[int], taken: str, path: object) -> str:
    """After ``make --only`` or ``--pages``: which sheets, and where."""
    which = f"sheet{'s' if len(numbers) > 1 else ''} {', '.join(map(str, numbers))}"
    return f"{title}: {which} ({taken}) in {path}"


def unread_pages(given: str) -> str:
    """``--pages`` that can't be read."""
    return f"--pages: {given!r} is not the number of a sheet; write numbers and stretches such as 4-6,9."


def no_such_pages(given: str, last: int) -> str:
    """``--pages`` beyond the packet."""
    return f"--pages: {given}: the packet's sheets are numbered 1 to {last}, the lower number first."


def no_template(given: str) -> str:
    """``--only`` a part that has no template."""
    return f"--only: {given!r} has no template: nothing is cut near its ends. joinlay list shows its size."


def no_part(option: str, given: str, near: Sequence[str], file: str) -> str:
    """``--only``, or ``--for``, a part that isn't there."""
    said = f"; near it: {', '.join(near)}." if near else "; joinlay list shows them all."
    return f"{option}: there is no part called {given!r} in {file}{said}"


def not_made(title: str) -> str:
    """``make`` of a job that was refused."""
    return f"{title}: nothing was written, since this was refused:"


def template_made(path: object) -> str:
    """After ``joint --template``."""
    return f"Next: print {path} at actual size, and measure its check square before you mark any wood."


def next_template() -> str:
    """After a ``joint`` without a template."""
    return "Next: --template FILE.pdf prints it at true scale."


def no_number(name: str, near: Sequence[str], file: str) -> str:
    """``why`` of a name that isn't there."""
    if near:
        return f"there is no number called {name!r} in {file}. Near it:\n" + "\n".join(f"  {one}" for one in near)
    return f"there is no number called {name!r} in {file}; joinlay why {file} lists them all."


def own_fault(error: BaseException) -> str:
    """What is said of a fault in the program itself."""
    return (
        f"joinlay came upon a fault of its own ({type(error).__name__}: {error}). Your files are as they were. "
        "Run it again with --trace before the command to see where, and please report it with the job."
    )


def unknown_option(given: str, near: Sequence[str]) -> str:
    """A word that no option of this command is."""
    kind = "option" if given.startswith("-") else "word"
    return f"there is no {kind} {given!r} here" + (f"; the nearest is {near[0]}." if near else ".")


def missing_options(options: Sequence[str]) -> str:
    """Options that must be given and weren't."""
    return f"{' and '.join(options)} {'is' if len(options) == 1 else 'are'} missing."


def needs_value(option: str) -> str:
    """An option with nothing behind it, or with a word that looks like an option."""
    return f"{option} needs a value behind it; a length is more than nothing."


def takes_no_value(option: str) -> str:
    """A switch with a value behind it."""
    return f"{option} takes no value."


def more_at(command: str) -> str:
    """Where to read more."""
    return f"More: {command}"
