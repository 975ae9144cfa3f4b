"""Help on what the lists find: parts and sheets, offcuts, fronts kept together, solid wood, prices."""

from __future__ import annotations

from typing import Final

from joinlay.checks.help.page import HelpPage

__all__ = ["ON_BUYING"]

#: Pages in the order of the lists.
ON_BUYING: Final = (
    HelpPage(
        "part too large",
        "A part goes on no whole sheet and on no offcut of its stock, so it stands in the cutting list but on "
        "no layout, and no sheet is "
        "counted for it.",
        "A sheet gives its length and width less the trim at both edges; nothing else is taken off for one part "
        "alone. The length of a part "
        "lies with the sheet's length, for both run with the grain.",
        (
            "A larger sheet: give its size as sheet = [length, width] in the stock's table.",
            "The part with its grain the other way, where it would fit so: name it in any-grain of [sawing].",
            "A wide drawer bottom in two halves beside a grooved bar: bottom-bar.",
            "The part joined from two, or the piece made a little smaller.",
            "Less trim, where your sheets come with clean edges: edge-trim in [practice].",
        ),
        "CL-2",
    ),
    HelpPage(
        "no stock",
        "Parts are made of something the job doesn't describe, or the grain was said not to matter of a part there is none of.",
        "Parts name their stock by the word after the dot, as in [stock.birch-half]. Without it the thickness "
        "of a sheet, its size and its price "
        "are not known, so the parts are listed and laid on nothing.",
        (
            "A [stock.NAME] table for it, with its kind and its thickness as measured.",
            "One of the names that are there; the message lists them.",
            "The kind of part as the cutting list has it, such as drawer bottom.",
        ),
        "CL-1, CL-2",
    ),
    HelpPage(
        "offcut without grain",
        "An offcut has no word on which way its grain runs, so only parts whose grain doesn't matter are cut from it.",
        "A part laid across the grain of an offcut would show it, and bend and move the wrong way. Nothing is "
        "guessed. Of sheets without grain, "
        "such as MDF and hardboard, every offcut serves.",
        (
            'grain = "length" or grain = "width" in the [[offcut]], after its own measurements.',
            "any-grain in [sawing] for parts nobody sees, such as drawer bottoms.",
        ),
        "CL-2",
    ),
    HelpPage(
        "fronts together",
        "The fronts of a bank are cut from one column of the sheet, in their order, so that the grain runs on "
        "from front to front. That may take "
        "another sheet, or the bank may be taller than any sheet, and the grain then breaks once.",
        "A column is as long as its longest front and as wide as all of them with a kerf between; it is laid "
        "like one part. What it costs is "
        "found by laying the same parts without it.",
        (
            "fronts-together = false in [sawing], where the grain need not run on.",
            "A longer or wider sheet for the fronts.",
            "A break where the eye expects one: between two banks, or below a deeper rail.",
        ),
        "CL-2",
    ),
    HelpPage(
        "solid wood",
        "The boards on hand don't hold all the parts, or are of no use for them; wide parts are glued up from boards as wide as "
        "those; or no sawn board is thick enough to be planed to what the job asks.",
        "Parts are cut at their rough sizes, longer and wider than finished, from lengths that are clear of the "
        "defects you gave. What is to be "
        "bought is the rest and a share for waste, by sawn thickness: a board 4/4 planes to about 13/16 in. How "
        "much of a board is "
        "knots and sapwood no figure can know. A wide part is divided evenly where the boards there hold it so; else the widest "
        "there go into it in their whole width, then the next, and only what is wanting then is bought.",
        (
            "Buy what the list says, or put more boards in as [[board]].",
            "Boards no wider than you like them glued: widest-board in [practice].",
            "Parts glued up from two thinner pieces.",
            "The thickness it was bought at as nominal, and what it is now as measured.",
            "Another share for waste: solid-wood-waste in [practice].",
        ),
        "CL-1, CL-2",
    ),
    HelpPage(
        "no price",
        "Something on the list has no price, so the total is at least what it says; or a price was given for "
        "nothing on the list, which is "
        "most often a slip in its name.",
        "Prices are yours, in [prices]: a sheet, a board foot or cubic metre of solid wood, and any other line "
        "by the name it has on the list. "
        "Nothing is known of what things cost elsewhere.",
        (
            "of = { NAME = price } in [prices], with the name as the list has it.",
            "A price of 0 for what you have already.",
            "slides = price of a pair, to see beside it what metal slides would have cost.",
        ),
        "CL-2",
    ),
)
