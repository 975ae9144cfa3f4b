"""The job that ``joinlay start`` writes: a small chest that checks clean as it stands, with a word on every line."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.cli import words
from joinlay.cli.terminal import say
from joinlay.documents.writing import write_whole
from joinlay.errors import BadInput
from joinlay.lengths import Unit

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["starter_job", "write_starter"]


#: What differs between a job in inches and one in millimetres, by the name it has in the text below.
_FIGURES: Final = {
    Unit.INCH: {
        "stiff": "1400000 psi", "weak": "600000 psi",
        "units": "inch", "smallest": "1/32 in", "rules": "1/16 in, 1/32 in or 1/64 in", "paper": "letter",
        "bare": '"18 3/8", "2 ft 2 5/8 in", "465 mm", or 18.375',
        "thick": "3/4", "thick_is": "3/4", "half": "1/2", "half_is": "0.483", "thin": "1/4", "thin_is": "0.225",
        "sheet": '["96", "48"]', "kerf": "1/8", "cutter1": '{ diameter = "1/8", reach = "3/8" }',
        "cutter2": '{ diameter = "3/16", reach = "5/8" }', "cutter3": '{ diameter = "1/4", reach = "1" }',
        "wide": "18 3/8", "high": "4 1/4", "higher": "6", "deep": "18", "clear": "1/32", "gap": "1/2", "offset": "3/8",
        "taper": "1/32", "low": "3 1/2", "nothing": "0", "tip": "1/64", "groove": "1/4", "load": "25 lb", "floor": "15 lb/ft2", "stray": "1/64",
        "spare": "30", "spare_wide": "20", "board": "6 ft", "board_wide": "7", "knot": "20", "knot_end": "23",
        "currency": "USD", "slides": "24", "sheet_price": "62.50", "wood_price": "11", "wood_by": "a board foot",
        "case_wide": "24", "case_high": "32", "case_deep": "20", "room_wide": "26", "room_high": "34", "room_deep": "21", "free": "1/2",
        "stile": "1 3/4", "rail": "1", "top_rail": "1 1/2", "bottom_rail": "2", "overhang": "1/8",
        "over": "3/4", "plinth": "3", "toe": "3 1/2", "wall": "1 1/2", "foot": "2 1/2", "behind": "1/8", "panel": "3/4", "panel_is": "0.709",
        "swell": "1/16", "step": "1/2", "mullion": "1", "knob": "1 1/4", "stands_out": "1 1/4", "hole": "3/8", "edging": "1/32",
        "dry": "70 F", "damp": "75 F", "bench": "68 F", "feet": "1",
        "fence_high": "4", "fence_far": "8", "longest": "48", "farthest": "36", "saw_high": "3", "saw_far": "24", "blade": "2 1/2",
        "stacks": '["1/4", "3/8", "1/2", "3/4"]', "base": "6", "guide_far": "6", "stops": '["3/8", "1/2", "5/8", "3/4", "1"]',
        "corner_cutter": '{ slot = "3/16", length = "1/4", deepest = "5/8", diameter = "1 1/2" }',
        "steps": '["3/16", "1/4", "3/8", "1/2"]', "widths": '["1/2", "5/8", "3/4", "1"]',
        "trial": '{ distance = "2 7/8", cutter = "1/4" }', "pass": "1/4", "narrow": "3", "short": "12", "smallest_part": "4", "tallest": "24",
        "block": "2", "block_is": "1 3/4", "bottom_up": "7/8", "top_down": "1/2", "stop": "3/16", "sag": "1/8", "groove_up": "7/16",
        "bank_wide": "20 1/2", "bay": "8", "shelf_load": "20 lb", "lipping": "1 1/2",
        "hole_deep": "1/2", "knob_down": "2", "eye": "62", "away": "40", "grow": "1/16", "dot": "1/4", "dot_step": "1/32",
        "mark_in": "3", "mark_down": "1 1/2", "nail": "2",
        "in_wide": "20 3/8", "in_deep": "17 1/4", "edge": "1", "down": "3/4", "up": "7/8",
        "chisel": "1/8", "clamp": "40", "small_clamp": "12",
    },
    Unit.MM: {
        "stiff": "9.5 GPa", "weak": "4 GPa",
        "units": "mm", "smallest": "0.5 mm", "rules": "1 mm, 0.5 mm or 0.1 mm", "paper": "a4",
        "bare": '"465", "46.5 cm", "18 3/8 in", or 465.5',
        "thick": "20", "thick_is": "20", "half": "12", "half_is": "11.8", "thin": "6", "thin_is": "5.8",
        "sheet": '["2440", "1220"]', "kerf": "3", "cutter1": '{ diameter = "4", reach = "14" }',
        "cutter2": '{ diameter = "5", reach = "16" }', "cutter3": '{ diameter = "6", reach = "25" }',
        "wide": "465", "high": "110", "higher": "150", "deep": "450", "clear": "0.8", "gap": "12", "offset": "10",
        "taper": "0.8", "low": "90", "nothing": "0", "tip": "0.4", "groove": "6", "load": "12 kg", "floor": "718 Pa", "stray": "0.4",
        "spare": "760", "spare_wide": "500", "board": "180 cm", "board_wide": "180", "knot": "500", "knot_end": "580",
        "currency": "EUR", "slides": "22", "sheet_price": "48.50", "wood_price": "2400", "wood_by": "a cubic metre",
        "case_wide": "600", "case_high": "800", "case_deep": "500", "room_wide": "660", "room_high": "860", "room_deep": "520", "free": "12",
        "stile": "45", "rail": "25", "top_rail": "40", "bottom_rail": "50", "overhang": "3",
        "over": "19", "plinth": "75", "toe": "90", "wall": "40", "foot": "65", "behind": "3", "panel": "18", "panel_is": "17.6",
        "swell": "1.5", "step": "12", "mullion": "25", "knob": "32", "stands_out": "32", "hole": "10", "edging": "0.8",
        "dry": "21 C", "damp": "24 C", "bench": "20 C", "feet": "25",
        "fence_high": "100", "fence_far": "200", "longest": "1200", "farthest": "900", "saw_high": "75", "saw_far": "600", "blade": "65",
        "stacks": '["6", "10", "12", "18"]', "base": "150", "guide_far": "150", "stops": '["10", "12", "15", "20", "25"]',
        "corner_cutter": '{ slot = "5", length = "6", deepest = "16", diameter = "38" }',
        "steps": '["5", "6", "8", "9", "10"]', "widths": '["12", "16", "20", "25"]',
        "trial": '{ distance = "72", cutter = "6" }', "pass": "6.5", "narrow": "75", "short": "300", "smallest_part": "100", "tallest": "600",
        "block": "50", "block_is": "45", "bottom_up": "22", "top_down": "16", "stop": "5", "sag": "3", "groove_up": "11",
        "bank_wide": "510", "bay": "200", "shelf_load": "10 kg", "lipping": "38",
        "hole_deep": "12", "knob_down": "50", "eye": "1600", "away": "1000", "grow": "1.5", "dot": "6", "dot_step": "0.5",
        "mark_in": "75", "mark_down": "40", "nail": "50",
        "in_wide": "515", "in_deep": "430", "edge": "25", "down": "20", "up": "22",
        "chisel": "3", "clamp": "1000", "small_clamp": "300",
    },
}  # fmt: skip

#: Everything down to what differs between a job of openings and one of a whole piece.
_HEAD: Final = """\
# A job for joinlay. Change it, then run:  joinlay check FILE
# A line that begins with # is a note. Lines like  #taper = ...  show what else may be written: take the # away to use one.
# A length is written in quotes as you would say it: {bare}.
# A bare number is in the units below.

