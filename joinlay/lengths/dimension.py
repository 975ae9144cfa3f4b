"""A dimension: a length with a name that keeps the working it came from.

The problem: every number on paper must be able to answer "why?", down to what the maker wrote, and the answer must be the sum
that was really done, not one typed a second time beside it.

How it works: a Dimension is a Length that also holds an operation and its operands, which may be dimensions in their turn.
Adding, taking away, multiplying, dividing and picking the smallest each make a new Dimension that holds what it was made from,
so the arithmetic is the record. ``named`` closes a step: what is computed from the result then shows the name and its value,
and the step behind the name is asked for by itself. ``expression`` sets one step in words and figures, with brackets where it
would be misread without; ``inputs`` are the named dimensions that step reads; ``joinlay why`` follows them down to the job
file.

What it costs: an object for each operation, and the whole working stays in memory as long as its result, a few thousand
objects for a chest of drawers. Values are worked out at once and never again; asking for an expression walks one step only.

What it can't do: it doesn't know why a branch was taken. A length that a search or a comparison chose says so in words
(``chosen``, ``smallest``). Two dimensions compare and hash by value alone, whatever their names and workings.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final, overload

from joinlay.errors import BadInput
from joinlay.lengths.fraction import Fraction
from joinlay.lengths.length import Length, as_length, as_number, mm
from joinlay.lengths.makers_rule import BadSize, decimal_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from joinlay.lengths.makers_rule import Graduation

__all__ = [
    "NOTHING",
    "Dimension",
    "chosen",
    "default",
    "dimension",
    "largest",
    "require_positive",
    "rounded_down",
    "rounded_to",
    "rounded_up",
    "smallest",
    "written",
]

#: How tightly an operation binds, for brackets: sums 1, products 2.
_BINDS = {"+": 1, "-": 1, "x": 2, "/": 2}


class Dimension(Length):
    """A length that knows its name and working.

    ``name`` is in the maker's words (``drawer 3 front width``), '' for a step inside an expression.
    ``rule`` and ``source`` say which trade rule gave it (``DR-1``, ``common practice``). ``origin`` says where a
    number with no working was written (``seed-chest.toml:12``) or that it is a default. ``operation`` and ``operands``
    are the working: an operator (+ - x /) or a phrase (``smallest of``), and what it was done to, in order.
    """

    # Most have neither name nor rule, and share a label with nothing on it.
    __slots__ = ("_label", "operands", "operation")

    _label: tuple[str, str, str, str]
    operation: str
    operands: tuple[Length | Fraction, ...]

    def __init__(
        self,
        value: Length,
        name: str = "",
        *,
        rule: str = "",
        source: str = "",
        origin: str = "",
        operation: str = "",
        operands: tuple[Length | Fraction, ...] = (),
    ) -> None:
        """Wrap ``value``. Makers of dimensions use ``written``, ``default`` and arithmetic instead."""
        put = object.__setattr__
        put(self, "mm", value.mm)
        put(self, "_label", (name, rule, source, origin))
        put(self, "operation", operation)
        put(self, "operands", operands)

    @property
    def name(self) -> str:
        """In the maker's words; '' for a step inside an expression."""
        return self._label[0]

    @property
    def rule(self) -> str:
        """The trade rule that gave it; '' where none did."""
        return self._label[1]

    @property
    def source(self) -> str:
        """Where that rule is from; '' where it has none."""
        return self._label[2]

    @property
    def origin(self) -> str:
        """Where a number with no working was written, or that it is a default; '' for what was worked out."""
        return self._label[3]

    # By value, as every length: naming a length does not make it another length.
    __hash__ = Length.__hash__

    def __reduce__(self) -> tuple[object, ...]:
        """Pickle and copy with the working."""
        return (_made, (self.mm, self._label, self.operation, self.operands))

    def named(self, name: str, rule: str = "", source: str = "") -> Dimension:
        """The same length with the same working under ``name``, as ``rule`` of ``source`` gives it.

        A dimension that has a name already becomes the working of the new one, so no step is lost.
        """
        own, old_rule, old_source, origin = self._label
        if own and own != name:
            return _made(self.mm, (name, rule, source, ""), "=", (self,))
        return _made(self.mm, (name, rule or old_rule, source or old_source, origin), self.operation, self.operands)

    @property
    def as_step(self) -> Dimension:
        """The same length and working without its name, to be a step of another's; as it is where nothing was worked out."""
        return _worked(self.mm, self.operation, self.operands) if self.operation else self

    @property
    def inputs(self) -> tuple[Dimension, ...]:
        """The named dimensions that the expression reads, each once, in reading order."""
        seen: dict[tuple[str, Fraction], Dimension] = {}
        for found in self._named_operands():
            seen.setdefault((found.name, found.mm), found)
        return tuple(seen.values())

    def _named_operands(self) -> Iterator[Dimension]:
        for operand in self.operands:
            if isinstance(operand, Dimension):
                if operand.name:
                    yield operand
                else:
                    yield from operand._named_operands()

    def expression(self, show: Callable[[Length], str]) -> str:
        """The working in words and figures: ``opening width 18 3/8 - 2 x side clearance 1/32``.

        ``show`` sets a length in figures (a Graduation's ``text``, or its ``read(...).figures``). Empty where the number was
        simply written.
        """
        return self._spell(show) if self.operation else ""

    def _spell(self, show: Callable[[Length], str]) -> str:
        parts = [_spell_operand(operand, show, self.operation, n) for n, operand in enumerate(self.operands)]
        if self.operation == "=":
            return parts[0]
        if self.operation in _BINDS:
            return f" {self.operation} ".join(parts)
        return f"{self.operation} {', '.join(parts)}".rstrip()

    # -- arithmetic, recorded ------------------------------------------------------------------------

    def __add__(self, other: Length) -> Dimension:
        """Both, end to end; with nothing, this one as it is, and what was turned round is taken away."""
        if _is_nothing(other):
            return self
        if _is_nothing(self):
            return dimension(other)
        turned = _turned(other)
        return self - turned if turned is not None else _worked(self.mm + as_length(other).mm, "+", (self, other))

    def __radd__(self, other: Length) -> Dimension:
        """A plain length and this one."""
        return self if _is_nothing(other) else _worked(as_length(other).mm + self.mm, "+", (other, self))

    def __sub__(self, other: Length) -> Dimension:
        """What is left; without nothing, this one as it is, and what was turned round is added."""
        if _is_nothing(other):
            return self
        turned = _turned(other)
        if turned is not None and _is_nothing(self):
            return turned
        return self + turned if turned is not None else _worked(self.mm - as_length(other).mm, "-", (self, other))

    def __rsub__(self, other: Length) -> Dimension:
        """A plain length less this one."""
        return _worked(as_length(other).mm - self.mm, "-", (other, self))

    def __mul__(self, times: int | Fraction) -> Dimension:
        """So many times as long."""
        many = as_number(times)
        return self if many == 1 else _worked(self.mm * many, "x", (many, self))

    __rmul__ = __mul__

    @overload
    def __truediv__(self, by: int | Fraction) -> Dimension: ...
    @overload
    def __truediv__(self, by: Length) -> Fraction: ...
    def __truediv__(self, by: int | Fraction | Length) -> Dimension | Fraction:
        """A dimension over a number is a dimension; over a length, how many times it goes in."""
        if isinstance(by, Length):
            return self.mm / by.mm
        many = as_number(by)
        return self if many == 1 else _worked(self.mm / many, "/", (self, many))

    def __neg__(self) -> Dimension:
        """The same length the other way; turned round twice, as it was."""
        turned = _turned(self)
        return turned if turned is not None else _worked(-self.mm, "x", (_OTHER_WAY, self))

    def __abs__(self) -> Dimension:
        """The length without its sign."""
        return _worked(abs(self.mm), "size of", (self,))


