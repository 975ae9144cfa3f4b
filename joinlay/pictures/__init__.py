"""The piece as it is seen: from its sides, cut through, in detail, each of its parts. Made from placed boards; nothing is
measured from it.
"""
