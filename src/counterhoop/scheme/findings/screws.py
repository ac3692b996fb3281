"""Mounting screws: long enough for what they go through, and clear of the bottom."""

from __future__ import annotations

import math

from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards, Opening
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import figure, first_up, the
from counterhoop.scheme.layout import FittingPlan
from counterhoop.scheme.threading import major_mm


def check_screws(after: Afterwards, tally: Tally) -> None:
    """Go through the screws of every fitting that is new, one finding for those alike.

    A screw from inside goes through its washer, the wall where it stands (ring and finish
    included) and the gasket, and then into the fitting. Thread wanted there is
    ``engaged_diameters`` of its major diameter, or all that the fitting has when that is less;
    the longer engagement of the rule for rods is not asked of it. A stud goes the other way and
    must reach through washer and nut.
    """
    said: set[tuple[str, str, float]] = set()
    for opening in after.openings:
        fitting = next((b.plan for b in after.bases if b.label == opening.of), None)
        if fitting is None or fitting.status != "new" or opening.wanted is None:
            continue
        for finding in _screw(after, fitting, opening):
            key = (finding.code, fitting.fitting.name, round(finding.measured or 0.0, 2))
            if key not in said:
                said.add(key)
                tally.say(finding)


def _screw(after: Afterwards, fitting: FittingPlan, opening: Opening) -> list[Finding]:
    entry = fitting.fitting
    length = entry.screw_length_mm
    if length is None:
        return []
    wall = after.flat.wall_at_mm(opening.place.down_mm, along_deg=opening.place.along_deg)
    behind = entry.behind
    through = behind.washer_mm + wall + entry.gasket_mm
    where = f"{fitting.label}, hole {opening.number}"
    stack = f"{figure(through)} mm of washer, wall and gasket"
    if entry.screw_depth_mm is None:
        if behind.nut_mm <= 0.0:
            return []
        need = through + behind.nut_mm
        if length >= need - 0.05:
            return []
        says = (
            f"the studs of {the(fitting.label)} are {figure(length)} mm long at hole"
            f" {opening.number} and do not reach through {stack} and the nut of"
            f" {figure(behind.nut_mm)}"
        )
        remedy = f"Take studs of {figure(math.ceil(need))} mm or more."
        return [_finding("screw-short", says, where, opening, length, need, remedy)]
    wanted = min(
        after.rules.engaged_diameters * (major_mm(entry.screw_thread) or 0.0),
        entry.screw_depth_mm,
    )
    engaged = length - through
    low, high = math.ceil(through + wanted), math.floor(through + entry.screw_depth_mm)
    span = f"from {low} to {high} mm" if high > low else f"of {high} mm"
    remedy = f"Take screws {span} there."
    if engaged < wanted - 0.05:
        says = (
            f"the screws of {the(fitting.label)}, {figure(length)} mm long, go through {stack} at"
            f" hole {opening.number} and engage {figure(max(engaged, 0.0))} mm of thread;"
            f" {figure(wanted)} is wanted"
        )
        return [_finding("screw-short", says, where, opening, engaged, wanted, remedy)]
    if engaged > entry.screw_depth_mm + 0.05:
        says = (
            f"the screws of {the(fitting.label)}, {figure(length)} mm long, bottom at hole"
            f" {opening.number}: {stack} leave {figure(engaged)} mm to go into a thread"
            f" {figure(entry.screw_depth_mm)} deep"
        )
        return [
            _finding("screw-bottoms", says, where, opening, engaged, entry.screw_depth_mm, remedy)
        ]
    return []


def _finding(
    code: str,
    says: str,
    where: str,
    opening: Opening,
    measured: float,
    limit: float,
    remedy: str,
) -> Finding:
    return Finding(
        code=code,
        grade=Grade.TAKE_CARE,
        says=first_up(says + "."),
        where=where,
        along_deg=opening.place.along_deg,
        down_mm=opening.place.down_mm,
        measured=measured,
        limit=limit,
        rule="engaged_diameters",
        remedy=remedy,
        holes=(opening.number,),
    )
