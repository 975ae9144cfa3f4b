"""The maker's practice: every default of the trade rules, as one table with rule and source.

Each row is a setting that a job or shop file may change by its name. Lengths have an inch and a metric value, since a
maker sets 1/32 in or 0.8 mm, not 0.79375 mm; which one serves is the job's unit.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Final, NoReturn

from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.lengths import Dimension, Fraction, Length, Unit, default, fraction_in, read_length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["LENGTH_RULES", "RATIO_RULES", "LengthRule", "Practice", "RatioRule", "usual_practice"]

_HOUSE: Final = "our own choice"
_PRACTICE: Final = "common practice"


@dataclass(frozen=True, slots=True)
class LengthRule:
    """A default length: its name, its inch and metric values as written, the rule and source, and what it means."""

    name: str
    inch: str
    metric: str
    rule: str
    source: str
    meaning: str


@dataclass(frozen=True, slots=True)
class RatioRule:
    """A default ratio or count: its name, value as written, the rule and source, and what it means."""

    name: str
    value: str
    rule: str
    source: str
    meaning: str


#: Every length a rule falls back on. A job's ``[practice]`` may set any of them by name.
LENGTH_RULES: Final[tuple[LengthRule, ...]] = (
    LengthRule("tenon wall", "3 mm", "3", "LT-2", _HOUSE, "least wood left beside a mortise"),
    LengthRule("mortise floor", "1/8", "3", "LT-3", _PRACTICE, "least wood left behind a mortise in a face"),
    LengthRule("glue room", "1/16", "1.6", "LT-5", "US Army EN0533", "space past each end of a loose tenon"),
    LengthRule("end margin in plywood", "5/16", "8", "LT-7", _HOUSE, "end of the joint line to the nearest mortise"),
    LengthRule("end margin in solid wood", "1/2", "12", "LT-7", _HOUSE, "end of the joint line to the nearest mortise"),
    LengthRule("tenon spacing in a case", "6", "150", "LT-9", _HOUSE, "largest centre spacing of loose tenons in a case"),
    LengthRule("keep-out clearance", "1/8", "3", "LT-11", _HOUSE, "mortise to the nearest other cut"),
    LengthRule("mortise slack", "0", "0", "LT-12", _PRACTICE, "how much wider the mortises after the first are"),
    LengthRule("rail shoulder", "3/16", "5", "FF-2", _PRACTICE, "edge of a face frame's rail to the tenon, each side"),
    LengthRule("tip gap", "1/64", "0.4", "LR-3", _PRACTICE, "space past the tip of a tongue"),
    LengthRule("least lip", "1/8", "3", "LR-6", _PRACTICE, "thinnest lip of a half-blind locking rabbet"),
    LengthRule("tongue fit", "0", "0", "LR-8", "Elek 2020: 0 to 0.1 mm", "how much thinner a tongue is than its dado"),
    LengthRule("panel fit", "0", "0", "DA-1", _PRACTICE, "how much wider a dado or groove is than its panel"),
    LengthRule("stopped dado margin", "1/2", "12", "DA-4", "Foster fig. 195", "end of a stopped dado to the edge that shows"),
    LengthRule("rabbet allowance", "1/32", "0.8", "RA-1", _PRACTICE, "how much wider a back rabbet is than the back"),
    LengthRule("groove depth", "1/4", "6", "GR-1", "Noyes p. 191", "depth of a bottom groove at most"),
    LengthRule("groove offset", "3/8", "10", "GR-1", _PRACTICE, "bottom edge of the side to the groove"),
    LengthRule("least groove offset", "1/4", "6", "GR-1", _PRACTICE, "bottom edge to the groove at least"),
    LengthRule("bottom panel clearance", "1/16", "1.6", "GR-2", _PRACTICE, "bottom panel smaller than its grooves, in all"),
    LengthRule("side clearance", "1/32", "0.8", "DR-1", _PRACTICE, "drawer to opening at each side"),
    LengthRule("top clearance", "1/32", "0.8", "DR-1", _PRACTICE, "drawer to opening at the top"),
    LengthRule("bottom clearance of the front", "1/32", "0.8", "DR-1", _PRACTICE, "drawer front to the rail below it"),
    LengthRule("taper", "0", "0", "DR-4", _PRACTICE, "how much narrower the drawer is at its back, in all; less than 0: wider"),
    LengthRule("back gap", "1/2", "12", "DR-5", "an 1880s chest of drawers list", "drawer to the case back"),
    LengthRule("front set-back", "0", "0", "DR-5", _PRACTICE, "drawer front behind the face of the frame"),
    LengthRule("back set-in", "1/2", "12", "DJ-2", "Foster", "end of the side to the dado that takes the back"),
    LengthRule(
        "back nail spacing",
        "6",
        "150",
        "RA-1",
        "NAVEDTRA 14119; MIL-DTL-45449",
        "largest spacing of the nails or screws that hold the case's back",
    ),
    LengthRule("back screw", "1/8", "3.5", "SC-2", _PRACTICE, "shank of the screws that hold the case's back, where they do"),
    LengthRule(
        "corner nail spacing", "2", "50", "DJ-1, DJ-4", _HOUSE, "largest spacing of the nails or pins in a drawer's corner"
    ),
    LengthRule("bottom screw", "1/8", "3.5", "DJ-3", _PRACTICE, "shank of the screws that hold a bottom under the back"),
    LengthRule("bottom screw spacing", "6", "150", "DJ-3", _HOUSE, "largest spacing of the screws that hold a bottom"),
    LengthRule("bottom bar lift", "1/8", "3", "BO-1", _HOUSE, "lower edge of a bar under a bottom above the sides' bottom edge"),
    LengthRule("bottom bar rise", "3/8", "10", "BO-1", _HOUSE, "upper edge of a bar under a bottom above the bottom"),
    LengthRule("top overhang", "3/4", "19", "TO-1", _PRACTICE, "top beyond the piece in front and at its ends"),
    LengthRule("top screw", "3/16", "4.5", "TO-1", _PRACTICE, "shank of the screws that hold the top from below"),
    LengthRule("top screw spacing", "12", "300", "TO-1", _HOUSE, "largest spacing of the screws that hold the top"),
    LengthRule(
        "plinth set-back", "1/8", "3", "BA-1", _PRACTICE, "base within the frame's face and the piece's sides; less than 0: proud"
    ),
    LengthRule("filler scribe", "3/4", "19", "SC-1", _PRACTICE, "filler wider than its gap, to be planed to the wall"),
    LengthRule("filler screw", "3/16", "4.5", "SC-1", _PRACTICE, "shank of the screws that hold a filler through the stile"),
    LengthRule("filler screw spacing", "12", "300", "SC-1", _HOUSE, "from one screw of a filler to the next, at most"),
    LengthRule("narrowest filler", "1/2", "12", "SC-1", _HOUSE, "narrowest gap that a filler with its screws is worth"),
    LengthRule("leveller out", "1/2", "12", "BA-3", _HOUSE, "levellers in the feet: floor to the feet, half-way screwed out"),
    LengthRule("toe height", "3 1/2", "90", "BA-2", _PRACTICE, "recess for toes: floor to the underside of the frame"),
    LengthRule("toe depth", "3", "75", "BA-2", _PRACTICE, "recess for toes: front of the base behind the frame's face"),
    LengthRule("rough length allowance", "1/2", "12", "CL-1", "Joyce", "rough length over finished length, solid wood"),
    LengthRule("rough width allowance", "1/4", "6", "CL-1", "Joyce", "rough width over finished width, solid wood"),
    LengthRule("edge trim", "1/4", "6", "CL-2", _HOUSE, "taken off each edge of a whole sheet before it is used"),
    LengthRule("shortest offcut", "12", "300", "CL-2", _HOUSE, "shortest offcut worth keeping, with the grain"),
    LengthRule("narrowest offcut", "4", "100", "CL-2", _HOUSE, "narrowest offcut worth keeping, across the grain"),
    LengthRule("stile width", "1 1/2", "38", "FF-1", _PRACTICE, "width of a face frame's stiles"),
    LengthRule("mullion width", "1 1/2", "38", "FF-1", _PRACTICE, "width of a face frame's upright between two banks"),
    LengthRule("top rail height", "2", "50", "FF-1", _PRACTICE, "height of a face frame's top rail"),
    LengthRule("bottom rail height", "2", "50", "FF-1", _PRACTICE, "height of a face frame's bottom rail"),
    LengthRule("rail height", "1", "25", "FF-1", _PRACTICE, "height of the rails between drawers"),
    LengthRule("thinnest frame", "3/4", "18", "FF-1", "AWS 2009", "least thickness of a face frame"),
    LengthRule("frame overhang", "0", "0", "FF-3", _PRACTICE, "how far a face frame stands proud of the case's sides"),
    LengthRule("case dado margin", "1/4", "6", "CA-1", _HOUSE, "wood beyond the dadoes for case top and bottom, at least"),
    LengthRule("bearer margin", "1/4", "6", "RN-1", _PRACTICE, "bearer wider than guide and drawer side"),
    LengthRule("bearer back gap", "1/8", "3", "RN-1", _PRACTICE, "bearer short of the back of a solid case"),
    LengthRule("kicker lift", "1/32", "0.8", "RN-3", _PRACTICE, "kicker's underside above the rail's"),
    LengthRule("thinnest strip", "1/8", "3", "RN-3", _HOUSE, "thinnest kicker, packing or strip worth making"),
    LengthRule("bearer screw", "3/16", "4.5", "RN-4", _PRACTICE, "shank of the screws that hold a bearer to a solid side"),
    LengthRule("bearer screw spacing", "10", "250", "RN-4", _HOUSE, "largest spacing of the screws along a bearer"),
    LengthRule(
        "runner nail spacing", "6", "150", "RN-4", "NAVEDTRA 14119; MIL-DTL-45449", "largest spacing of the nails along a runner"
    ),
    LengthRule("screw from the end", "1 1/2", "40", "RN-4", _PRACTICE, "end of a bearer to its first screw"),
    LengthRule("stop thickness", "3/16", "5", "ST-3", _PRACTICE, "height of a stop block"),
    LengthRule("stop clearance", "1/32", "0.8", "ST-3", _PRACTICE, "stop block under the sagging bottom"),
    LengthRule("stop overlap", "3/32", "2", "ST-2", _HOUSE, "how far a stop block reaches up behind the front, at least"),
    LengthRule("stop width", "1 1/2", "40", "ST-1", _PRACTICE, "width of a stop block, from side to side"),
    LengthRule("stop seat", "1/2", "12", "ST-4", _HOUSE, "wood under a stop block, from front to back, at least"),
    LengthRule("stop notch margin", "1/8", "3", "ST-1", _HOUSE, "notch in a drawer back beyond the stop block it passes"),
    LengthRule("banding worth counting", "1/32", "0.8", "EB-2", _PRACTICE, "banding thinner than this may be ignored"),
    LengthRule(
        "thickest banding", "1/8", "3", "EB-4", _HOUSE, "what is glued on edges thicker than this is lipping, sawn for it"
    ),
    LengthRule("lipping proud", "1/64", "0.5", "EB-4", _PRACTICE, "lipping wider than its edge at each face, to be planed flush"),
    LengthRule("banding trim", "1", "25", "EB-3", _PRACTICE, "banding left over at each end, to be trimmed"),
    LengthRule("two pulls from", "24", "600", "PU-1", _PRACTICE, "drawer front width from which it takes two pulls"),
    LengthRule("knob growth", "1/16", "1.5", "PU-2", _PRACTICE, "how much wider each knob is than the one above"),
    LengthRule("shelf clearance", "1/16", "1.5", "SH-2", _PRACTICE, "loose shelf to the wood at each of its ends"),
    LengthRule("pin hole", "1/4", "5", "SH-2", _PRACTICE, "diameter of a hole for a shelf pin"),
    LengthRule("pin hole depth", "3/8", "9", "SH-2", _PRACTICE, "depth of a hole for a shelf pin"),
    LengthRule("pin spacing", "1 1/4", "32", "SH-2", _PRACTICE, "from one pin hole to the next above it"),
    LengthRule("pin line", "1 1/2", "37", "SH-2", _PRACTICE, "edge of the wood to the line of pin holes, front and back"),
    LengthRule("cutting tolerance", "1/64", "0.4", "CK-1", _HOUSE, "how far any cut may stray, either way"),
    LengthRule(
        "finish film", "0.1 mm", "0.1", "PT-11", _HOUSE, "what a finish that builds a film puts on each face, in three coats"
    ),
    LengthRule(
        "edge joint allowance",
        "1/8",
        "3",
        "PN-1",
        _PRACTICE,
        "board wider than finished for each edge that is planed for a joint",
    ),
    LengthRule(
        "joint from a cut", "1/2", "12", "PN-1", _PRACTICE, "edge joint of a wide part to grooves, tenons, holes and edges"
    ),
    LengthRule("widest board", "6", "150", "PN-1", _PRACTICE, "widest board that a solid part is glued up from, edge to edge"),
    LengthRule("clamp spacing", "8", "200", "PT-4", _PRACTICE, "from clamp to clamp along a joint, at most"),
    LengthRule("caul thickness", "3/4", "18", "PT-4", _PRACTICE, "each of the two cauls between a clamp's jaws and the work"),
    LengthRule("turning allowance", "1/4", "6", "PU-2", _PRACTICE, "knob blank thicker than the finished knob"),
    LengthRule("dot depth", "1/4", "6", "PU-2", _PRACTICE, "how deep a dot is let into its knob"),
    LengthRule("parting allowance", "1/4", "6", "PU-2", _PRACTICE, "wood between and beyond knobs turned from one blank, each"),
)

#: Every ratio or count a rule falls back on. A job's ``[practice]`` may set any of them by name.
RATIO_RULES: Final[tuple[RatioRule, ...]] = (
    RatioRule("tenon share", "1/3", "LT-1", "Fairham; Noyes no. 42", "tenon thickness in the thinner part, at most"),
    RatioRule("tenon wall share", "1/4", "LT-2", _HOUSE, "wood beside a mortise, in the thickness"),
    RatioRule("mortise floor share", "1/4", "LT-3", _PRACTICE, "wood behind a mortise, in the thickness"),
    RatioRule("tenon depth", "4", "LT-4", "Moxon's rule, from memory", "mortise depth in an end, in tenon thicknesses, 3 to 5"),
    RatioRule("tenon width", "3", "LT-6", _HOUSE, "tenon width in tenon thicknesses"),
    RatioRule("widest tenon", "6", "LT-6", "Wheeler 1899", "tenon width in tenon thicknesses, at most"),
    RatioRule("wood between mortises", "2", "LT-8", _HOUSE, "in tenon thicknesses, at least"),
    RatioRule("tenon spacing in a drawer", "12", "LT-9", _HOUSE, "largest centre spacing in tenon thicknesses"),
    RatioRule("least dado share", "1/4", "LR-4, DA-2", _PRACTICE, "dado depth in the thickness it is cut in, at least"),
    RatioRule("largest dado share", "1/2", "LR-4, DA-2", "Foster's drawings", "dado depth in the thickness, at most"),
    RatioRule("dado share", "1/3", "DA-2", "Griffith pl. 27", "usual dado depth in the thickness it is cut in"),
    RatioRule("short grain share", "1/3", "LR-4", "common practice; Wheeler", "wood beyond the dado, in the side's thickness"),
    RatioRule("rabbet share", "1/2", "RA-1", _PRACTICE, "back rabbet depth in the side's thickness"),
    RatioRule("largest rabbet share", "2/3", "RA-1", _PRACTICE, "back rabbet depth in the side's thickness, at most"),
    RatioRule("front rabbet share", "2/3", "DJ-1", "Noyes; Griffith", "depth of a plain rabbet in the front's thickness"),
    RatioRule("groove share", "1/2", "GR-1", "Noyes; Mission Furniture", "bottom groove depth in the side's thickness, at most"),
    RatioRule("solid wood waste", "1/5", "CL-2", _HOUSE, "solid wood bought over the rough sizes, as a share of them"),
    RatioRule("spare tenons", "1/10", "LT-5", _HOUSE, "loose tenons made over the count, as a share of it"),
    RatioRule("pull share", "1/4", "PU-1", _PRACTICE, "ends of the front to its two pulls, as a share of its width"),
    RatioRule(
        "clamp force", "4.5", "PT-4", "common practice, from memory", "what one bar clamp presses with by hand, in kN (1000 lb)"
    ),
    RatioRule("seconds to glue a surface", "30", "PT-3", _HOUSE, "to spread glue on one joint, in seconds"),
    RatioRule("seconds to set a clamp", "30", "PT-3", _HOUSE, "to set a clamp, or drive a nail or screw, in seconds"),
    RatioRule(
        "minutes to set up a glue-up",
        "10",
        "PT-9",
        _HOUSE,
        "to lay all ready before, and to wipe off and measure after, in minutes",
    ),
    RatioRule("hours at the bench", "6", "PT-9", _HOUSE, "in a day, for the timetable of the glue-ups"),
)


class Practice:
    """The maker's own figures for every rule. ``lengths`` and ``ratios`` are keyed by the names of the two tables."""

    __slots__ = ("_lengths", "_ratios")

    def __init__(self, lengths: Mapping[str, Dimension], ratios: Mapping[str, Fraction]) -> None:
        """Take complete tables; use ``usual_practice`` to fill what the maker did not write."""
        self._lengths, self._ratios = dict(lengths), dict(ratios)

    def length(self, name: str) -> Dimension:
        """The figure of the length rule ``name``; BadInput, with near names, where there is no such rule."""
        if name not in self._lengths:
            _unknown(name, tuple(self._lengths))
        return self._lengths[name]

    def ratio(self, name: str) -> Fraction:
        """The figure of the ratio rule ``name``; BadInput, with near names, where there is no such rule."""
        if name not in self._ratios:
            _unknown(name, tuple(self._ratios))
        return self._ratios[name]

    def __eq__(self, other: object) -> bool:
        """The same figures throughout."""
        if not isinstance(other, Practice):
            return NotImplemented
        return self._lengths == other._lengths and self._ratios == other._ratios

    def __hash__(self) -> int:
        """By value, as it compares."""
        return hash((frozenset(self._lengths.items()), frozenset(self._ratios.items())))

    def but(self, lengths: Mapping[str, Dimension] | None = None, ratios: Mapping[str, Fraction] | None = None) -> Practice:
        """The same practice with some ``lengths`` and ``ratios`` changed, by name. BadInput for a name that is no rule."""
        for name in lengths or {}:
            self.length(name)
        for name in ratios or {}:
            self.ratio(name)
        return Practice({**self._lengths, **(lengths or {})}, {**self._ratios, **(ratios or {})})


def _unknown(name: str, known: tuple[str, ...]) -> NoReturn:
    near = nearest_names(name, known)
    raise BadInput(f"there is no rule called {quoted(name)}" + (f"; nearest: {', '.join(near)}." if near else "."))


@cache
def usual_practice(unit: Unit) -> Practice:
    """The defaults of the trade rules in ``unit``, each length a Dimension that says it is a default."""
    lengths = {row.name: default(_length_of(row, unit), row.name, row.rule, row.source) for row in LENGTH_RULES}
    return Practice(lengths, {row.name: fraction_in(row.value) for row in RATIO_RULES})


def _length_of(row: LengthRule, unit: Unit) -> Length:
    return read_length(row.inch if unit is Unit.INCH else row.metric, unit)
