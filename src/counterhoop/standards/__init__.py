"""Published tables and formulas: screw threads, drills, clearance holes and paper.

Every row carries its source; every row that geometry can check is checked in the tests, because
published tables contain errors.
"""
