"""What several commands say, and how ``check``, ``make`` and ``joint`` answer: one place, so that they keep one voice.

What only one other command says stands at the foot of its file; what a command or an option is for, beside it in ``app``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.errors import quoted

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

STEP_WRITING: Final = "writing"

# -- answers -----------------------------------------------------------------------------------------

MODEL_WITH_ALL: Final = (
    "--model goes with the whole of make: leave out --only, --pages, --chapter and --count, or leave out --model."
)
DXF_WITH_ALL: Final = "--dxf goes with the whole of make: leave out --only, --pages, --chapter and --count, or leave out --dxf."
CHAPTER_ALONE: Final = "--chapter prints the whole of a chapter: leave out --all, --only and --pages, or leave out --chapter."
EMPTY_CHAPTER: Final = "--chapter: there is nothing to print in it for this job; joinlay make --all --count shows what there is."

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


def packet_checked(title: str, mark: str, folder: object, files: int, strange: Mapping[str, str]) -> str:
    """``check --packet``: whether what lies in a folder is of this plan; ``strange`` are the files that aren't, with their
    marks.
    """
    if not strange:
        return (
            f"{title}: the plan's mark is {mark}, and so is that of all {counted(files, 'file')} in {folder}: they go together."
        )
    rows = "\n".join(f"  {name}: {its}" for name, its in strange.items())
    return (
        f"{title}: the plan's mark is {mark}, but {counted(len(strange), 'file')} of {files} in {folder} "
        f"{'is' if len(strange) == 1 else 'are'} of another plan; don't mark wood from them:\n{rows}\n\n"
        "Next: make the whole packet again, and throw away every sheet with another mark."
    )


def next_mend(path: object) -> str:
    """After a ``check`` that refused."""
    return f"Next: change what was refused in {path}, then check again."


def can_be_mended(path: object) -> str:
    """Behind it: that some of them can be mended in the file."""
    return f"what can be changed for you: joinlay mend {path}"


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
    return f"--pages: {quoted(given)} is not the number of a sheet; write numbers and stretches such as 4-6,9."


def no_such_pages(given: str, last: int) -> str:
    """``--pages`` beyond the packet."""
    return f"--pages: {given}: the packet's sheets are numbered 1 to {last}, the lower number first."


def no_template(given: str) -> str:
    """``--only`` a part that has no template."""
    return f"--only: {quoted(given)} has no template: nothing is cut near its ends. joinlay list shows its size."


def no_part(option: str, given: str, near: Sequence[str], file: str) -> str:
    """``--only``, or ``--for``, a part that isn't there."""
    said = f"; near it: {', '.join(near)}." if near else "; joinlay list shows them all."
    return f"{option}: there is no part called {quoted(given)} in {file}{said}"


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
        return f"there is no number called {quoted(name)} in {file}. Near it:\n" + "\n".join(f"  {one}" for one in near)
    return f"there is no number called {quoted(name)} in {file}; joinlay why {file} lists them all."


def own_fault(error: BaseException) -> str:
    """What is said of a fault in the program itself."""
    return (
        f"joinlay came upon a fault of its own ({type(error).__name__}: {error}). Your files are as they were. "
        "Run it again with --trace before the command to see where, and please report it with the job."
    )


def put_together(parts: int, moves: int, drawers: int, clashes: int, *, is_placed: bool) -> str:
    """What ``check --assemble`` put together and found; drawers given by their openings have no piece around them."""
    what = f"Put together in the model: {counted(parts, 'part')}, brought along their ways in {counted(moves, 'move')}"
    tried = (
        f", with {counted(drawers, 'drawer')} shut, half out and right out"
        if is_placed
        else f", each of {counted(drawers, 'drawer')} by itself"
    )
    found = (
        "nothing is in anything else's place or way"
        if not clashes
        else f"{counted(clashes, 'place')} where parts are in each other's place or way, as said above"
    )
    return f"{what}{tried if drawers else ''}; {found}."
