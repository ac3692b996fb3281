"""Lugs, hoops, rods, brackets, strainers and the rest as entries of the fittings book."""
