"""The views of a drum that are photographed before anything is touched, and again afterwards."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One place that a camera looks at.

    Attributes
    ----------
    name : str
        As a document keeps it.
    says : str
        As a page has it.
    wanted : bool
        Whether every drum has it: a stamp is photographed only where there is one.
    """

    name: str
    says: str
    wanted: bool = True


ROUND: Final = (
    ("0", "with the datum in front"),
    ("90", "a quarter along"),
    ("180", "half along"),
    ("270", "three quarters along"),
)
IN_WORK: Final = "in work"
"""What was photographed while the work went on: neither as found nor as left."""
VIEWS: Final = (
    *(View(name=f"outside {turn}", says=f"outside, {where}") for turn, where in ROUND),
    *(View(name=f"inside {turn}", says=f"inside, {where}") for turn, where in ROUND),
    View(name="batter edge", says="batter edge"),
    View(name="resonant edge", says="resonant edge"),
    View(name="stamp or label", says="a stamp or label", wanted=False),
    View(name="detail", says="damage or a detail", wanted=False),
    View(name=IN_WORK, says="in work", wanted=False),
)
"""Common practice, no source: what a later argument about the state of a drum is settled by."""
WANTED: Final = tuple(view for view in VIEWS if view.wanted)


def view_says(name: str) -> str:
    """Return what a page calls a view; nothing for none.

    Examples
    --------
    >>> view_says("inside 180")
    'inside, half along'
    """
    return next((view.says for view in VIEWS if view.name == name), "")