title = "Seed chest"
#maker = "your name"        # stands at the foot of every sheet, as does the date
#date = "2026-11-28"
units = "{units}"               # inch or mm
smallest = "{smallest}"         # the smallest mark on your rule: {rules}
#shop = "my.shop.toml"      # tools and practice that many jobs share, in a file beside this one (or file = in [shop])

[paper]
size = "{paper}"             # letter, legal, tabloid, a4, a3 .. a0, any size such as "610 x 914 mm", or "24 in roll"
#border = "1/4 in"          # what your printer leaves blank all round
#printer = "shop laser"     # once you have measured it: joinlay scale-sheet

# ---- what it is made of: a name of your own after the dot; measure the thickness with callipers ----

[stock.cherry]
kind = "solid"              # plywood, mdf, hardboard, particleboard or solid
species = "black cherry"
cut = "quarter"             # quarter (quarter-sawn, which moves less with the seasons) or flat (flat-sawn)
nominal = "{thick}"             # what it is sold as
measured = "{thick_is}"            # what it is: every joint goes by this

[stock.birch-half]
kind = "plywood"
nominal = "{half}"
measured = "{half_is}"
sheet = {sheet}      # length and width of a whole sheet, length with the grain

[stock.birch-thin]
kind = "plywood"
nominal = "{thin}"
measured = "{thin_is}"
plies = 5                  # counted at its edge; thin plywood is taken as three-ply, the weakest, where this is left out
#stiffness = ["{stiff}", "{weak}"]   # along and across the face grain, where its data sheet says

