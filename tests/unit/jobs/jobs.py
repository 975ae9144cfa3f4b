"""A short good job to change in tests."""

from joinlay.errors import Troubles
from joinlay.jobs.reader import read_job

GOOD = """\
title = "Seed chest"
units = "inch"
smallest = "1/32 in"

[stock.cherry]
kind = "solid"
species = "black cherry"
nominal = "3/4"
measured = "3/4"

[stock.birch]
nominal = "1/2"
measured = 0.483
sheet = [60, "60"]

[stock.thin]
nominal = "1/4"

[drawers]
front = "cherry"
sides = "birch"
bottom = "thin"

[[drawer]]
opening = { width = "18 3/8", height = "4 1/4", depth = "20" }
"""


def troubles_in(text, shop_text=None, shop_file_name=None):
    """What is wrong with a job, each as its own line of text; empty where nothing is."""
    try:
        read_job(text, "chest.toml", shop_text, shop_file_name)
    except Troubles as bad:
        return [str(trouble) for trouble in bad.troubles]
    return []


def only_trouble(text):
    """The one thing that is wrong with a job."""
    (found,) = troubles_in(text)
    return found


def with_line(after, line):
    """The good job with a line put in after the line that reads ``after``."""
    assert f"\n{after}\n" in f"\n{GOOD}"
    return GOOD.replace(f"{after}\n", f"{after}\n{line}\n", 1)
