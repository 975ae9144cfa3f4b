"""The bench: a few lengths from the command line, the usual shop to go with them, and one joint as the answer, with its
template.
"""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING, Any, Final

from joinlay.boards import Board, Datum, PartKind, PartRole
from joinlay.cli import words
from joinlay.cli.terminal import complain, finding_lines, say, say_as_is, table
from joinlay.errors import BadInput
from joinlay.findings import Refused
from joinlay.lengths import Length, Unit, dimension, mm, read_length, written
from joinlay.records import dataclass
from joinlay.shop import usual_shop

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from pathlib import Path

    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Graduation
    from joinlay.shop import Shop

__all__ = ["Answer", "Bench", "Piece"]


@dataclass(frozen=True, slots=True)
class Answer:
    """One joint worked out: a ``headline``, its numbers as ``rows``, the same as a ``tree`` (its leaves lengths, words, numbers)
    and what was found.

    ``boards`` makes the two parts with their cuts, for the template.
    """

    headline: str
    rows: tuple[tuple[str, Length | str], ...]
    tree: Mapping[str, Any]
    findings: tuple[Finding, ...]
    boards: Callable[[], tuple[Board, ...]]


@dataclass(frozen=True, slots=True)
class Bench:
    """Reads lengths in one unit, and answers on the rule of the usual shop in that unit."""

    is_metric: bool
    shop: Shop = field(init=False)

    def __post_init__(self) -> None:
        """Fit the bench out with the usual shop."""
        object.__setattr__(self, "shop", usual_shop(self.unit))

    @property
    def unit(self) -> Unit:
        """What a bare number is in."""
        return Unit.MM if self.is_metric else Unit.INCH

    def text(self, length: Length) -> str:
        """A length on the rule."""
        return self.shop.rule.text(length)

    def size(self, option: str, spelled: str, name: str) -> Dimension:
        """The length given to ``option``, called ``name``. BadInput where it can't be read or is zero or negative."""
        length = self.length(option, spelled, name)
        if length.mm <= 0:
            raise BadInput(f"{option}: {spelled} is not a size; it must be more than 0.")
        return length

    def size_or_none(self, option: str, spelled: str | None, name: str) -> Dimension | None:
        """The same; None where the option wasn't given."""
        return None if spelled is None else self.size(option, spelled, name)

    def length(self, option: str, spelled: str, name: str) -> Dimension:
        """A length of any size, zero and negative ones too."""
        try:
            return written(read_length(spelled, self.unit), name, option)
        except BadInput as bad:
            raise BadInput(f"{option}: {bad}") from None

    def tell(self, work: Callable[[], Answer], *, as_json: bool, template: Path | None, paper: str | None) -> int:
        """Print the answer that ``work`` gives and, where asked, its template. A refusal is printed too, and gives 1; else 0."""
        try:
            answer = work()
        except Refused as refused:
            self._refuse(refused, as_json=as_json)
            return 1
        if template is not None:
            _write_template(answer.boards(), answer.headline.split(":")[0], template, self.shop.rule, paper)
        if as_json:
            self._say_json(answer.tree, answer.findings)
        else:
            say(self._page(answer, template))
        return 0

    def _page(self, answer: Answer, template: Path | None) -> str:
        rows = table((word, self.text(value) if isinstance(value, Length) else value) for word, value in answer.rows)
        found = finding_lines(answer.findings, self.shop.rule)
        following = words.next_template() if template is None else words.template_made(template)
        return "\n\n".join(part for part in (answer.headline, rows, found, following) if part)

    def _refuse(self, refused: Refused, *, as_json: bool) -> None:
        if as_json:
            self._say_json({}, (refused.finding,))
        complain(finding_lines([refused.finding], self.shop.rule))

    def _say_json(self, tree: Mapping[str, Any], findings: Iterable[Finding]) -> None:
        from joinlay.documents.json_text import InWords, json_text

        said = InWords(self.shop.rule)
        say_as_is(json_text({**said.tree(tree), "findings": [said.finding(finding) for finding in findings]}).rstrip())


#: The width of a piece whose width was not given, and the length of any: enough to lay a template on.
_STRIP: Final = dimension(mm(100))
_LENGTH: Final = dimension(mm(400))

_DATUM: Final = Datum("reference face", "datum edge", "jointed end", "far face", "far edge", "far end")


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece called ``name``, of a thickness and width."""

    name: str
    thickness: Dimension
    width: Dimension = _STRIP

    @property
    def role(self) -> PartRole:
        """A part of no piece of furniture, called by its name alone."""
        return PartRole(PartKind.LONE, called=self.name)

    def board(self) -> Board:
        """The piece without a cut."""
        return Board(self.role, "", _LENGTH, self.width, self.thickness, _DATUM)


def _write_template(boards: Iterable[Board], title: str, path: Path, rule: Graduation, paper: str | None) -> None:
    """Write the template of a joint in ``boards`` to ``path``; letter or A4 after the unit, unless ``paper`` says. BadInput
    where it can't be.
    """
    from joinlay.documents.template_files import joint_template_pdf
    from joinlay.documents.writing import write_whole

    size = paper or ("letter" if rule.unit is Unit.INCH else "a4")
    write_whole(path, joint_template_pdf(boards, title, rule, size))
