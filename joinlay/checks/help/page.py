"""A page of help: what a finding means, what it comes from, and what to do about it."""

from __future__ import annotations

from typing import Final

from joinlay.records import dataclass

__all__ = ["MACHINES", "HelpPage"]

#: What is said first wherever a machine is to be used.
MACHINES: Final = (
    "A router or a saw can maim. Keep its guard on, use a push block, feed against the cutter's turn, keep "
    "sleeves and hair out of the way, "
    "wear eye, ear and dust protection, and unplug it to change a cutter. The machine's own manual goes before "
    "anything said here."
)


@dataclass(frozen=True, slots=True)
class HelpPage:
    """Help on one kind of finding.

    ``meaning`` is what has been found, ``reckoned`` how it is worked out and how far that can be trusted, ``remedies`` what to
    change, the usual way first. ``caution`` is for what may hurt somebody, '' elsewhere; ``job`` says what to write in a job
    where that changes the reckoning, '' elsewhere. ``rules`` are the trade rules it comes from.
    """

    kind: str
    meaning: str
    reckoned: str
    remedies: tuple[str, ...]
    rules: str
    caution: str = ""
    job: str = ""

    @property
    def text(self) -> str:
        """The whole page as plain text, a paragraph or list item a line; the caution comes first."""
        first = (f"Caution: {self.caution}", "") if self.caution else ()
        ways = tuple(f"- {remedy}" for remedy in self.remedies)
        job = (f"In the job: {self.job}", "") if self.job else ()
        return "\n".join((*first, self.meaning, "", self.reckoned, "", "What helps:", *ways, "", *job, f"Rules: {self.rules}."))
