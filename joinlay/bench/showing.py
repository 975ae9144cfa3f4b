"""What is to be seen of a job while it is written: its plan, the drawings made of it, its faults, and the last that was good.

A text that is no job (a number half typed, a quote not closed) leaves the plan and the drawings as they last were, said to be
old. Drawings are made when they are looked at, not before, and kept as long as the plan stands; only the one on the page is made
again at every key.
"""

from __future__ import annotations

from threading import RLock
from typing import TYPE_CHECKING

from joinlay.bench.drawings import drawing_of
from joinlay.cutlist.changes import compare_plans
from joinlay.documents.job_file import files_named, texts_with
from joinlay.documents.mending import planned, tried
from joinlay.errors import BadInput, JoinlayError, Trouble, Troubles
from joinlay.records import dataclass

if TYPE_CHECKING:
    from markupsafe import Markup

    from joinlay.bench.draft import Draft
    from joinlay.cutlist.changes import Changes
    from joinlay.documents.job_file import JobTexts
    from joinlay.jobs.plan import Plan
    from joinlay.templates import Template

__all__ = ["Seen", "Showing"]


@dataclass(frozen=True, slots=True)
class Seen:
    """What a text comes to: the ``plan``, ``is_old`` where that is of an earlier text, since this one has ``troubles``; None
    before the first.

    ``drawn`` is the last plan that has something to draw: one that is refused altogether has nothing.
    """

    plan: Plan | None
    troubles: tuple[Trouble, ...]
    drawn: Plan | None = None

    @property
    def is_old(self) -> bool:
        """Whether the plan is that of an earlier text."""
        return bool(self.troubles)

    @property
    def why_old(self) -> str:
        """Why the drawing is not that of the text in hand; '' where it is."""
        if self.troubles:
            return str(self.troubles[0])
        if self.plan is None or self.plan is self.drawn:
            return ""
        worst = self.plan.findings[0] if self.plan.findings else None
        show = self.plan.rule.text
        return f"{worst.where}: {worst.sentence(show)} {worst.way_out(show)}" if worst else "nothing of it can be drawn."


class Showing:
    """What is seen of the text in hand of a ``draft``. Safe to use from several threads at once, one of which works at a time."""

    def __init__(self, draft: Draft) -> None:
        """Show ``draft``. Other files are read where the job's own file named them before anything was written here, or in its
        folder.
        """
        self.draft, self.lock = draft, RLock()
        self._own = files_named(draft.kept, draft.path.name)
        self._folder = draft.path.resolve().parent
        self._texts: JobTexts | None = None
        self._seen = Seen(None, ())
        self._with_mends: Plan | None = None
        self._drawings: dict[str, Markup] = {}
        self._templates: tuple[Plan | None, tuple[Template, ...]] = (None, ())

    def seen(self) -> Seen:
        """The plan of the text in hand, and what is wrong with it; worked out again only where a file has changed."""
        with self.lock:
            text = self.draft.text
            try:
                texts = texts_with(self.draft.path, text, self.may_read)
                if texts != self._texts or self._seen.troubles:
                    plan = planned(texts)
                    self._texts, self._with_mends = texts, None
                    if plan.boards or self._seen.drawn is None:
                        self._drawings.clear()
                        self._seen = Seen(plan, (), plan)
                    else:
                        self._seen = Seen(plan, (), self._seen.drawn)
            except Troubles as bad:
                self._seen = Seen(self._seen.plan, bad.troubles, self._seen.drawn)
            except JoinlayError as bad:
                self._seen = Seen(self._seen.plan, (Trouble(self.draft.path.name, 0, "", str(bad)),), self._seen.drawn)
            return self._seen

    def texts(self) -> JobTexts:
        """The texts of the job in hand. Raises BadInput where it is no job as it is."""
        with self.lock:
            seen = self.seen()
            if seen.troubles or self._texts is None:
                raise BadInput(f"the job can't be made as it is: {seen.troubles[0]}" if seen.troubles else "there is no job yet.")
            return self._texts

    def changes(self) -> Changes:
        """What differs from the job as the file has it. Raises BadInput where one of the two is no job."""
        with self.lock:
            now = planned(self.texts())
            try:
                kept = planned(texts_with(self.draft.path, self.draft.kept, self.may_read))
            except JoinlayError as bad:
                raise BadInput(f"what the file has is no job, so nothing can be compared with it: {bad}") from None
            return compare_plans(kept, now)

    def mended(self) -> Plan | None:
        """The plan with those of its mends that help, each tried, which takes a while; None where the text in hand is no job."""
        with self.lock:
            seen = self.seen()
            if seen.plan is None or seen.is_old or self._texts is None:
                return None
            if self._with_mends is None:
                self._with_mends = tried(self._texts, seen.plan)
            return self._with_mends

    def drawing(self, key: str) -> Markup:
        """The drawing that is called ``key``, of the last plan that was good; empty before there is one. Raises BadInput for
        no such drawing.
        """
        with self.lock:
            plan = self.seen().drawn
            if key not in self._drawings:
                made = drawing_of(plan, key)
                self._drawings[key] = made
            return self._drawings[key]

    def templates(self) -> tuple[Template, ...]:
        """Everything that is measured from, of the last plan that was good, in the order of the work; made when it is first
        asked for.
        """
        with self.lock:
            plan = self.seen().drawn
            if plan is not None and self._templates[0] is not plan:
                from joinlay.documents.true_size import true_size

                self._templates = plan, tuple(template for some in true_size(plan).values() for template in some)
            return self._templates[1]

    def may_read(self, name: str) -> bool:
        """Whether a file that is named in the text may be read: in the job's folder, or named in the file itself from the
        start.
        """
        if name in self._own:
            return True
        try:
            return (self._folder / name).resolve().is_relative_to(self._folder)
        except (OSError, ValueError, RuntimeError):
            return False
