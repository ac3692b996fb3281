"""What people call the sizes of a part when they ask for one, and what each then means."""

from __future__ import annotations

from types import MappingProxyType

from counterhoop.parts.dimension import Dimension

NAMES = MappingProxyType(
    {
        Dimension.HOLES_APART: (
            "holes apart",
            "holes",
            "apart",
            "hole spacing",
            "hole centres",
            "hole centers",
            "centres",
            "centers",
            "centre to centre",
            "center to center",
        ),
        Dimension.HOLES_APART_2: ("second holes apart", "second spacing"),
        Dimension.HOLE: ("hole", "hole dia", "hole diameter"),
        Dimension.SHELL_HOLE: ("hole in the shell", "shell hole"),
        Dimension.SCREW: ("mounting screw", "mounting screws"),
        Dimension.BASE_WIDE: ("base wide", "base width", "wide base"),
        Dimension.BASE_HIGH: ("base high", "base height", "high base"),
        Dimension.REACH: ("stands out", "sticks out", "reach"),
        Dimension.PITCH: ("pitch", "thread pitch"),
        Dimension.MAJOR: ("thread across", "thread outside", "over the thread", "outside"),
        Dimension.LENGTH: ("long", "length"),
        Dimension.THREAD_LENGTH: ("threaded length", "thread length", "threaded"),
        Dimension.SHANK: ("shank",),
        Dimension.ACROSS: ("across", "dia", "diameter"),
        Dimension.WIDE: ("wide", "width"),
        Dimension.HIGH: ("high", "height", "tall"),
        Dimension.TAKES: ("takes", "arm", "for arm"),
        Dimension.EARS: ("ears", "ear"),
        Dimension.EAR_CIRCLE: ("ear circle", "ears' circle"),
        Dimension.INSIDE: ("inside", "inner", "bore"),
        Dimension.THICK: ("thick", "thickness"),
        Dimension.ROD_LINE: ("rod line",),
        Dimension.MOUTHS_APART: ("mouths apart",),
        Dimension.ROD_DEPTH: ("rod goes in",),
        Dimension.MASS: ("weighs", "weight", "mass"),
    }
)
DIMENSION_CALLED = MappingProxyType(
    {tuple(name.split()): what for what, names in NAMES.items() for name in names}
)
MOST_WORDS = max(map(len, DIMENSION_CALLED))
WITHOUT_BASE = MappingProxyType({Dimension.WIDE: {"wires"}, Dimension.HIGH: {"hoop", "hoops"}})
"""What is wide or high by itself; of all other parts the base is meant."""
OF_THE_BASE = MappingProxyType(
    {Dimension.WIDE: Dimension.BASE_WIDE, Dimension.HIGH: Dimension.BASE_HIGH}
)
LONG_PARTS = frozenset(("rod", "rods", "t-rod", "t-rods", "screw", "screws"))
"""A length beside one of these is its length under the head, as the trade sells them."""
FILLERS = frozenset(
    ("is", "are", "of", "about", "the", "a", "an", "from", "between", "=", ":", "bin")
)
"""What may stand between a name and its number, and is never looked for itself."""


def meant(dimension: Dimension, words: frozenset[str]) -> Dimension:
    """Return the dimension that is meant of the part that the words name.

    Examples
    --------
    >>> meant(Dimension.WIDE, frozenset({"lug"})), meant(Dimension.WIDE, frozenset({"wires"}))
    (<Dimension.BASE_WIDE: 'base wide'>, <Dimension.WIDE: 'wide'>)
    """
    if dimension in OF_THE_BASE and not words & WITHOUT_BASE[dimension]:
        return OF_THE_BASE[dimension]
    return dimension