# ---- what your shop owns; what you leave out is a modest shop's ----

#[shop]
#kerf = "{kerf}"
#cutters = [
#  {cutter1},
#  {cutter2},
#  {cutter3},
#]
#corner-cutters = [   # that make both halves of a drawer's corner: slot, tongue's length and deepest slot on a test piece
#  {corner_cutter},
#]
#tenons = [
#  {{ thickness = "4 mm" }},
#  {{ thickness = "6 mm" }},
#]
#glue = {{ open-time = "8 min", clamp-time = "1 h" }}   # as the bottle says
#clamps = [{{ length = "{clamp}", count = 8 }}, {{ length = "{small_clamp}", count = 12 }}]   # between the open jaws; all you have
# machines: write what differs from yours, or = false where you have none; the first of first-choice that takes the part is used;
# offset is from the edge of the base to the near wall of a trial cut
#router-table = {{ fence-height = "{fence_high}", fence-reach = "{fence_far}", longest = "{longest}", farthest = "{farthest}" }}
#table-saw = {{ fence-height = "{saw_high}", fence-reach = "{saw_far}", blade-height = "{blade}", dado-set = {stacks} }}
#hand-router = {{ base = "{base}", guide-reach = "{guide_far}", offset = {trial} }}
#mortiser = false            # then mortises are routed where a cutter reaches, else cut by hand
#mortise-depths = {stops}   # where it has stops: every depth they can be set to
#mortise-heights = {steps}   # where its fence has steps: from the fence to the mortise's middle
#mortise-widths = {widths}   # where it gives certain widths only, along the mortise
#drill = true
#hand-tools = {{ narrowest-chisel = "{chisel}" }}   # they cut what no machine does; false where nothing is cut by hand
#first-choice = ["router table", "table saw", "hand-held router"]
#limits = {{ deepest-pass = "{pass}", narrow = "{narrow}", short = "{short}", smallest = "{smallest_part}", tallest-on-end = "{tallest}" }}

# ---- your own figures for the trade rules; 'joinlay why' shows which were used ----

#[practice]
#tip-gap = "{tip}"
#groove-depth = "{groove}"
#tenon-share = "1/3"
#cutting-tolerance = "{stray}"    # how far any cut of yours may stray, either way; all that may stand here: joinlay keys practice

# ---- the air it is made in and will stand in, for solid wood; where a meter tells, write {{ moisture = "8 %" }} ----

#[seasons]
#driest = {{ temperature = "{dry}", humidity = "30 %" }}
#dampest = {{ temperature = "{damp}", humidity = "65 %" }}
#workshop = {{ temperature = "{bench}", humidity = "45 %" }}

