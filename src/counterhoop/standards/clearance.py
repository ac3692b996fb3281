"""Holes that let a screw pass."""

from __future__ import annotations

from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.quantities.length import parse_length
from counterhoop.sources import load_table
from counterhoop.standards.threads import Thread

Fit = Literal["fine", "medium", "coarse"]


def clearance_hole_mm(thread: Thread, *, fit: Fit = "medium") -> float:
    """Return the hole for a screw to pass.

    Parameters
    ----------
    thread : Thread
        The screw.
    fit : "fine", "medium" or "coarse"
        The series of ISO 273; close, normal and loose of the inch table.

    Raises
    ------
    BadInput
        When the table has no row for the screw's diameter.

    Examples
    --------
    >>> from counterhoop.standards.threads import find_thread
    >>> clearance_hole_mm(find_thread("M5")), clearance_hole_mm(find_thread("M6"), fit="fine")
    (5.5, 6.4)
    """
    if fit not in ("fine", "medium", "coarse"):
        raise BadInput("no such fit", given=fit, wanted='"fine", "medium" or "coarse"')
    for row in load_table("counterhoop.standards", "clearance.toml"):
        if abs(parse_length(row.values["major"]).mm - thread.major_mm) < 1e-9:
            return parse_length(row.values[fit]).mm
    raise BadInput(
        f"no clearance hole is listed for {thread.designation}",
        step=f"Measure the screw ({thread.major_mm:.2f} mm) and add half a millimetre.",
    )
