"""joinlay: a bank of drawers on wooden runners, worked out before any wood is cut.

The package is a house with one way through it: a job is read and checked, planned into boards with
cuts, and every drawing, setting and list is made from that plan. Imports go down only; DEVELOPERS.md
names the floors.
"""

__version__ = "0.1.0"
