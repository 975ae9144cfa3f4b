"""Pages on what the checks find in a planned piece."""

from __future__ import annotations

from typing import Final

from joinlay.checks.help.page import MACHINES, HelpPage

__all__ = ["ON_CHECKS"]

#: In the order a maker might read them.
ON_CHECKS: Final = (
    HelpPage(
        "clash",
        "Two cuts in one board meet, or leave so little wood between them that it breaks out. A groove through a "
        "mortise is the usual one: the tenon loses its glue and the groove its wall.",
        "Every cut is taken as a box in the board, from its reference face, edge and end, and each is measured "
        "against each other in three dimensions. Grooves, dadoes and rabbets may run into one another at a corner; "
        "mortises, holes and screw slots may meet nothing.",
        (
            "Move the groove up or down: groove-offset. The mortises find their own places beside it.",
            "Move the pulls: share and from-top under [pulls].",
            "Thicker stock.",
        ),
        "CK-7, LT-8, LT-11, DA-3",
    ),
    HelpPage(
        "thin wood",
        "A cut leaves too little wood behind it or beside it: a mortise floor that bulges when the tenon is driven, a"
        " wall that splits. Or a panel is far thicker than the wood that is to hold it, most often a slip or a wrong unit.",
        "The finished board is measured: behind a mortise at least 1/8 in (3 mm) and a quarter of the thickness, "
        "beside it 3 mm and a quarter, behind a groove or dado a quarter of the thickness. The figures are settings "
        "of yours.",
        (
            "A thinner tenon or a shallower cut.",
            "Thicker stock.",
            "Move the cut away from the edge.",
            "A thinner panel.",
        ),
        "CK-7, LT-2, LT-3, DA-2",
    ),
    HelpPage(
        "cutter reach",
        "A cut is deeper or narrower than the cutters you listed can make it.",
        "Each cut is held against the diameter and reach of every cutter, and each mortise against your tenon stock too.",
        (
            "A longer cutter of that width.",
            "The saw, where the cut runs right through.",
            "A shallower cut, where the joint allows it.",
        ),
        "CK-7, MS-8",
        MACHINES,
    ),
    HelpPage(
        "side play",
        "How much the drawer can move from side to side in its opening, shut and on its way out. Too little binds in "
        "a damp week; too much lets it wander and cock.",
        "Both side clearances, and what the taper gives as the drawer comes out. It follows from the planned sizes "
        "alone; 'fit' adds what your cuts stray.",
        (
            "1/32 in (0.8 mm) a side for a drawer fitted by hand, 1/16 in where you won't plane it.",
            "Less taper, if it plays too much far out.",
        ),
        "DR-1, DR-4, DR-6",
    ),
    HelpPage(
        "droop",
        "How far the front sinks when the drawer is pulled out. Its back rises until it meets the kicker, or the rail"
        " where there is none.",
        "The gap between the side's top and the kicker, times the length that is out over the length still in. Judged"
        " two-thirds out.",
        (
            "A kicker close above the sides; 1/32 in is usual.",
            "Sides as high as the opening lets them be.",
            "A longer drawer.",
        ),
        "RN-3, RN-5",
    ),
    HelpPage(
        "fit",
        "The clearance is there on paper, but stock that is thicker than you think and cuts that stray may use it up:"
        " the drawer binds.",
        "At the frame, between the guides and under the kicker each size the clearance hangs on has its plus-or-minus: your "
        "cutting tolerance, and the spread of the stock "
        "(0.1 mm once measured, the standard's limits where not: EN 315 or PS 1). Added up they give the worst; the "
        "root of the sum of their squares gives the likely.",
        (
            "Measure the stock with callipers and write it in the job.",
            "Cut a test piece for each setting and measure it.",
            "More side clearance, or leave the sides to be planed to fit.",
        ),
        "CK-1",
        job='cutting-tolerance = "1/64" in [practice]; side-clearance and top-clearance in [drawers] or at a '
        'drawer; measured = "0.472" at a stock.',
    ),
    HelpPage(
        "racking",
        "Pulled by one of two knobs, a drawer turns a little; opposite corners bite on the guides, and the farther it"
        " is out the harder they bite. Past a point no pull moves it.",
        "It jams when the length still inside is less than twice the friction times the distance from the middle to "
        "the knob. Friction is taken as 0.2 waxed, 0.35 planed, 0.5 rough. The drawer's width by itself doesn't "
        "matter, only where it is pulled.",
        (
            "Wax the runners and the sides.",
            "One pull in the middle, or two nearer the middle.",
            "A longer drawer with guides to match: full-depth guides help more than tight ones.",
            "Pull with both hands.",
        ),
        "CK-2, PU-1",
    ),
    HelpPage(
        "bottom sag",
        "The loaded bottom bows down. If it bows more than the room under it, it rubs on the rail or catches on the stop blocks.",
        "The bottom is reckoned as a thin plate resting on its edges under an even load, 15 lb/ft2 (718 Pa) unless "
        "you give another, with the softest its kind may be, then doubled for years under load. Plywood is "
        "stiffer along its face grain than across it: thin plywood (to 7 mm, 1/4 in) is taken as three-ply, a "
        "tenth as stiff across, unless "
        "its plies are given; other sheets are taken as stiff both ways alike, unless you give both figures of "
        "their data sheet. A panel that "
        "bows much more"
        " than its thickness is held back by its edges and sags less than said. Beside a bar each half is such a plate, and "
        "the bar a beam on front and back that takes what lies nearer to it than to the other edges.",
        (
            "A thicker or stiffer sheet.",
            "A grooved bar down its middle (bottom-bar), which halves its span.",
            "The groove higher up (groove-offset), which makes more room under it.",
        ),
        "CK-3, ST-3, BO-1",
        job='load = "30 lb" (in each drawer) or "15 lb/ft2" (on its bottom), in [drawers] or at one drawer; '
        'plies = 5 at a stock of plywood; stiffness = ["9 GPa", "4 GPa"] at any sheet, along and across its face grain.',
    ),
    HelpPage(
        "shelf sag",
        "A loaded shelf bows down in its middle. The eye takes 0.02 in a foot for straight (1 in 600); more is "
        "seen, long before a shelf breaks.",
        "The shelf is a beam on its two ends under an even load, 15 lb/ft2 (718 Pa) on each unless you give "
        "another, and what it sags at "
        "once is doubled for years under load. A dado is not counted on to hold its ends against turning. A "
        "lipping stiffens it by its own "
        "depth, as if it lay beside the shelf: glued on, it does somewhat better. Solid wood is taken at its species' average.",
        (
            "A shorter span: an upright in the middle; books want one every 36 in at most.",
            "A thicker shelf: twice as thick bends an eighth as far.",
            "A lipping on its front edge, higher than the shelf is thick.",
        ),
        "SH-1, SH-2",
        job='rows = [2, { fixed = 1, lipping = { stock = "oak", height = "1 1/2" }, load = "40 lb" }] in a '
        "[[bank]]; load is on each shelf.",
    ),
    HelpPage(
        "panel sag",
        "A panel that drawers side by side ride on, with double bearers between them and nothing under those, bows down in its "
        "middle under the loaded drawers.",
        "The panel is a beam on its two ends, and on any partition that holds it up. The rail glued to its front edge stiffens "
        "it by its own height; each double bearer has half of the loaded drawer at either side of it, and what the panel sags at "
        "once is doubled for years. The eye takes 0.02 in a foot for straight (1 in 600); more shows in fronts that lean to the "
        "middle of the row.",
        (
            "Partitions between the drawers in place of double bearers: each stands on the panel and hangs in what is over it.",
            "A thicker panel: twice as thick bends an eighth as far.",
            "A higher rail under the row, which carries with its panel.",
        ),
        "CK-3, RO-1",
        job='rows = [{ drawers = 3, between = "partition" }, 1] in a [[bank]]; panels in [case]; load in [drawers].',
    ),
    HelpPage(
        "wood movement",
        "Solid wood swells across its grain in damp air and shrinks in dry. A front or side may bind at the top of "
        "its opening; a solid bottom may split, push the back off or fall out of its groove.",
        "Moisture follows from the temperature and humidity of your driest and dampest day and of the workshop "
        "(a heated house unless told), and "
        "the change from the species' coefficient, flat-sawn or quarter-sawn. The coefficients are averages of a "
        "species and serve from 6 to 14 % moisture; one board may differ by a fifth. Finish slows the change and "
        "doesn't stop it.",
        (
            "Quarter-sawn wood, or a species that moves less.",
            "Lower parts or more clearance at the top, above all when making in a dry month.",
            "A solid bottom with its grain from side to side, glued at the front only, slotted screws at the back.",
            "Plywood.",
        ),
        "CK-6, GR-2, RN-4",
        job='a table [seasons] with driest, dampest and workshop, each such as { temperature = "70 F", humidity = "30 %" }, '
        'or { moisture = "7 %" } by a meter; cut = "quarter" at a stock.',
    ),
    HelpPage(
        "case movement",
        "A solid case gets deeper in damp air and shallower in dry. What is glued to it across the grain, or "
        "doesn't move with it, splits it or "
        "comes loose; a back that shrinks falls out of its rabbets.",
        "As for 'wood movement', over the whole depth of the sides, the panels let into them and the width of "
        "the back. Parts that are glued to "
        "each other may differ by 3 mm (1/8 in) in the year, a limit of our own. Bearer slots are measured "
        "against the sides' movement between "
        "their screws.",
        (
            "Top and bottom of the same wood as the sides, sawn the same way.",
            "Glue in the front few inches of a dado only; leave the rest dry.",
            "A back of plywood, or of lapped boards with gaps between.",
            "Bearers glued at the front only, screwed through slots behind.",
        ),
        "CK-6, RN-4, CA-1, RA-1",
        job="a table [seasons] as for wood movement; panels and back in [case].",
    ),
    HelpPage(
        "glue time",
        "A glue-up takes longer, from the first stroke of glue to the last clamp, than the glue stays open. "
        "What skins over before it is closed "
        "holds badly, and a joint that grips half-way home is the end of the parts.",
        "Half a minute for each surface that gets glue and half a minute for each clamp, against the time on "
        "your bottle; 8 minutes where the job "
        "doesn't say. What can be split between two steps of the order is split first. Warm, dry air and "
        "thirsty wood shorten the time; the "
        "bottle comes before all of this.",
        (
            "A glue that is open longer.",
            "A second pair of hands: one spreads, one clamps.",
            "A dry run with the clamps set to width, and the glue in a flat dish with a brush.",
        ),
        "PT-3, PT-9",
        job='glue = { open-time = "8 min", clamp-time = "1 h" } under [shop]; seconds-to-glue-a-surface and '
        "seconds-to-set-a-clamp under [practice].",
    ),
    HelpPage(
        "clamps",
        "A glue-up takes more clamps, or longer ones, than the job says you have.",
        "One over each glued corner, and along a joint one each 8 in (200 mm) or nearer, right through all the "
        "wood that stands in line; each must "
        "open over that and two cauls. The shortest that reach are used first.",
        (
            "A few more clamps, borrowed or bought.",
            "A stiff caul, planed a little round along its length: clamped at its two ends it presses in between.",
            "Strips and guides one after the other, as their clamps come off.",
        ),
        "PT-4",
        job='clamps = [{ length = "36", count = 6 }] under [shop]; clamp-spacing and caul-thickness under [practice].',
    ),
    HelpPage(
        "corner strength",
        "What the loose tenons of a front corner should bear when the drawer is pulled, next to a jerk on a full "
        "drawer that sticks.",
        "The glued cheeks of the mortises times a shear stress for rolling grain (1.8 to 2.8 N/mm2), which is low on "
        "purpose. It is an estimate with a wide spread: glue, fit and the plywood's own plies decide. Only a test to "
        "breaking would tell.",
        (
            "Another tenon in the corner.",
            "Deeper mortises.",
            "A half-blind locking rabbet, which holds by its shape.",
        ),
        "LT-1 to LT-6",
    ),
    HelpPage(
        "weight",
        "What the heaviest drawer weighs, empty and with the load its bottom is reckoned for.",
        "Sizes times density: the species table's at 12 % moisture, a middling figure for sheet goods. Cuts aren't "
        "taken off, glue and knobs not added.",
        ("A thinner bottom or sides, or a lighter wood, if it is too much to lift out.",),
        "CK-4",
        "Lift a full drawer out with a second pair of hands; wooden runners have no catch to hold it at the end.",
        job='load = "30 lb" in [drawers] or at one drawer.',
    ),
    HelpPage(
        "tipping",
        "A free-standing piece may fall forward when drawers are open or someone leans or climbs on one.",
        "Weights and their distances before and behind the front foot are compared at the worst a piece meets: "
        "all drawers nine tenths out, as far "
        "as they go before they fall from their runners, full and empty; and one so far out with a child's 60 "
        "lb (27 kg) on its front edge. From "
        "four fifths of what holds it back you are warned. A piece lower than 27 in (686 mm) and lighter than "
        "30 lb (14 kg), and one that is "
        "anchored, is only noted. Floor, carpet and feet may make it worse. It is statics on planned sizes and "
        "no test; no claim to "
        "ASTM F2057 or EN 14749 is made: they say what a real test asks.",
        (
            "Anchor it to a wall stud or masonry.",
            "Heavy things in the lowest drawers.",
            "A deeper or heavier case, or feet farther forward.",
        ),
        "CK-5",
        "A falling chest kills. Anchor every free-standing piece to the wall, whatever the figures say, and more so "
        "where there are children; follow local codes and ask someone qualified where the wall is in doubt.",
        job='a table [use] with stands = "free", "anchored" or "built in", and feet-set-back = "1" where the '
        "front feet stand back.",
    ),
)
