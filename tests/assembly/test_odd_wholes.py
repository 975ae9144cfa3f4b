"""Odd whole pieces, a row for each thing a piece may have: told at its line, refused with what would do, or put together,
drawers drawn out.
"""

from __future__ import annotations

import pytest

from joinlay.checks.solids import check_assembly
from joinlay.errors import Troubles
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job

PIECE = """units = "inch"
[stock.ply]
nominal = "3/4"
measured = "0.709"
[stock.half]
nominal = "1/2"
measured = "0.472"
[stock.thin]
nominal = "1/4"
measured = "0.205"
[stock.oak]
kind = "solid"
species = "red oak"
nominal = "3/4"
measured = "3/4"
[case]
{case}
sides = "{sides}"
back = "thin"
{more_case}
[frame]
stock = "oak"
{frame}
[runners]
stock = "oak"
[drawers]
front = "oak"
sides = "half"
bottom = "thin"
{drawers}
[[bank]]
{bank}
{more}
"""

SIZES = 'width = "24"\nheight = "30"\ndepth = "18"'
GOOD = {"case": SIZES, "sides": "ply", "more_case": "", "frame": "", "drawers": "", "bank": "drawers = 3", "more": ""}
MADE, REFUSED, TOLD = "made", "refused", "told"

#: What is asked for, what comes of it, and words of the answer where it isn't made.
ODD = [
    # RO-1: rows.
    ({"bank": "rows = [6, 1]"}, REFUSED, 'Set width = "25 1/2" under [case]'),
    ({"bank": "rows = [6, 1]", "case": SIZES.replace("24", "25 1/2")}, MADE, ""),
    ({"bank": "rows = [20, 1]"}, REFUSED, ""),
    ({"bank": 'rows = [{ widths = ["2", "fill"] }, 1]'}, REFUSED, ""),
    ({"bank": 'rows = [{ widths = ["19", "19"] }, 1]'}, REFUSED, ""),
    ({"bank": "rows = [{ shares = [1, 8] }, 2]"}, REFUSED, "The bearers leave"),
    ({"bank": "rows = [2, 3, 2]"}, MADE, ""),
    ({"bank": "rows = [0, 1]"}, TOLD, ""),
    # RO-1, SH-1: places of a row left open.
    ({"bank": "rows = [{ drawers = 2, left-open = [2] }, 1]"}, MADE, ""),
    ({"bank": 'rows = [1, { widths = ["5", "fill", "6"], left-open = [1, 3], fixed = 1 }]'}, MADE, ""),
    ({"bank": "rows = [1, { shares = [1, 1, 2], left-open = [1, 2], loose = 1 }, 2]", "sides": "oak"}, MADE, ""),
    ({"bank": 'rows = [{ widths = ["7", "fill"], left-open = [1, 2] }, 1]'}, MADE, ""),
    ({"bank": "rows = [{ drawers = 19, left-open = [20] }, 1]"}, REFUSED, ""),
    ({"bank": 'rows = [{ widths = ["1/4", "19"], left-open = [1] }, 1]'}, REFUSED, ""),
    ({"bank": "rows = [{ drawers = 5, left-open = [2] }, 1]"}, REFUSED, 'Set width = "25 1/2" under [case]'),
    ({"bank": "rows = [{ drawers = 5, left-open = [2] }, 1]", "case": SIZES.replace("24", "25 1/2")}, MADE, ""),
    ({"bank": "rows = [{ drawers = 2, left-open = [4] }, 1]"}, TOLD, ""),
    ({"bank": "rows = [{ drawers = 2, left-open = [1, 1] }, 1]"}, TOLD, ""),
    ({"bank": 'rows = [{ drawers = 2, left-open = [1], between = "double bearer" }, 1]'}, TOLD, ""),
    ({"bank": 'rows = [{ drawers = 2, left-open = [1], between = "partition" }, 1]'}, MADE, ""),
    ({"bank": "rows = [{ drawers = 2, left-open = [1], open = true }, 1]"}, TOLD, ""),
    # SH-1, SH-2: bays and shelves.
    ({"bank": 'rows = ["open", "open", 1]'}, MADE, ""),
    ({"bank": 'rows = ["open", 1]\nheights = ["1/2", "fill"]'}, MADE, ""),
    ({"bank": "rows = [{ fixed = 20 }, 1]"}, REFUSED, ""),
    ({"bank": "rows = [{ loose = 9 }]"}, MADE, ""),
    ({"bank": 'rows = [{ fixed = 1, lipping = { stock = "oak", height = "1/2" } }, 1]'}, REFUSED, ""),
    ({"bank": 'rows = [{ fixed = 2, lipping = { stock = "oak", height = "8" } }, 1]'}, REFUSED, ""),
    # TO-1: a top.
    ({"more": '[top]\nstock = "thin"\nfront = "0"\nends = "0"'}, MADE, ""),
    ({"more": '[top]\nstock = "oak"\nfront = "9"\nends = "12"\nback = "4"'}, MADE, ""),
    ({"more": '[top]\nstock = "oak"', "frame": 'overhang-top = "1/2"'}, REFUSED, "overhang-top"),
    # BA-1 to BA-3: a base.
    ({"more": '[base]\nstock = "oak"\nheight = "1/4"'}, MADE, ""),
    ({"more": '[base]\nstock = "oak"\nheight = "4"\nset-back = "3"'}, REFUSED, ""),
    ({"more": '[base]\nstock = "oak"\nheight = "4"\nkind = "feet"\nfoot = "13"'}, REFUSED, ""),
    ({"more": '[base]\nstock = "oak"\nheight = "3 1/2"\nkind = "recess"\ntoe = "20"'}, REFUSED, ""),
    ({"more": '[base]\nstock = "oak"\nheight = "3"\nfoot = "3"'}, TOLD, ""),
    # SC-1, SC-2: built in, a back set forward.
    ({"frame": 'scribe = "4"'}, MADE, ""),
    ({"more_case": 'back-inset = "17"'}, REFUSED, ""),
    ({"more_case": 'back-inset = "1/16"'}, REFUSED, ""),
    ({"more_case": 'back-inset = "3"'}, MADE, ""),
    # DJ-1 to DJ-4: corners.
    ({"drawers": 'front-joint = "rabbet"\nback-joint = "dado"\nback-height = "on bottom"\nback-set-in = "4"'}, MADE, ""),
    ({"drawers": 'back-joint = "dado"\nback-set-in = "17"'}, REFUSED, ""),
    (
        {
            "drawers": 'front-joint = "nailed butt"\nback-joint = "nailed butt"\nback-height = "on '
            'bottom"\nbottom-reach = "ends of the sides"'
        },
        MADE,
        "",
    ),
    ({"drawers": 'bottom-reach = "ends of the sides"'}, REFUSED, ""),
    # BO-1: a bar down the middle of each bottom.
    ({"drawers": 'bottom-bar = "oak"'}, MADE, ""),
    ({"drawers": 'bottom-bar = "ply"\nback-height = "on bottom"\nbottom-reach = "ends of the sides"\nfit = "plane"'}, MADE, ""),
    ({"drawers": 'bottom-bar = "half"\nback-height = "on bottom"'}, REFUSED, 'bottom-bar = "ply"'),
    ({"drawers": 'bottom-bar = "oak"\ntaper = "1/16"\nback-height = "on bottom"'}, MADE, ""),
    ({"drawers": 'bottom-bar = "oke"'}, TOLD, ""),
    # HF-1: fitted by hand.
    ({"drawers": 'fit = "plane"\nside-clearance = "0"'}, MADE, ""),
    ({"drawers": 'fit = "plane"\nside-clearance = "1/2"'}, MADE, ""),
    # CO-1: from the inside out.
    ({"case": "", "bank": 'drawers = 3\ninside = { width = "30", height = "2", depth = "22" }'}, MADE, ""),
    ({"case": "", "bank": 'rows = [3, 1]\ninside = { width = "2", height = "1/8", depth = "4" }'}, REFUSED, ""),
    ({"case": SIZES, "bank": 'drawers = 3\ninside = { width = "30" }'}, TOLD, ""),
    # PN-1: wide solid sides.
    ({"case": 'width = "40"\nheight = "30"\ndepth = "28"', "sides": "oak"}, MADE, ""),
    # CL-2: grain.
    ({"drawers": 'front-grain = "upright"'}, REFUSED, "side to side"),
]


@pytest.mark.parametrize(("asked", "comes", "says"), ODD, ids=[str(n) for n in range(len(ODD))])
def test_an_odd_piece_is_told_refused_or_goes_together(asked, comes, says):
    text = PIECE.format(**(GOOD | asked))
    if comes == TOLD:
        with pytest.raises(Troubles, match=r"^odd\.toml:\d+: "):
            read_job(text, "odd.toml")
        return
    made = plan(read_job(text, "odd.toml"))
    refused = [finding for finding in made.findings if finding.harm is Harm.REFUSE]
    if refused:
        said = " ".join(f"{one.sentence(made.rule.text)} {one.way_out(made.rule.text)}" for one in refused)
        assert comes == REFUSED, said
        assert all(one.way_out(made.rule.text) for one in refused)
        assert says in said
        return
    assert comes == MADE
    standing = [board for assembly in made.others for board in assembly.boards]
    assert check_assembly(standing, made.drawers) == ()
    assert made.order.findings == ()
