"""Pages on what joints, casework and machines say while a piece is planned."""

from __future__ import annotations

from typing import Final

from joinlay.checks.help.page import MACHINES, HelpPage

__all__ = ["ON_MAKING"]

#: In the order a maker might read them.
ON_MAKING: Final = (
    HelpPage(
        "unmeasured stock",
        "A sheet has only its nominal thickness in the job. A sheet sold as 18 mm may be 17.1 to 18.7 mm and be "
        "within its standard.",
        "The nominal thickness is used everywhere until a measured one is given, and the fit is judged by the "
        "standard's limits (EN 315 or PS 1).",
        ("Measure it with callipers at three places and write the figure in the job as measured.",),
        "CK-1",
    ),
    HelpPage(
        "tenons",
        "A loose tenon is too thick, too wide or too long for the wood, or there is no room for one on the joint line.",
        "Thickness at most a third of the thinner part mortised in its end, walls and floors as in 'thin wood', at "
        "least two tenons where two fit, spaced as evenly as the groove and other cuts allow.",
        (
            "A thinner tenon.",
            "Thicker stock.",
            "A higher part, or the groove moved away.",
            "A half-blind locking rabbet in place of tenons.",
        ),
        "LT-1 to LT-12",
    ),
    HelpPage(
        "bottom bar",
        "The grooved bar that is to part a drawer's bottom can't be made or can't stand there: its stock is too thin for a "
        "groove in each face, the drawer is too narrow or too low for it, or no wood is left under its grooves. "
        "Or its front end covers the hole of a pull.",
        "It stands on edge from front to back, as thick as its stock. Its grooves lie at the height of the sides' and are as "
        "deep where a third of it stays between them, and under a back enough beside its screw. Its lower edge stays a little "
        "above that of the sides, its upper edge low in the drawer.",
        (
            "Thicker stock, 3/4 in (20 mm) being usual.",
            "The groove higher up (groove-offset).",
            "A pull higher up, or two in place of one (from-top and count under [pulls]).",
            'No bar in that drawer: bottom-bar = "none".',
        ),
        "BO-1, DA-3",
        job="bottom-bar-lift and bottom-bar-rise under [practice]: its lower edge above that of the sides, its upper edge above "
        "the bottom.",
    ),
    HelpPage(
        "too many parts",
        "The job has more parts than are planned and drawn while you wait, most of them loose tenons that stand nearer to each "
        "other than glue needs.",
        "Every part counts, and every loose tenon: at most 2500 in one job. That is counted before any is checked and drawn.",
        (
            "Tenons farther apart: tenon-spacing-in-a-drawer and tenon-spacing-in-a-case under [practice].",
            "Several jobs, as large work is built in several pieces.",
        ),
        "LT-9",
    ),
    HelpPage(
        "no order",
        "Some parts hold each other: whichever is put on last, another is in its way, so the piece can be drawn "
        "and cut and never be put together.",
        "For six straight ways it is looked at which part runs into which; what can't be taken apart one move "
        "after the other can't be put together "
        "either. A part that could be tilted in is refused too.",
        (
            "A back that stands on the bottom, so that the bottom goes in from behind.",
            "A groove that is open at one end.",
            "Another joint at one of the corners.",
        ),
        "PT-1, PT-2",
    ),
    HelpPage(
        "short grain",
        "The wood between a dado and the end of its board is too short along the grain, or the lip of a half-blind "
        "joint too thin: it shears off.",
        "A third of the side's thickness at least is left beyond the dado, and a lip of at least 1/8 in (3 mm).",
        (
            "A narrower cutter.",
            "Thicker front or back.",
            "A deeper set-in for the back.",
            "Another corner: front-joint and back-joint say which. A plain rabbet leaves a third of the front "
            "as its lip; a nailed butt cuts "
            "nothing and is weaker than any of them.",
        ),
        "LR-4, LR-6, DJ-1, DJ-2, DJ-4",
    ),
    HelpPage(
        "machines",
        "A cut asks for something that the machines and cutters you listed can't do, or can't do safely.",
        "Each cut is held against the cutters, fences and heights you gave, and against the largest and smallest part a "
        "machine may carry. What no machine of yours can do is hand work, and its card says with which tools: a "
        "note, or a warning "
        "where only a cutter is wanting. It is refused where you have written hand-tools = false, and where no "
        "chisel goes into it.",
        (
            "The machine or cutter the message names.",
            "Your own machines under [shop]: router-table, table-saw, hand-router, hand-tools; false where you have none.",
            "A hand-held router against a straightedge for large panels.",
            "A carrier for small parts.",
        ),
        "MS-1 to MS-9",
        MACHINES,
    ),
    HelpPage(
        "piece sizes",
        "Sizes that don't go together: openings and rails over or short of the frame, sides higher than their "
        "opening, a case with no "
        "room left inside, a bottom so high that the drawer holds little.",
        "Openings, rails and frame add up exactly or not at all; clearances and thicknesses come off what you "
        "gave. The message says how "
        "much is over or short.",
        (
            "Let one opening fill what is left.",
            "The nearest size that the message names.",
            "Thinner stock or smaller clearances, where a drawer has nothing left.",
            "The groove lower (groove-offset), where the bottom is too high.",
        ),
        "DR-1, DR-3, DR-7, FF-1 to FF-3, CA-1, EB-1 to EB-3, PU-1 to PU-3",
    ),
    HelpPage(
        "runners",
        "What a drawer rides on, is guided by, kicks against and stops at doesn't fit into the room around it.",
        "Bearers lie level with the rail, guides fill the case out to the frame's edge, kickers hang a hair "
        "above the opening, stop blocks stay "
        "under the bottom. Screws through a bearer into solid wood run in slots as long as the wood moves.",
        (
            "Runner stock of another thickness.",
            "Hard wood for whatever slides; guides and kickers may have a stock of their own.",
            "Nails or screws that stay in the wood they go into, or holes for their heads.",
            "A higher rail, or a frame that covers the case a little more.",
            "A groove higher up, where the stop blocks have no room under the bottom.",
        ),
        "RN-1 to RN-5, ST-1 to ST-4",
    ),
    HelpPage(
        "double bearer",
        "Two drawers of a row share a bearer behind their mullion, with no partition between them. It has "
        "nothing to lie on or to hold its ends.",
        "Over the case bottom the shared bearer lies flat on it and is fastened to it, so the bottom must stand "
        "right under it, and be "
        "plywood: solid wood would move along under it. Over a dust panel there is no bearer, only the guide: "
        "the drawers ride on the "
        "panel, which hangs by the rail and by its ends in the sides: how far it sags between them is told as panel sag.",
        (
            "A partition between the drawers, in dadoes of the panels under and over it.",
            "Sheet stock for the case, where the row is to go without a partition.",
            "The case bottom up by as much as the message says (bottom-offset).",
        ),
        "RO-1",
        job='rows = [{ drawers = 2, between = "partition" }, 1] at a bank; or between = "double bearer".',
    ),
    HelpPage(
        "outline",
        "An outline of your own, out of an SVG file, doesn't lie on the part it is for, is deeper than the "
        "wood, or runs over a joint.",
        "The outline is held against the part at true size, where the job puts it: its box against the edges of "
        "the wood, its lines and what "
        "they go round against every cut that takes wood at the same depth. An outline that is only marked "
        "(depth = 0) meets only what opens "
        "on its own face. How much wood is left between an outline and a joint is for you to judge.",
        (
            "Count it from another end or edge, or from further away.",
            "Turn it by 90, or draw it smaller.",
            "Cut it less deep.",
        ),
        "CK-7",
        MACHINES,
    ),
    HelpPage(
        "assembly",
        "Put together in the model, two parts take up the same room, shut or with a drawer pulled out.",
        "Each board is made as a solid with all its cuts and set in its place; what overlaps is found by a geometry kernel.",
        ("Cut nothing from this plan.", "Report the job as a fault of the program: the rules should never let it come to that."),
        "CK-8",
    ),
)
