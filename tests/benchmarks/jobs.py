"""Jobs of any size to time: a cabinet of small drawers, half on loose tenons, half on half-blind locking rabbets."""

_HEAD = """title = "Timed cabinet"
units = "inch"
smallest = "1/32 in"

[stock.front]
kind = "plywood"
nominal = "3/4"
measured = "0.71"
sheet = ["96", "48"]

[stock.side]
kind = "plywood"
nominal = "1/2"
measured = "0.472"
sheet = ["96", "48"]

[stock.bottom]
kind = "plywood"
nominal = "1/4"
measured = "0.205"
sheet = ["96", "48"]

[drawers]
front = "front"
sides = "side"
back = "side"
bottom = "bottom"
"""

_DRAWER = """
[[drawer]]
front-joint = "{joint}"
opening = {{ width = "{width} in", height = "4 1/4 in", depth = "18 in" }}
"""


def job_of(drawers):
    """The text of a job of so many drawers, no two of one width, so that nothing is worked out once for all of them."""
    joints = ("loose tenon", "half-blind locking rabbet")
    return _HEAD + "".join(_DRAWER.format(joint=joints[n % 2], width=12 + n / 4) for n in range(drawers))


_CASE = """
[stock.oak]
kind = "solid"
species = "red oak"
nominal = "3/4"
measured = "3/4"

[case]
width = "200"
height = "99"
depth = "20"
sides = "oak"
back = "bottom"

[frame]
stock = "oak"

[runners]
stock = "oak"

[pulls]
stock = "oak"
diameter = "1 1/4"
projection = "1"
hole = "1/4"
count = 2
"""

_BANK = """
[[bank]]
drawers = {drawers}
graduation = "arithmetic"
step = "1/{step}"
"""


def wall_of(banks, drawers):
    """The text of a job of a whole wall: so many drawers in so many banks, each graduated in its own way, with frame, runners
    and pulls.
    """
    each = [drawers // banks + (n < drawers % banks) for n in range(banks)]
    return _HEAD + _CASE + "".join(_BANK.format(drawers=count, step=16 + n) for n, count in enumerate(each))


def shelves_and_drawers(banks=8, drawers=30, bays=1, shelves=3):
    """The text of a wall of which the half is open: banks of drawers two by two, each with open bays of fixed shelves."""
    text = _HEAD + _CASE
    for n in range(banks):
        count = drawers // banks + (n < drawers % banks)
        rows = ["2"] * (count // 2) + ["1"] * (count % 2) + [f"{{ fixed = {shelves} }}"] * bays
        text += f'\n[[bank]]\nrows = [{", ".join(rows)}]\ngraduation = "arithmetic"\nstep = "1/{16 + n}"\n'
    return text


def dense_tenons(drawers=4, height=60):
    """The text of a job of drawers as high, their loose tenons as near to each other as they go."""
    dense = "[practice]\ntenon-spacing-in-a-drawer = 1\ntenon-width = 1\nwood-between-mortises = 1\n\n[drawers]"
    body = "".join(_DRAWER.format(joint="loose tenon", width=20 + n / 16) for n in range(drawers))
    return _HEAD.replace("[drawers]", dense) + body.replace("4 1/4 in", f"{height} in")


#: The largest jobs that are taken, each at another limit.
LARGEST = {
    "sixty drawers in eight banks": lambda: wall_of(8, 60),
    "drawers and shelves": shelves_and_drawers,
    "a hundred drawers by their openings": lambda: job_of(100),
    "two thousand loose tenons": lambda: dense_tenons(6),
}
