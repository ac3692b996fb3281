"""Holes against the bearing edges, the joints of rings, ply seams and cracks."""

from __future__ import annotations

from typing import get_args

from counterhoop.development.flat import End
from counterhoop.development.place import Place
from counterhoop.development.web import to_edge_mm, to_line_mm
from counterhoop.errors import Finding, Grade
from counterhoop.scheme.findings.afterwards import Afterwards, Opening
from counterhoop.scheme.findings.tally import Tally, together
from counterhoop.scheme.findings.wording import figure, first_up, holes_named
from counterhoop.scheme.nearest import Nearest
from counterhoop.shell.drum import PlySeam

LINE_DOUBT_MM = 0.5  # a seam or crack is found with the same tape as a hole


def check_edges(after: Afterwards, tally: Tally) -> None:
    """Hold every open hole against both bearing edges, and every plug too.

    A hole that stays and has come too near only because of what is taken off the edge is *take
    care*; one that the new edge runs through is a *stop*, plugged or not.
    """
    for end in get_args(End):
        for opening in after.openings:
            left = to_edge_mm(opening.place, opening.shape, flat=after.flat, end=end)
            if left < 0.0:
                _cut_through(tally, opening.number, opening.place, left, end=end, plugged=False)
            else:
                _hold_edge(after, tally, opening, left, end=end)
        for plug in after.plugs:
            left = to_edge_mm(plug.place, plug.shape, flat=after.flat, end=end)
            if left < 0.0:
                _cut_through(tally, plug.numbers[0], plug.place, left, end=end, plugged=True)


def _hold_edge(after: Afterwards, tally: Tally, opening: Opening, left: float, *, end: End) -> None:
    rules, drum = after.rules, after.layout.drum
    grade = opening.grade
    if grade is Grade.NOTE and _was_clear(after, opening, end=end):
        grade = Grade.TAKE_CARE
    depth_doubt = drum.depth_doubt_mm if end == "resonant" else 0.0
    doubt = together(opening.doubt_mm, depth_doubt)
    if not tally.worth(left, limit=rules.edge_mm, doubt=doubt, counts=opening.cut):
        return
    number = opening.number
    again = [f"hole {number}"] if opening.doubt_mm else []
    again += ["the depth there"] if depth_doubt else []
    tally.hold(
        "hole-near-edge",
        left,
        limit=rules.edge_mm,
        doubt=doubt,
        grade=grade,
        fact=f"hole {number} leaves {figure(left)} mm to the {end} edge",
        again=" and ".join(again),
        rule="edge_mm",
        remedy=(
            "Move the row away from the edge."
            if opening.cut
            else "It was there before; take no more off this edge than you must."
        ),
        where=f"hole {number}",
        place=opening.place,
        holes=(number,),
        counts=opening.cut,
    )


def _was_clear(after: Afterwards, opening: Opening, *, end: End) -> bool:
    if opening.found is None:
        return False
    place, half = opening.found.place, opening.found.shape.size_mm[1] / 2
    depth = after.layout.drum.depth_at_mm(place.along_deg)
    before = place.down_mm if end == "batter" else depth - place.down_mm
    return before - half >= after.rules.edge_mm


def _cut_through(
    tally: Tally, number: int, place: Place, left: float, *, end: End, plugged: bool
) -> None:
    what = f"the plug in hole {number}" if plugged else f"hole {number}"
    fact = f"the {end} edge runs through {what}, {figure(-left)} mm deep"
    tally.near(
        left,
        Nearest(
            fact=fact, where=f"hole {number}", rule="edge_mm", measured_mm=left, limit_mm=0.0,
            doubt_mm=0.0,
        ),
    )  # fmt: skip
    tally.say(
        Finding(
            code="edge-through-hole",
            grade=Grade.STOP,
            says=first_up(f"{fact}."),
            where=f"hole {number}",
            along_deg=place.along_deg,
            down_mm=place.down_mm,
            measured=left,
            limit=0.0,
            rule="edge_mm",
            remedy="Cut the shell at another depth, so that the edge lies clear of the row.",
            holes=(number,),
        )
    )


def check_lines(after: Afterwards, tally: Tally) -> None:
    """Hold every hole that is cut against ring joints, ply seams and cracks."""
    for line in after.layout.drum.lines:
        from_mm, to_mm = _span(after, line)
        rule, limit = _rule(line, after)
        for opening in after.openings:
            if not opening.cut:
                continue
            left = to_line_mm(
                opening.place,
                opening.shape,
                surface=after.surface,
                along_deg=line.along_deg,
                from_mm=from_mm,
                to_mm=to_mm,
            )
            tally.hold(
                f"hole-near-{line.kind.replace(' ', '-')}",
                left,
                limit=limit,
                doubt=together(opening.doubt_mm, LINE_DOUBT_MM),
                grade=Grade.STOP,
                fact=_line_says(opening.number, left, line.kind),
                again=f"hole {opening.number} and the {line.kind}",
                rule=rule,
                remedy=_remedy(line),
                where=f"hole {opening.number}",
                place=opening.place,
                holes=(opening.number,),
                counts=True,
            )


def _line_says(number: int, left: float, kind: str) -> str:
    if left < 0.0:
        return f"{holes_named([number])} goes through the {kind}"
    return f"{holes_named([number])} leaves {figure(left)} mm to the {kind}"


def _rule(line: PlySeam, after: Afterwards) -> tuple[str, float]:
    if line.kind == "ring joint":
        return ("ring_joint_mm", after.rules.ring_joint_mm)
    return ("ply_seam_mm", after.rules.ply_seam_mm)


def _remedy(line: PlySeam) -> str:
    if line.kind in ("crack", "lifted ply"):
        return f"Glue the {line.kind} first, then turn the row clear of it."
    return f"Turn the row clear of the {line.kind}."


def _span(after: Afterwards, line: PlySeam) -> tuple[float, float]:
    """Ends of a line in the layout's own geometry."""
    moved = after.layout.truing.moved
    return (
        moved(Place(line.along_deg, line.from_mm)).down_mm,
        moved(Place(line.along_deg, line.to_mm)).down_mm,
    )