{off}[use]
{off}stands = "{stands}"            # "free", "anchored" to the wall, or "built in"
#feet-set-back = "{feet}"        # front feet behind the foremost point of the piece
#finish = "oil"              # or "wax", or "film" (lacquer, varnish, paint), which takes room from every gap

# ---- what every drawer has, unless it says otherwise ----

[drawers]
front = "cherry"
sides = "birch-half"
back = "birch-half"
bottom = "birch-thin"
front-joint = "loose tenon"         # or "half-blind locking rabbet", "rabbet" (pinned), "shaped lock", "nailed butt" (rough)
back-joint = "locking rabbet"       # or "dado", "shaped lock" (by a corner cutter), "nailed butt"
back-height = "full"                # or "on bottom": the back stands on the bottom
#inside = {{ width = "{wide}", height = "{low}", depth = "{deep}", room = "{gap}" }}   # what must lie in it, in place of other sizes
#front-grain = "upright"            # fronts of plywood only; or "from side to side"
#fit = "plane"                      # made full to its opening, to be planed until it goes; the clearances are what is left then
#front-size = {{ width = "{wide}", height = "{high}" }}   # or the size of its finished front
#bottom-reach = "back"              # how far a bottom goes under a back that stands on it; or "ends of the sides"
#bottom-bar = "cherry"              # a grooved bar of that down the middle of a wide bottom; or "none"
#side-clearance = "{clear}"         # drawer to opening, each side
#top-clearance = "{clear}"
#bottom-clearance = "{clear}"       # drawer front to the rail below it
#taper = "{taper}"                  # how much narrower the drawer is at its back, in all
#set-back = "{nothing}"                    # drawer front behind the face of the frame
#back-gap = "{gap}"                # drawer to the case back
#back-set-in = "{gap}"             # end of the sides to the dado that takes the back
#mortise-slack = "{swell}"          # how much longer all mortises but the first are cut, to let the parts be aligned
#groove-offset = "{offset}"            # bottom edge of the sides to the groove
#tenon = "4 mm"                    # thickness of the loose tenons; the rules choose unless told
#load = "{load}"                  # what lies in each drawer, or on its bottom: "{floor}"

"""

#: Openings that are there already.
_OPENINGS: Final = """\
# ---- the drawers, from the top down; the opening is measured inside the face frame ----

[[drawer]]
opening = {{ width = "{wide}", height = "{high}", depth = "{deep}" }}     # depth: face of the frame to what is behind
count = 2                           # so many alike

[[drawer]]
#name = "bottom"                   # numbers run from the top unless you name it
opening = {{ width = "{wide}", height = "{higher}", depth = "{deep}" }}
#side-height = "{low}"              # sides lower than the opening lets through

# ---- runners and stops for them, if you want any: measure the case behind its frame ----

#[runners]
#stock = "cherry"                   # bearers, guides, kickers and stops; a hard wood takes wax
#sides = "birch-half"               # what the case is made of: a stock above; one of solid wood moves
#inside-width = "{in_wide}"
#inside-depth = "{in_deep}"           # back of the frame to the case back
#left-edge = "{edge}"                  # how far the openings stand in from its sides; in the middle unless told
#right-edge = "{edge}"
#rail = "{rail}"                  # height of the rails between openings
#below = "{down}"                # lowest opening down to the case bottom; leave it out where there is none near
#above = "{up}"                # topmost opening up to the case top; likewise

"""

#: A whole piece to be made.
_PIECE: Final = """\
# ---- the piece: its case, the frame on its front, and what the drawers run on ----

[stock.birch-thick]
kind = "plywood"
nominal = "{panel}"
measured = "{panel_is}"
sheet = {sheet}

[stock.cherry-thick]             # a knob's blank is thicker than the knob
kind = "solid"
species = "black cherry"
nominal = "{block}"
measured = "{block_is}"

