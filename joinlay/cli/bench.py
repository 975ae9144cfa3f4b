"""The bench: a few lengths from the command line, the usual shop to go with them, and one joint as the answer."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from joinlay.cli import words
from joinlay.cli.terminal import complain, finding_lines, say, table
from joinlay.documents.plan_json import InWords, json_text
from joinlay.errors import BadInput
from joinlay.findings import Refused
from joinlay.lengths import Length, Unit, read_length, written
from joinlay.shop import usual_shop

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from joinlay.boards import Board
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["Answer", "Bench"]


@dataclass(frozen=True, slots=True)
class Answer:
    """One joint worked out: a ``headline``, its numbers as ``rows``, the same as a ``tree`` for JSON, and what was found.

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

    @property
    def in_words(self) -> InWords:
        """Lengths as JSON holds them."""
        return InWords(self.shop.rule)

    def text(self, length: Length) -> str:
        """A length on the rule."""
        return self.shop.rule.text(length)

    def size(self, option: str, spelled: str, name: str) -> Dimension:
        """The length given to ``option``, called ``name``. BadInput where it can't be read or is not more than nothing."""
        length = self.length(option, spelled, name)
        if length.mm <= 0:
            raise BadInput(f"{option}: {spelled} is not a size; it must be more than nothing.")
        return length

    def size_or_none(self, option: str, spelled: str | None, name: str) -> Dimension | None:
        """The same; None where the option wasn't given."""
        return None if spelled is None else self.size(option, spelled, name)

    def length(self, option: str, spelled: str, name: str) -> Dimension:
        """A length of any size, nothing and less included."""
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
            from joinlay.cli.joint_template import write_template

            write_template(answer.boards(), answer.headline.split(":")[0], template, self.shop.rule, paper)
        say(json_text(self._tree(answer)).rstrip() if as_json else self._page(answer, template))
        return 0

    def _tree(self, answer: Answer) -> Mapping[str, Any]:
        return {**answer.tree, "findings": [self.in_words.finding(finding) for finding in answer.findings]}

    def _page(self, answer: Answer, template: Path | None) -> str:
        rows = table((word, self.text(value) if isinstance(value, Length) else value) for word, value in answer.rows)
        found = finding_lines(answer.findings, self.shop.rule)
        following = words.next_template() if template is None else words.template_made(template)
        return "\n\n".join(part for part in (answer.headline, rows, found, following) if part)

    def _refuse(self, refused: Refused, *, as_json: bool) -> None:
        if as_json:
            say(json_text({"findings": [self.in_words.finding(refused.finding)]}).rstrip())
        complain(finding_lines([refused.finding], self.shop.rule))
