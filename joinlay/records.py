"""Dataclasses that never change, whose methods cost a program next to nothing to make.

``@dataclass(frozen=True, slots=True)`` of the standard library writes six methods of each class as text and compiles that text
each time the program starts: for the three hundred records of joinlay a third of the time a short command takes. Here only
``__init__`` is written and compiled, once for all classes with as many fields of the same sorts, and not before the first record
of one of them is made. The other methods are the same few lines for all, over a getter in C that takes a record's fields in one
go, so that comparing and hashing are quicker too.

What is made is a dataclass in every respect: ``fields``, ``replace``, ``match``, ``copy`` and ``pickle`` find what they look for,
and records are compared, hashed, shown and refused as the standard library does. Types are checked as those of the standard
library, whose own ``dataclass`` this is to a type checker. Not taken, since nothing here needs them: ``InitVar``, fields by name
only, order.
"""

from __future__ import annotations

import dataclasses
from functools import cache
from inspect import get_annotations
from operator import attrgetter
from types import CodeType, FunctionType
from typing import TYPE_CHECKING, Any, cast

__all__ = ["dataclass"]

if TYPE_CHECKING:
    from collections.abc import Callable
    from dataclasses import dataclass
else:

    def dataclass(*, slots: bool, frozen: bool = False) -> Callable[[type], type]:
        """Make the class below a dataclass with ``slots``; where it is ``frozen``, one that is quickly made and never changes."""
        return _frozen if frozen else dataclasses.dataclass(slots=slots)


def _frozen(cls: type) -> type:
    """``cls`` as a record: slots and fields by the standard library, methods from here but for those it has itself."""
    if not cls.__doc__:
        # Else the library works out the signature of a private class to describe it by.
        cls.__doc__ = cls.__name__
    types = get_annotations(cls)
    # The library searches a type that stands there as text for three words, one of which is taken here; so it is told that later.
    cls.__annotations__ = {name: said if "ClassVar" in str(said) else object for name, said in types.items()}
    made: type = dataclasses.dataclass(init=False, repr=False, eq=False, slots=True)(cls)
    made.__annotations__ = types
    every = _fields(made)
    for one in every:
        one.type = types.get(one.name, one.type)
    methods = {
        "__init__": _first_init(made),
        "__eq__": _eq(_getter([one.name for one in every if one.compare])),
        "__hash__": _hash(_getter([one.name for one in every if (one.compare if one.hash is None else one.hash)])),
        "__repr__": _repr([one.name for one in every if one.repr]),
        "__setattr__": _refuse_to_set,
        "__delattr__": _refuse_to_delete,
        "__getstate__": _state,
        "__setstate__": _set_state,
    }
    if all(one.init for one in every) and not hasattr(made, "__post_init__"):
        methods["__reduce__"] = _reduce(_getter([one.name for one in every]))
    own = cls.__dict__
    for name, method in methods.items():
        # A class that says how it is compared and not how it is hashed has None for the latter.
        if own.get(name) is None:
            setattr(made, name, method)
    return made


def _fields(record: object) -> tuple[dataclasses.Field[Any], ...]:
    return dataclasses.fields(cast("Any", record))


def _getter(names: list[str]) -> Callable[[object], object]:
    """What takes the values of these fields out of a record, as a tuple."""
    if len(names) > 1:
        return attrgetter(*names)
    if not names:
        return lambda _: ()
    only = attrgetter(names[0])
    return lambda record: (only(record),)


# -- methods -------------------------------------------------------------------------------------------


def _first_init(made: type) -> Callable[..., None]:
    """What makes the first record of this class; from then on the class has an ``__init__`` of its own."""

    def init(self: object, *given: object, **named: object) -> None:
        own = _init(made)
        type.__setattr__(made, "__init__", own)
        own(self, *given, **named)

    return init


def _init(made: type) -> Callable[..., None]:
    """``__init__``: each field goes straight into its slot, then comes ``__post_init__`` where there is one.

    Its text is compiled once for all classes that have as many fields of the same sorts, and each gives it its own names.
    """
    known: dict[str, Any] = {"_none": dataclasses.MISSING}
    names, usual, body = ["self"], list[object](), list[str]()
    for n, one in enumerate(_fields(made)):
        known[f"_put{n}"] = getattr(made, one.name).__set__
        given, own = f"_{len(names)}", list[object]()
        if one.default_factory is not dataclasses.MISSING:
            known[f"_make{n}"], own = one.default_factory, [dataclasses.MISSING]
            value = f"_make{n}() if {given} is _none else {given}" if one.init else f"_make{n}()"
        elif one.default is not dataclasses.MISSING:
            known[f"_usual{n}"], own = one.default, [one.default]
            value = given if one.init else f"_usual{n}"
        elif one.init:
            value = given
        else:
            # Put there by __post_init__.
            continue
        if one.init:
            if usual and not own:
                raise TypeError(f"{made.__qualname__}: {one.name} must be given, and follows what need not be")
            names.append(one.name)
            usual += own
        body.append(f"_put{n}(self, {value})")
    if hasattr(made, "__post_init__"):
        body.append("self.__post_init__()")
    code = _compiled(len(names), tuple(body)).replace(co_varnames=tuple(names))
    init = FunctionType(code, known, "__init__", tuple(usual))
    init.__qualname__ = f"{made.__qualname__}.__init__"
    return init


@cache
def _compiled(count: int, body: tuple[str, ...]) -> CodeType:
    """``__init__`` of these lines, of ``count`` arguments: ``self``, ``_1``, ``_2`` and so on."""
    asked = ", ".join(["self", *(f"_{n}" for n in range(1, count))])
    known: dict[str, Any] = {}
    exec(f"def __init__({asked}):\n " + "\n ".join(body or ["pass"]), known)
    code: CodeType = known["__init__"].__code__
    return code


def _eq(values: Callable[[object], object]) -> Callable[[object, object], bool]:
    def eq(self: object, other: object) -> bool:
        return values(self) == values(other) if other.__class__ is self.__class__ else NotImplemented

    return eq


def _hash(values: Callable[[object], object]) -> Callable[[object], int]:
    return lambda self: hash(values(self))


def _repr(names: list[str]) -> Callable[[object], str]:
    return lambda self: f"{self.__class__.__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in names)})"


def _refuse_to_set(_: object, name: str, __: object) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_to_delete(_: object, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


def _reduce(values: Callable[[object], object]) -> Callable[[object], tuple[object, object]]:
    """How ``pickle`` takes a record that is all of what it is given: twice as quick as by its state."""
    return lambda self: (self.__class__, values(self))


def _state(self: object) -> list[object]:
    return [getattr(self, one.name) for one in _fields(self)]


def _set_state(self: object, state: list[object]) -> None:
    for one, value in zip(_fields(self), state, strict=True):
        object.__setattr__(self, one.name, value)