[case]
width = "{case_wide}"               # over all, frame and overhang with it
height = "{case_high}"
depth = "{case_deep}"
#room = {{ width = "{room_wide}", height = "{room_high}", depth = "{room_deep}", beside = "{free}" }}     # or the room for it
sides = "birch-thick"
#panels = "birch-thick"             # bottom and top, where they differ from the sides
back = "birch-thin"
#bottom-offset = "{bottom_up}"           # underside of the case to its bottom panel
#top-offset = "{top_down}"              # top of the case to its top panel
#dadoes = "stopped"                 # or "through", to the front, which the frame covers
#back-inset = "{over}"              # the back set forward in grooves; in rabbets unless told
#back-held = "screws"               # or "nails", as in rabbets unless told; in grooves nothing else unless told

[frame]
stock = "cherry"
stile = "{stile}"
rail = "{rail}"                   # between drawers
top-rail = "{top_rail}"
bottom-rail = "{bottom_rail}"
#mullion = "{stile}"               # the upright between two banks
#overhang = "{overhang}"               # frame proud of the case, each side
#scribe = "{nothing}"                 # built in: how much wider each stile is, to be planed to the wall; "{over}" is usual
#overhang-top = "{nothing}"           # the same at the top; flush under a [top]
#overhang-bottom = "{nothing}"        # and at the bottom; flush on a [base]

#[top]                              # a top over it all; the sizes above are without it
#stock = "cherry"
#front = "{over}"                    # how far it overhangs in front, and at each end
#ends = "{over}"
#back = "{nothing}"

#[base]                             # what it stands on; the sizes above are without it; with kind = "cut recess" the
                                    # case's sides go down to the floor, notched for toes, {toe} high unless told
#stock = "cherry"
#height = "{plinth}"
#kind = "plinth"                    # or "feet", with foot = "{foot}" for how wide each is; or "recess" for toes, with toe = "{plinth}"
                                    # a foot may be bored for a leveller: leveller = {{ hole = "{hole}", depth = "{hole_deep}" }}
#set-back = "{behind}"               # within the frame's face and the sides; less than 0: proud of them

#[filler]                           # built in between walls: strips that close the gaps, in place of scribe above
#stock = "cherry"
#left = "{wall}"                     # from the stile to the wall; and at the right
#right = "{wall}"
#scribe = "{over}"                   # how much wider each is, to be planed to the wall

[runners]
stock = "cherry"                 # bearers, guides, kickers and stops; a hard wood takes wax
#guides = "cherry"                   # where they are of another stock
#kickers = "cherry"
#nail-length = "{nail}"            # of those that hold the bearers, where you have others; or screw-length, in solid sides

#[stops]
#kind = "none"                      # or "blocks"
#stock = "cherry"                   # the runners' unless told
#thickness = "{stop}"              # height of a block
#sag = "{sag}"                    # how far a loaded bottom sags, so that a block is cleared

# ---- the drawers, from the top down; a second [[bank]] stands beside the first ----

[[bank]]
drawers = 4
graduation = "arithmetic"           # or "equal"; or "geometric" with ratio = "1.15" for step; or heights = ["4", "fill", "6"]
step = "{step}"                   # how much deeper each is than the one above
#rows = [2, 1, 1]                   # instead of drawers: two side by side over two long ones; "open" is an open bay
#  rows = [{{ drawers = 3 }}, {{ widths = ["{bay}", "fill"] }}, {{ shares = [1, 2] }}]     # alike; one by one; by shares
#  rows = [{{ drawers = 2, between = "double bearer" }}, 1, 1]     # no partition between the two, but one bearer under both
#  rows = [{{ drawers = 2, left-open = [2] }}, 1, 1]     # three places side by side, the middle one without a drawer
#  rows = [{{ open = true, fixed = 1, stock = "birch-thick", load = "{shelf_load}", lipping = {{ stock = "cherry", height = "{lipping}" }} }}, 2]
#  rows = [{{ loose = 1, stock = "birch-thick", load = "{shelf_load}" }}, 2, 1]     # a shelf in dadoes, and one on pins
#mullion = "{mullion}"                      # width of the uprights between drawers side by side
#remainder = "bottom"               # a series lands on your rule by itself; or give this one all that is over
top-clearance = "{swell}"            # room for solid fronts to swell
groove-offset = "{groove_up}"            # room for a loaded bottom to sag in, above the stop blocks
#rail = "{rail}"                  # between these drawers
#width = "{bank_wide}"                 # of the openings, where banks differ; what is left unless told

