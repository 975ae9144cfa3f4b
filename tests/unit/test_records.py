"""Records: dataclasses as the standard library's own, but for how they are made."""

import copy
import dataclasses
import pickle
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinlay.records import dataclass

made_as_the_library_does: Any = dataclasses.dataclass(frozen=True, slots=True)


def a_point(decorator):
    class Point:
        """A point with everything a record may have."""

        x: int
        y: int = 2
        names: list[str] = dataclasses.field(default_factory=list, hash=False)
        note: str = dataclasses.field(default="", compare=False)
        hidden: int = dataclasses.field(default=5, repr=False)
        total: int = dataclasses.field(init=False, compare=False)
        fixed: int = dataclasses.field(init=False, default=7)

        def __post_init__(self) -> None:
            object.__setattr__(self, "total", self.x + self.y)

    return decorator(Point)


def an_empty_one(decorator):
    class Nothing:
        """No field at all."""

    return decorator(Nothing)


Ours, Theirs = a_point(dataclass(frozen=True, slots=True)), a_point(made_as_the_library_does)


@dataclass(frozen=True, slots=True)
class Board:
    """One that pickle can find by name."""

    length: int
    cuts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Banded(Board):
    """One that stands on another."""

    band: str = "cherry"


@dataclass(frozen=True, slots=True)
class Loose:
    """One that says itself when two are alike, and how it is shown."""

    size: int

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Loose)

    def __hash__(self) -> int:
        return 1

    def __repr__(self) -> str:
        return "loose"


numbers = st.integers(-3, 3)
given_points = st.fixed_dictionaries(
    {"x": numbers},
    optional={
        "y": numbers,
        "names": st.lists(st.sampled_from("ab"), max_size=2),
        "note": st.sampled_from(["", "n"]),
        "hidden": numbers,
    },
)


@given(given_points, given_points)
def test_they_compare_hash_and_show_as_the_library_s_own(one, two):
    ours, theirs = (Ours(**one), Ours(**two)), (Theirs(**one), Theirs(**two))
    assert (ours[0] == ours[1]) is (theirs[0] == theirs[1])
    assert (ours[0] != ours[1]) is (theirs[0] != theirs[1])
    assert list(map(hash, ours)) == list(map(hash, theirs))
    assert list(map(repr, ours)) == list(map(repr, theirs))
    assert [dataclasses.asdict(one) for one in ours] == [dataclasses.asdict(one) for one in theirs]
    assert ours[0] != theirs[0]


@pytest.mark.parametrize(
    ("given", "named"),
    [((), {}), ((1, 2, [], "", 3, 4), {}), ((1,), {"x": 1}), ((1,), {"total": 3}), ((1,), {"fixed": 3}), ((1,), {"z": 1})],
)
def test_what_is_no_way_to_make_one_is_refused_alike(given, named):
    for kind in (Ours, Theirs):
        with pytest.raises(TypeError):
            kind(*given, **named)
    # Refused before and after the first was made.
    assert Ours(1).total == 3
    with pytest.raises(TypeError):
        Ours(*given, **named)


def test_they_never_change():
    point = Ours(1)
    for name in ("x", "total", "other"):
        with pytest.raises(dataclasses.FrozenInstanceError, match=f"cannot assign to field '{name}'"):
            setattr(point, name, 3)
        with pytest.raises(dataclasses.FrozenInstanceError, match=f"cannot delete field '{name}'"):
            delattr(point, name)
    assert not hasattr(point, "__dict__")


def test_each_has_a_default_of_its_own():
    one, two = Ours(1), Ours(1)
    one.names.append("a")
    assert two.names == []


def test_the_library_takes_them_for_its_own():
    board = Banded(3, ("groove",))
    assert dataclasses.is_dataclass(board)
    assert [field.name for field in dataclasses.fields(board)] == ["length", "cuts", "band"]
    assert [field.type for field in dataclasses.fields(board)] == [int, tuple[str, ...], str]
    assert Banded.__annotations__ == {"band": str}
    assert dataclasses.replace(board, length=4) == Banded(4, ("groove",), "cherry")
    match board:
        case Banded(length, cuts):
            assert (length, cuts) == (3, ("groove",))
    for again in (copy.copy(board), copy.deepcopy(board), pickle.loads(pickle.dumps(board))):
        assert again == board
        assert type(again) is Banded
    assert Board(3, ("groove",)) != board
    assert repr(board) == "Banded(length=3, cuts=('groove',), band='cherry')"


def test_a_record_may_have_methods_of_its_own():
    assert Loose(1) == Loose(2)
    assert hash(Loose(3)) == 1
    assert repr(Loose(4)) == "loose"


def test_one_of_no_field_and_one_of_a_single_field():
    ours, theirs = (an_empty_one(way)() for way in (dataclass(frozen=True, slots=True), made_as_the_library_does))
    assert hash(ours) == hash(theirs)
    assert repr(ours) == repr(theirs)
    assert ours == type(ours)()
    assert hash(Board(1)) == hash((1, ()))


def test_those_that_change_are_the_library_s():
    @dataclass(slots=True)
    class Heap:
        """A pile of boards."""

        boards: list[int] = dataclasses.field(default_factory=list)

    heap = Heap()
    heap.boards = [1]
    assert heap == Heap([1])
    assert Heap.__hash__ is None