#: What a length that is turned round is multiplied by.
_OTHER_WAY: Final = Fraction(-1)


def _is_nothing(length: Length) -> bool:
    """True for no length at all, or none of something: it would only make a working longer. A nothing with a name is told."""
    if type(length) is not Dimension:
        return isinstance(length, Length) and not length.mm
    if length.mm or length.name:
        return False
    return not length.operation or (length.operation == "x" and not length.operands[0])


def _turned(length: Length) -> Dimension | None:
    """What ``length`` is the other way of, if it is that and has no name of its own: taking it away is adding this."""
    if type(length) is Dimension and length.operation == "x" and not length.name and length.operands[0] == _OTHER_WAY:
        (_, of) = length.operands
        return of if isinstance(of, Dimension) else None
    return None


#: What a dimension is while it is made. A length refuses to be changed, and to get round that field by field takes most of the
#: time of making one.
_Open: Any = type(
    "_Open",
    (Length,),
    {"__slots__": Dimension.__slots__, "__setattr__": object.__setattr__, "__delattr__": object.__delattr__},
)


def _made(
    value: Fraction, label: tuple[str, str, str, str], operation: str, operands: tuple[Length | Fraction, ...]
) -> Dimension:
    """A dimension of these fields, as ``Dimension`` makes it, but quickly: a plan has a hundred thousand of them."""
    made: Any = _new(_Open)
    made.mm = value
    made._label = label
    made.operation = operation
    made.operands = operands
    made.__class__ = Dimension
    dimension: Dimension = made
    return dimension


_new = object.__new__
_NO_LABEL: Final = ("", "", "", "")


def _worked(value: Fraction, operation: str, operands: tuple[Length | Fraction, ...]) -> Dimension:
    """A dimension that came of an operation, which nobody has named yet."""
    return _made(value, _NO_LABEL, operation, operands)


