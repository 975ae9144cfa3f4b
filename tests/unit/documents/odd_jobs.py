"""Two jobs at the ends of what is made: a box of one drawer, and two banks of five."""

BOX = """
title = "Box for a bench"
units = "inch"
smallest = "1/32 in"
[paper]
size = "letter"
[stock.oak]
kind = "solid"
species = "white oak"
nominal = "3/4"
measured = "3/4"
[stock.ply-half]
nominal = "1/2"
measured = "0.472"
sheet = ["96", "48"]
[stock.ply-quarter]
nominal = "1/4"
measured = "0.205"
sheet = ["96", "48"]
[stock.ply-three-quarter]
nominal = "3/4"
measured = "0.709"
sheet = ["96", "48"]
[case]
width = "9"
height = "4 1/2"
depth = "7"
sides = "ply-half"
back = "ply-quarter"
[frame]
stock = "oak"
stile = "1"
top-rail = "3/4"
bottom-rail = "3/4"
[runners]
stock = "oak"
[[bank]]
drawers = 1
[pulls]
stock = "oak"
diameter = "5/8"
projection = "3/4"
hole = "1/4"
[drawers]
front = "oak"
sides = "ply-half"
bottom = "ply-quarter"
front-joint = "loose tenon"
back-joint = "locking rabbet"
"""

TWO_BANKS = """
title = "Two banks of five"
units = "inch"
smallest = "1/32 in"
[paper]
size = "letter"
[stock.oak]
kind = "solid"
species = "white oak"
nominal = "3/4"
measured = "3/4"
[stock.ply-half]
nominal = "1/2"
measured = "0.472"
sheet = ["96", "48"]
[stock.ply-quarter]
nominal = "1/4"
measured = "0.205"
sheet = ["96", "48"]
[stock.ply-three-quarter]
nominal = "3/4"
measured = "0.709"
sheet = ["96", "48"]
[case]
width = "36"
height = "34"
depth = "20"
sides = "ply-three-quarter"
back = "ply-quarter"
[frame]
stock = "oak"
[runners]
stock = "oak"
[[bank]]
drawers = 5
graduation = "arithmetic"
step = "3/4"
[[bank]]
drawers = 5
graduation = "arithmetic"
step = "3/4"
[pulls]
stock = "oak"
diameter = "1"
projection = "1"
hole = "3/8"
[drawers]
front = "oak"
sides = "ply-half"
bottom = "ply-quarter"
front-joint = "loose tenon"
back-joint = "locking rabbet"
"""
