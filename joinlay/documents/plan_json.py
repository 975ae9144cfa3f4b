"""The plan as JSON: everything worked out, for programs to read. Lengths are exact, in millimetres, and as the maker reads them."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from joinlay import __version__
from joinlay.boards import Axis
from joinlay.boards.outline import Ring
from joinlay.checks.assumed import assumed
from joinlay.checks.tipping import standing, tipping_loads
from joinlay.checks.weights import stocks_by_name, weigh
from joinlay.lengths import Dimension, Fraction, Length
from joinlay.shop import LENGTH_RULES, RATIO_RULES
from joinlay.stock import Sheet

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from joinlay.boards import Board, Cut, Place, Span, Taper
    from joinlay.boards.outline import Outline, PlacedOutline
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["InWords", "conditions_of", "json_text", "plan_json", "weights_of"]

#: A table no longer than this stands on one line.
_WIDE: Final = 120


def plan_json(plan: Plan, files: Iterable[str] = ()) -> bytes:
    """``plan`` as UTF-8 JSON, the same bytes each time. ``files`` are the names of the files that were made with it."""
    said = InWords(plan.rule)
    tree = {
        "made_by": f"joinlay {__version__}",
        "title": plan.title,
        "job": plan.file,
        "unit": plan.unit.value,
        "rule": said.length(plan.rule.division),
        "paper": plan.paper,
        "files": sorted(files),
        "conditions": conditions_of(plan),
        "weights": weights_of(plan),
        "findings": [said.finding(finding) for finding in plan.findings],
        "stock": {name: said.stock(stock) for name, stock in plan.stocks.items()},
        "shop": said.shop(plan.shop),
        "drawers": [said.drawer(drawer) for drawer in plan.drawers],
        "others": [said.assembly(assembly) for assembly in plan.others],
        "outlines": [said.outline(placed) for placed in plan.outlines],
        "knob_profile": None if plan.profile is None else _drawn(plan.profile),
        "dimensions": {name: said.dimension(size) for name, size in plan.dimensions().items()},
    }
    return json_text(tree).encode()


def conditions_of(plan: Plan) -> list[dict[str, str]]:
    """What the findings were judged by: each figure's name, what it is in words, and the file and line it is written in, '' for the usual one."""
    found = assumed(plan.conditions, plan.shop.practice, plan.rule, is_whole=bool(plan.others))
    return [{"name": one.name, "said": one.said, "written": one.written} for one in found]


def weights_of(plan: Plan) -> dict[str, Any]:
    """What each drawer weighs in kilograms, empty and loaded; and what the piece weighs and what tips it, null where there is no case."""
    rounded = [(one.drawer, round(one.empty, 2), round(one.loaded, 2)) for one in weigh(plan.drawers, plan.conditions)]
    told: dict[str, Any] = {
        "drawers": [{"name": name, "empty_kg": empty, "loaded_kg": loaded} for name, empty, loaded in rounded]
    }
    is_whole = plan.drawers and any(board.place is not None for assembly in plan.others for board in assembly.boards)
    if not is_whole:
        return {**told, "piece": None}
    piece = standing(plan.others, plan.drawers, stocks_by_name(plan.stocks.values()), plan.conditions)
    loads = {str(out): round(load, 2) for out, load in tipping_loads(piece).items()}
    return {**told, "piece": {"empty_kg": round(piece.kilograms, 2), "tipping_load_kg_by_drawers_out": loads}}


def json_text(tree: object) -> str:
    """``tree`` as JSON with short tables on one line, and a newline at the end."""
    return _lay_out(tree, "") + "\n"