def _spell_operand(operand: Length | Fraction, show: Callable[[Length], str], outer: str, place: int) -> str:
    """One operand in words and figures, in brackets wherever it would be read as something else without them."""
    later = place > 0 and outer in _BINDS
    if isinstance(operand, Fraction):
        text = _number_text(operand)
        # 3 / 1/2 would be read as a sixth of nine.
        return f"({text})" if later and (operand < 0 or (outer == "/" and operand.denominator > 1)) else text
    if not isinstance(operand, Dimension) or not (operand.operation or operand.name):
        return f"({show(operand)})" if later and operand.mm < 0 else show(operand)
    if operand.name:
        # A minus between name and figures would be read as taking away.
        return f"{operand.name} ({show(operand)})" if operand.mm < 0 else f"{operand.name} {show(operand)}"
    inner = operand._spell(show)
    return f"({inner})" if (later and inner.startswith("-")) or _needs_brackets(operand.operation, outer, place) else inner


#: The finest fraction that is read as one; a finer number is told by its decimals.
_FINEST_SHARE: Final = 64


def _number_text(number: Fraction) -> str:
    """How many times: ``3``, ``2/5``, and ``0.2496`` where the fraction would tell a maker nothing."""
    return str(number) if number.denominator <= _FINEST_SHARE else decimal_text(number, 4)


def _needs_brackets(inner: str, outer: str, place: int) -> bool:
    """Whether working ``inner`` needs brackets at ``place`` of ``outer``.

    As in a - (b - c) and a x (b + c), not in a - b - c. A phrase needs them inside anything but a name.
    """
    if "=" in (inner, outer):
        return False
    if inner not in _BINDS:
        return True
    binds, around = _BINDS[inner], _BINDS.get(outer, 0)
    return binds < around or (binds == around and place > 0 and outer in "-/")


def written(value: Length, name: str, origin: str) -> Dimension:
    """``value`` as somebody wrote it: ``name`` in words, ``origin`` the file and line, or the option, it stands in."""
    return Dimension(value, name, origin=origin)


def default(value: Length, name: str, rule: str, source: str) -> Dimension:
    """``value`` that nobody wrote: the default that ``source`` gives for ``rule``, called ``name`` and said to be a default."""
    return Dimension(value, name, rule=rule, source=source, origin="default")


def smallest(*of: Length) -> Dimension:
    """The smallest of some lengths; the working names them all. BadInput where none is given."""
    return _pick("smallest of", min, of)


def largest(*of: Length) -> Dimension:
    """The largest of some lengths; the working names them all. BadInput where none is given."""
    return _pick("largest of", max, of)


def _pick(phrase: str, pick: Callable[[tuple[Length, ...]], Length], of: tuple[Length, ...]) -> Dimension:
    if not of:
        raise BadInput(f"there is no {phrase.removesuffix(' of')} of no lengths; give at least one length.")
    return Dimension(pick(of), operation=phrase, operands=of)


def require_positive(what: str, *sizes: Length | None) -> None:
    """Raise BadInput for the first of ``sizes`` that is zero or negative: ``cutter: reach is 0 mm; it must be more than 0``.

    ``what`` names the thing the sizes are of, '' where their own names say it. A size that is None isn't asked.
    """
    for size in sizes:
        if size is not None and size.mm <= 0:
            name = (size.name if isinstance(size, Dimension) else "") or "a size"
            raise BadSize(
                "{what}{name} is {size}; it must be more than 0.", what=f"{what}: " if what else "", name=name, size=size
            )


def rounded_down(length: Length, graduation: Graduation) -> Dimension:
    """``length`` down to the last mark of the maker's rule, which ``graduation`` is."""
    return Dimension(graduation.down(length), operation="down to the rule:", operands=(length,))


def rounded_up(length: Length, graduation: Graduation) -> Dimension:
    """``length`` up to the first mark of the maker's rule, ``graduation``, that is not short of it."""
    return Dimension(graduation.up(length), operation="up to the rule:", operands=(length,))


def rounded_to(length: Length, graduation: Graduation) -> Dimension:
    """``length`` to the nearest mark of the maker's rule, which ``graduation`` is."""
    return Dimension(graduation.round(length), operation="nearest on the rule:", operands=(length,))


def chosen(value: Length, because: str, *after: Length) -> Dimension:
    """``value`` as a rule picked or searched for it: ``because`` says how, ``after`` what it looked at, in order."""
    return Dimension(value, operation=because, operands=after)


def dimension(value: Length) -> Dimension:
    """``value`` as a dimension, so that arithmetic with it is recorded; a dimension is given back as it is."""
    return value if isinstance(value, Dimension) else Dimension(value)


#: No length, as a dimension: where a span begins at the reference.
NOTHING = Dimension(mm(0))
