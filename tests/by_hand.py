"""Boards and cuts made by hand, each called what a test calls it; what a role says is read from that name, as nothing in the
product does.
"""

from __future__ import annotations

import re
from dataclasses import replace

from joinlay.boards import Board, Cut, CutKind, CutRole, CutUse, DrawerRole, Hand, JointKind, JointRole, PartKind, PartRole, Shape

_KIND_OF_CUT = {
    CutKind.GROOVE: CutUse.GROOVE, CutKind.DADO: CutUse.DADO, CutKind.RABBET: CutUse.RABBET, CutKind.MORTISE: CutUse.MORTISE,
    CutKind.HOLE: CutUse.PULL_HOLE, CutKind.SLOT: CutUse.SLOT,
}  # fmt: skip


class NamedPart(PartRole):
    """A part by its name alone; it is any part of that name."""

    def __eq__(self, other):
        return isinstance(other, PartRole) and self.name == other.name

    def __hash__(self):
        return hash(self.name)

    def _short(self):
        return self.called

    def _before(self):
        return ""


class NamedJoint(JointRole):
    """A joint by its name alone."""

    def _spoken(self):
        assert isinstance(self.of, PartRole)
        return self.of.called


class NamedCut(CutRole):
    """A cut by its name, which stands in ``which``."""

    def _spoken(self):
        assert isinstance(self.which, PartRole)
        return self.which.called

    @property
    def part(self):
        """The part that its name begins with: ``back`` of ``back dado``; None where it begins with none."""
        assert isinstance(self.which, PartRole)
        before = re.sub(rf"\s*\b{self.use.value}( \d+)?$", "", self.which.called)
        return part(before, "rail") if before and before != self.which.called else None


def drawer(name):
    """The drawer that a name begins with, None where it begins with none: ``drawer 3 left side``."""
    found = re.search(r"drawer (\d+)", name)
    return DrawerRole(int(found[1])) if found else None


def hand(name):
    """The hand in a name, None where there is none."""
    found = re.search(r"\b(left|right|bottom|top)\b", name)
    return Hand(found[1]) if found else None


def part(name, kind="part"):
    """The role of a part called ``name``, of a kind in the trade's word for it; an unknown one is a part that stands alone."""
    known = PartKind(kind) if kind in {one.value for one in PartKind} else PartKind.LONE
    number = re.search(r"(\d+)$", name)
    return NamedPart(known, drawer(name), hand(name), int(number[1]) if number else 0, called=name)


def joint_called(name):
    """A joint called ``name``; None for ''."""
    return NamedJoint(JointKind.FRAME, part(name)) if name else None


def board(name, kind, stock, length, width, thickness, datum, cuts=(), **more) -> Board:
    """A board called ``name``, of a kind in the trade's word for it."""
    return Board(part(name, kind), stock, length, width, thickness, datum, cuts, **more)


def called(made, name):
    """The same board by another name, of the same kind."""
    return replace(made, role=part(name, made.part))


def use_of(name, kind):
    """What a cut of this name is for; by its kind where the name doesn't say."""
    words = re.sub(r" \d+$", "", name)
    uses = sorted(CutUse, key=lambda use: -len(use.value))
    return next((use for use in uses if words.endswith(use.value)), _KIND_OF_CUT[kind])


def cut_role(kind, name, mate="", joint=""):
    """The role of a cut of that kind called ``name``, for the part ``mate``, of the ``joint`` of that name."""
    number = re.search(r"(\d+)$", name)
    mated = part(mate) if mate else None
    return NamedCut(use_of(name, kind), mated, joint_called(joint), part(name), int(number[1]) if number else 0)


def cut(kind, surface, along, across, into, name, mate="", joint="", shape=Shape.SQUARE) -> Cut:
    """A cut called ``name``, for the part ``mate``, of the ``joint`` of that name."""
    return Cut(kind, surface, along, across, into, cut_role(kind, name, mate, joint), shape)


def of_joint(made, name):
    """The same cut as one of the joint called ``name``."""
    return replace(made, role=replace(made.role, joint=joint_called(name)))