def _lay_out(value: object, indent: str, before: int = 0) -> str:
    """``value``, on one line where that has room behind the ``before`` letters that stand on it already."""
    flat = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, (dict, list)) or not value or len(indent) + before + len(flat) <= _WIDE:
        return flat
    deeper = indent + " "
    if isinstance(value, dict):
        keys = {f"{json.dumps(key, ensure_ascii=False)}: ": inner for key, inner in value.items()}
        rows = [f"{key}{_lay_out(inner, deeper, len(key))}" for key, inner in keys.items()]
    else:
        rows = [_lay_out(inner, deeper) for inner in value]
    opening, closing = "{}" if isinstance(value, dict) else "[]"
    return f"{opening}\n{deeper}" + f",\n{deeper}".join(rows) + f"\n{indent}{closing}"


@dataclass(frozen=True, slots=True)
class InWords:
    """Turns lengths, findings and boards into what JSON can hold; ``rule`` is the maker's, which the text of a length is set on."""

    rule: Graduation

    def length(self, length: Length) -> dict[str, Any]:
        """``mm`` as a decimal number, ``exact`` as a fraction of millimetres, ``text`` as the maker reads it."""
        exact = length.mm
        return {"mm": float(exact), "exact": f"{exact.numerator}/{exact.denominator}", "text": self.rule.text(length)}

    def maybe(self, length: Length | None) -> dict[str, Any] | None:
        """A length, or null where there is none."""
        return None if length is None else self.length(length)

    def tree(self, tree: Mapping[str, Any]) -> dict[str, Any]:
        """``tree`` with each length in it said as ``length`` says it; what else it holds stays."""
        return {key: self._leaf(value) for key, value in tree.items()}

    def _leaf(self, value: object) -> object:
        if isinstance(value, Length):
            return self.length(value)
        if isinstance(value, dict):
            return self.tree(value)
        return [self._leaf(one) for one in value] if isinstance(value, list) else value

    def dimension(self, dimension: Dimension) -> dict[str, Any]:
        """A length with where it comes from: its rule and source, where it was written, or how it was worked out."""
        told = {"rule": dimension.rule, "source": dimension.source, "origin": dimension.origin}
        working = dimension.expression(self.rule.text)
        return {**self.length(dimension), **{key: text for key, text in {**told, "working": working}.items() if text}}

    def finding(self, finding: Finding) -> dict[str, Any]:
        """A finding, its sentences set on the maker's rule and its numbers beside them."""
        numbers = {key: self.length(n) if isinstance(n, Length) else n for key, n in finding.numbers.items()}
        return {
            "kind": finding.kind,
            "harm": finding.harm.name.lower(),
            "where": finding.where,
            "what": finding.sentence(self.rule.text),
            "remedy": finding.way_out(self.rule.text),
            "rule": finding.rule,
            "source": finding.source,
            "numbers": numbers,
        }

    def stock(self, stock: Stock) -> dict[str, Any]:
        """A stock: its kind, thicknesses, and sheet size or species."""
        thick = {"nominal": self.length(stock.nominal), "measured": self.maybe(stock.measured)}
        if isinstance(stock, Sheet):
            return {
                "kind": stock.kind,
                **thick,
                "sheet": {"length": self.length(stock.length), "width": self.length(stock.width)},
            }
        return {"kind": "solid", "species": stock.species, "cut": stock.cut, **thick}

    def shop(self, shop: Shop) -> dict[str, Any]:
        """The tools, and the figures of trade rules that the maker set otherwise than usual."""
        own = {row.name: shop.practice.length(row.name) for row in LENGTH_RULES}
        lengths = {name: self.length(figure) for name, figure in own.items() if figure.origin != "default"}
        figures = {row.name: (shop.practice.ratio(row.name), Fraction(row.value)) for row in RATIO_RULES}
        ratios = {name: str(figure) for name, (figure, usual) in figures.items() if figure != usual}
        return {
            "kerf": self.length(shop.saw.kerf),
            "cutters": [{"diameter": self.length(one.diameter), "reach": self.length(one.reach)} for one in shop.cutters],
            "tenons": [
                {
                    "thickness": self.length(one.thickness),
                    "width": self.maybe(one.width),
                    "length": self.maybe(one.length),
                    "reach": self.maybe(one.reach),
                }
                for one in shop.tenons
            ],
            "practice": {**lengths, **ratios},
        }

    def drawer(self, drawer: Drawer) -> dict[str, Any]:
        """A drawer: its opening, sizes, clearances, joints and boards."""
        opening, make = drawer.opening, drawer.make
        return {
            "name": drawer.name,
            "opening": self._lengths(width=opening.width, height=opening.height, depth=opening.depth),
            "front_joint": make.front_joint.value,
            "back_joint": make.back_joint.value,
            "back_height": make.back_height.value,
            **self._lengths(
                length=drawer.length,
                inside_width=drawer.inside_width,
                side_clearance=drawer.side_clearance,
                top_clearance=drawer.top_clearance,
                bottom_clearance=drawer.bottom_clearance,
                taper=drawer.taper,
            ),
            "boards": [self.board(board) for board in drawer.assembly.boards],
        }

    def assembly(self, assembly: Assembly) -> dict[str, Any]:
        """Any other assembly: its name and boards."""
        return {"name": assembly.name, "boards": [self.board(board) for board in assembly.boards]}

    def board(self, board: Board) -> dict[str, Any]:
        """A board: its sizes, what its surfaces are called, every cut in it, and its place in the piece."""
        datum = board.datum
        return {
            "name": board.name,
            "part": board.part,
            "stock": board.stock,
            **self._lengths(length=board.length, width=board.width, thickness=board.thickness),
            "reference": {"face": datum.face, "edge": datum.edge, "end": datum.end},
            "far": {"face": datum.far_face, "edge": datum.far_edge, "end": datum.far_end},
            "round_edges": board.has_round_edges,
            "cuts": [self.cut(cut) for cut in board.cuts],
            "tapers": [self._taper(taper) for taper in board.tapers],
            "place": None if board.place is None else _place(board.place),
        }

    def cut(self, cut: Cut) -> dict[str, Any]:
        """A cut: what it is, where the cutter enters, and its extent from the board's reference end, edge and face."""
        return {
            "name": cut.name,
            "kind": cut.kind.value,
            "shape": cut.shape.value,
            "surface": cut.surface.value,
            "mate": cut.mate,
            "joint": cut.joint,
            **{axis.value: self._span(cut.span(axis)) for axis in Axis},
        }

    def outline(self, placed: PlacedOutline) -> dict[str, Any]:
        """A maker's own outline: its purpose, which part and face it is on, from where to where, and its lines as they are seen there."""
        spans = {"along": self._span(placed.along), "across": self._span(placed.across)}
        into = None if placed.into is None else self._span(placed.into)
        about = {"purpose": placed.purpose, "part": placed.board.name, "face": placed.board.datum.word(placed.face)}
        return {**about, **spans, "into": into, **_drawn(placed.outline)}

    def _span(self, span: Span) -> dict[str, Any]:
        return {"from": self.length(span.start), "to": self.length(span.stop)}

    def _taper(self, taper: Taper) -> dict[str, Any]:
        return {"surface": taper.surface.value, "near": self.length(taper.near), "far": self.length(taper.far)}

    def _lengths(self, **lengths: Length) -> Mapping[str, Any]:
        return {name: self.length(length) for name, length in lengths.items()}


def _drawn(outline: Outline) -> dict[str, Any]:
    """The lines of an outline in mm from the lower left corner of their box, which are thousandths and so exact as they stand."""
    lines = [
        {"circle": [*map(float, line.centre), float(line.radius)]}
        if isinstance(line, Ring)
        else {"closed": line.is_closed, "points": [list(map(float, point)) for point in line.points]}
        for line in outline.lines
    ]
    return {"file": outline.file, "lines": lines}


def _place(place: Place) -> dict[str, Any]:
    """Where the corner of the three references stands, and which way the board runs, in exact millimetres to the right, back and up."""
    vectors = {"origin": place.origin, "along": place.along, "across": place.across, "into": place.into}
    return {name: [f"{n.numerator}/{n.denominator}" for n in vector] for name, vector in vectors.items()}
