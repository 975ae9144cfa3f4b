"""The making of a packet and its files once in a run of the tests, whichever command or page asks for it."""

from contextlib import ExitStack, contextmanager
from unittest import mock

from joinlay.documents.job_files import STEPS, job_files
from joinlay.documents.packet import packet_for
from joinlay.settings import cards_of
from tests.measured.kept import once
from tests.measured.packets import cards, packet_of

__all__ = ["made_anew", "made_once"]


@contextmanager
def made_once(*askers):
    """Within it the cards of a plan are put in order once, and its packet, which ``packet_for`` binds, is drawn once; so are the
    files that the modules ``askers`` ask ``job_files`` for.

    What is read, said, refused and written is each asker's own.
    """
    with _given(cards, packet_of, _told, askers):
        yield


@contextmanager
def made_anew(*askers):
    """Within it everything is made anew."""
    with _given(cards_of, packet_for, job_files, askers):
        yield


@contextmanager
def _given(ordered, bound, files, askers):
    with ExitStack() as swaps:
        swaps.enter_context(mock.patch("joinlay.settings.cards_of", ordered))
        swaps.enter_context(mock.patch("joinlay.documents.packet.packet_for", bound))
        for asker in askers:
            swaps.enter_context(mock.patch.object(asker, "job_files", files))
        yield


def _told(plan, printer, wanted, step, *, ahead=None, **more):
    # What was begun ahead would be the same.
    for word in STEPS:
        step(word)
    return _made(plan, printer, wanted, **more)


@once
def _made(plan, printer, wanted, **more):
    return job_files(plan, printer, wanted, _untold, **more)


def _untold(_):
    pass
