"""What the drawers are called: numbered from the top down, or by the names the maker gives them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from joinlay.jobs.parts.given import Spelled

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = ["drawer_names"]


def drawer_names(tables: Sequence[object]) -> list[tuple[str, ...]]:
    """The names of the drawers that each ``[[drawer]]`` table stands for: ``drawer 1``, ``drawer top``.

    A table without a name takes the next numbers, counting every drawer above it. A table with a name and a count numbers its drawers:
    ``top 1``, ``top 2``, or goes on from a name that is a number. A count or name that is wrong is passed over here; it is reported elsewhere.
    """
    names: list[tuple[str, ...]] = []
    above = 0
    for table in tables:
        keys: Mapping[str, Any] = table if isinstance(table, dict) else {}
        count = _whole(keys.get("count"))
        names.append(tuple(f"drawer {name}" for name in _called(_text(keys.get("name")), count, above)))
        above += count
    return names


def _called(name: str, count: int, above: int) -> list[str]:
    name = name[7:] if name.casefold().startswith("drawer ") else name
    if not name:
        return [str(above + n) for n in range(1, count + 1)]
    if count == 1:
        return [name]
    if name.isascii() and name.isdigit() and len(name) < 6:
        return [str(int(name) + n) for n in range(count)]
    return [f"{name} {n}" for n in range(1, count + 1)]


def _text(given: object) -> str:
    value = given.value if isinstance(given, Spelled) else ""
    return " ".join(value.split()) if isinstance(value, str) else ""


def _whole(given: object) -> int:
    value = given.value if isinstance(given, Spelled) else 1
    return value if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 100 else 1