[pulls]
stock = "cherry-thick"
diameter = "{knob}"
projection = "{stands_out}"
hole = "{hole}"
#depth = "{hole_deep}"                 # of the hole; right through unless told
#count = 2                          # one or two on a front; by its width unless told
#share = "1/5"                      # where two stand: so much of the width from each end
#from-top = "{knob_down}"             # top edge of a deep front to its knobs; in the middle unless told
#growth = "step"                    # or "alike"; or "eye", to look alike from where you stand, and then
#  eye = {{ height = "{eye}", distance = "{away}" }}     # above the floor, and before the piece
#step = "{grow}"                  # how much larger each is than the one above
#dot = {{ diameter = "{dot}", step = "{dot_step}", alike = 1 }}     # inlaid in each; 1: all but the uppermost are larger
#profile = "knob.svg"               # a drawing of your own to turn them to, with its size in mm or inches

#[[banding]]
#part = "drawer side"
#stock = "birch edging"              # or a solid stock, for lippings thicker than banding
#thickness = "{edging}"
#edges = ["top edge"]

#[[outline]]                        # a drawing of your own on a part, at true size
#file = "mark.svg"
#on = "drawer 1 back"
#purpose = "maker's mark"
#face = "outside face"
#at = {{ end = "left end", from-end = "{mark_in}", edge = "top edge", from-edge = "{mark_down}", to = "middle" }}
#turn = 90                          # degrees anticlockwise
#mirrored = true
#depth = 0                          # only marked; leave it out for right through

"""

#: What is the same again.
_TAIL: Final = """\
# ---- how sheets are sawn, what you have already, and what things cost: 'joinlay list' goes by it ----

#[sawing]
#first-cut = "rip"                  # rip, crosscut or either: which way a whole sheet is cut first
#fronts-together = true             # the fronts of a bank from one column, so that the grain runs down it
#any-grain = ["drawer bottom"]      # parts that may be turned on the sheet

#[[offcut]]                         # as many as you have; they are used before whole sheets
#stock = "birch-half"
#length = "{spare}"
#width = "{spare_wide}"
#grain = "length"                   # which way it runs: length or width; left out, only parts of any grain are cut from it

#[[board]]                          # boards of solid wood
#stock = "cherry"
#length = "{board}"
#width = "{board_wide}"
#defects = [["{knot}", "{knot_end}"]]           # stretches to cut out, from one end

#[prices]
#currency = "{currency}"
#slides = {slides}                        # a pair of metal slides for one of these drawers, to compare
#of = {{ birch-half = {sheet_price}, cherry = {wood_price} }}     # a sheet; {wood_by} of solid wood
"""


def starter_job(unit: Unit, *, is_piece: bool = False) -> str:
    """The text of a job in ``unit`` that checks clean as it stands: of drawers for openings, or of a whole piece."""
    parts = (_HEAD, _PIECE if is_piece else _OPENINGS, _TAIL)
    stands = {"off": "", "stands": "anchored"} if is_piece else {"off": "#", "stands": "free"}
    return "".join(part.format(**_FIGURES[unit], **stands) for part in parts)


def write_starter(path: Path, *, is_metric: bool, is_piece: bool, is_forced: bool) -> None:
    """Write the starter job to ``path``. Raises BadInput where there is something already and it isn't ``is_forced``, or it can't be written."""
    if not is_forced and _is_there(path):
        raise BadInput(words.is_there(path))
    write_whole(path, starter_job(Unit.MM if is_metric else Unit.INCH, is_piece=is_piece).encode())
    say(words.started(path))


def _is_there(path: Path) -> bool:
    """True for anything of that name, a broken link too."""
    try:
        path.lstat()
    except OSError:
        return False
    return True
