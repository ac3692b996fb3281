"""The layout against the survey: nothing moved, nothing mirrored, nothing from another surface."""

from __future__ import annotations

import math
from collections.abc import Iterator

from counterhoop.development.place import Place
from counterhoop.development.surface import Skin
from counterhoop.errors import Finding, Grade
from counterhoop.fittings.entry import Kind
from counterhoop.scheme.findings.afterwards import Afterwards, off_mm
from counterhoop.scheme.findings.tally import Tally
from counterhoop.scheme.findings.wording import both, figure, first_up, holes_named, the
from counterhoop.scheme.heads import mouths_of
from counterhoop.shell.drum import Row

SAME_MM = 0.05  # two places nearer than this are one: finer than anything at the bench
UNLIKE_MM = 3.0
"""More than worn holes and two readings explain; common practice, no source."""
SAYS = {
    "height-before-truing": (
        "{what} {has} heights from before truing, in a layout that counts from the new edge",
        "Move the heights by what comes off the batter edge.",
    ),
    "place-other-surface": (
        "{what} {has} places along that were read on another surface",
        "Keep places as angles, or take millimetres along on the surface that they name.",
    ),
    "mirrored-layout": (
        "{what} {is_} mirrored: along was counted the wrong way round",
        "Along grows to the right on the outside with the batter edge up; take 360 minus it.",
    ),
    "hole-moved": (
        "{what} {is_} not where the survey found {it}",
        "A hole that is there cannot move: look at the survey again.",
    ),
}


def check_as_found(after: Afterwards, tally: Tally) -> None:
    """Hold every place of the layout against the survey; only slips in the work are found here."""
    _geometry(after, tally)
    faults: dict[str, list[str]] = {}
    numbers: dict[str, list[int]] = {}
    found = {hole.number: hole for hole in after.layout.drum.holes}
    for plan in after.layout.holes:
        hole = found.get(plan.number)
        code = "" if hole is None else _fault(after, hole.place, plan.place)
        if code:
            faults.setdefault(code, []).append(str(plan.number))
            numbers.setdefault(code, []).append(plan.number)
    placed = {fitting.label: fitting for fitting in after.layout.drum.everything}
    for fitting in after.layout.fittings:
        old = placed.get(fitting.label)
        # Where only holes were read the book says the rest, and the holes are held above.
        if old is not None and fitting.status != "new" and old.place_from == "reading":
            code = _fault(after, old.place, fitting.place)
            if code:
                faults.setdefault(code, []).append(fitting.label)
    for code, what in faults.items():
        holes = tuple(numbers.get(code, ()))
        names = [w for w in what if not w.isdigit()]
        says = [holes_named(holes)] if holes else []
        _say(tally, code, [*says, *names], holes=holes, many=len(what) > 1)
    for row in after.layout.drum.rows:
        if _runs_left(row):
            _say(tally, "mirrored-layout", [f"the {row.head} row"])
    _book_patterns(after, tally)
    _patterns(after, tally)
    _facing(after, tally)


def _say(
    tally: Tally, code: str, what: list[str], *, holes: tuple[int, ...] = (), many: bool = False
) -> None:
    says, remedy = SAYS[code]
    plural = many or len(what) > 1
    words = (
        {"has": "have", "is_": "are", "it": "them"}
        if plural
        else {
            "has": "has",
            "is_": "is",
            "it": "it",
        }
    )
    tally.say(
        Finding(
            code=code,
            grade=Grade.STOP,
            says=first_up(says.format(what=both(what), **words) + "."),
            where=both(what),
            rule="the survey",
            remedy=remedy,
            holes=holes,
        )
    )


def _fault(after: Afterwards, found: Place, place: Place) -> str:
    """What is wrong with a place, given where the survey found it; empty when nothing is."""
    truing, surface = after.layout.truing, after.surface
    right = truing.moved(found)
    along = surface.apart_mm(right.along_deg, place.along_deg)
    down = place.down_mm - right.down_mm
    if abs(along) <= SAME_MM and abs(down) <= SAME_MM:
        return ""
    if abs(along) <= SAME_MM:
        untrued = abs(place.down_mm - found.down_mm) <= SAME_MM
        return "height-before-truing" if untrued else "hole-moved"
    if abs(surface.apart_mm(-found.along_deg, place.along_deg)) <= SAME_MM:
        return "mirrored-layout"
    girths = _girths_mm(after)
    for one in girths.values():
        for other in girths.values():
            stretched = found.along_deg * one / other
            if abs(surface.apart_mm(stretched, place.along_deg)) <= SAME_MM:
                return "place-other-surface"
    return "hole-moved"


def _girths_mm(after: Afterwards) -> dict[Skin, float]:
    """Circumference of each skin, from what was measured and the finishes' thickness."""
    drum, finish = after.layout.drum, after.layout.finish
    measured = drum.circumference
    old = drum.finish.thickness_mm
    bare = measured.mean_mm - (0.0 if measured.skin is Skin.BARE else 2.0 * math.pi * old)
    girths = {Skin.BARE: bare, Skin.OLD: bare + 2.0 * math.pi * old}
    if finish.thickness_mm is not None:
        girths[Skin.NEW] = bare + 2.0 * math.pi * finish.thickness_mm
    return girths


def _geometry(after: Afterwards, tally: Tally) -> None:
    """The working surface and depth follow from the survey."""
    layout, drum = after.layout, after.layout.drum
    girth = _girths_mm(after).get(layout.flat.surface.skin)
    has = layout.flat.surface.circumference_mm
    if girth is not None and abs(girth - has) > SAME_MM:
        tally.say(
            Finding(
                code="place-other-surface",
                grade=Grade.STOP,
                says=(
                    f"The layout counts along {layout.flat.surface.skin} on {figure(has)} mm, and"
                    f" by the survey that surface is {figure(girth)} mm round."
                ),
                where="surface",
                measured=has,
                limit=girth,
                doubt=drum.circumference.doubt_mm,
                rule="one surface",
                remedy="Take finish off and on with 2 pi times its thickness.",
            )
        )
    depth, has_depth = _depths_mm(after)
    flag = layout.truing.any == layout.flat.after_truing
    if abs(depth - has_depth) > SAME_MM or not flag:
        tally.say(
            Finding(
                code="height-before-truing",
                grade=Grade.STOP,
                says=(
                    f"The layout is {figure(has_depth)} mm deep and"
                    f" {'after' if layout.flat.after_truing else 'before'} truing, where the survey"
                    f" and what is taken off leave {figure(depth)} mm"
                    f" {'after' if layout.truing.any else 'without'} truing."
                ),
                where="depth",
                measured=has_depth,
                limit=depth,
                doubt=drum.depth_doubt_mm,
                rule="heights after truing",
                remedy="Work every height out from the edge as it will be.",
            )
        )


def _depths_mm(after: Afterwards) -> tuple[float, float]:
    """Depth by the survey and what is taken off, and by the layout, where they differ most."""
    layout, flat = after.layout, after.flat
    # Both are a mean and a wave once round: three places tell all there is to tell.
    return max(
        (
            (
                layout.truing.depth_mm(layout.drum.depth_at_mm(along), along_deg=along),
                flat.depth_at_mm(along),
            )
            for along in (0.0, 120.0, 240.0)
        ),
        key=lambda pair: abs(pair[0] - pair[1]),
    )


def _runs_left(row: Row) -> bool:
    """Whether a row's lugs, in their numbers' order, run to the left."""
    along = [lug.place.along_deg for lug in row.lugs]
    if len(along) < 3:
        return False
    steps = [(b - a) % 360.0 for a, b in zip(along, along[1:] + along[:1], strict=True)]
    return round(sum(steps) / 360.0) == len(along) - 1


def _book_patterns(after: Afterwards, tally: Tally) -> None:
    """Holes as found lie as far apart as the book says of the fitting that stands on them."""
    there = {hole.number: hole for hole in after.layout.drum.holes}
    for plan in after.layout.fittings:
        holes = [there[n] for n in plan.holes if n in there]
        wanted = plan.fitting.holes
        if plan.status == "new" or len(holes) != len(wanted) or len(wanted) < 2:
            continue
        read = max(
            math.hypot(*off_mm(after.surface, a.place, b.place)) for a in holes for b in holes
        )
        book = max(
            math.hypot(a.right_mm - b.right_mm, a.down_mm - b.down_mm)
            for a in wanted
            for b in wanted
        )
        if abs(read - book) > UNLIKE_MM:
            tally.say(
                Finding(
                    code="holes-unlike-book",
                    grade=Grade.STOP,
                    says=first_up(
                        f"the holes of {the(plan.label)} read {figure(read)} mm apart, and the"
                        f" book says {figure(book)} of {plan.fitting.name}."
                    ),
                    where=plan.label,
                    along_deg=plan.place.along_deg,
                    down_mm=plan.place.down_mm,
                    measured=read,
                    limit=book,
                    rule="the fitting's own pattern",
                    remedy="Read them again, or is it another fitting?",
                    holes=tuple(hole.number for hole in holes),
                )
            )


def _patterns(after: Afterwards, tally: Tally) -> None:
    """New holes lie where their fitting's pattern puts them."""
    mirrored: dict[str, list[int]] = {}
    off: dict[str, list[int]] = {}
    bases = {base.label: base for base in after.bases}
    for opening in after.openings:
        base = bases.get(opening.of)
        if not opening.plan.verdict.drills or base is None:
            continue
        if opening.seat is None or opening.wanted is None:
            continue
        if math.hypot(*off_mm(after.surface, opening.seat, opening.place)) <= SAME_MM:
            continue
        flipped = any(
            math.hypot(*off_mm(after.surface, place, opening.place)) <= SAME_MM
            for place in _flipped(after, base.label)
        )
        (mirrored if flipped else off).setdefault(opening.of, []).append(opening.number)
    for label, numbers in mirrored.items():
        what = f"the hole pattern of {the(label)}"
        _say(tally, "mirrored-layout", [what], holes=tuple(numbers))
    for label, numbers in off.items():
        tally.say(
            Finding(
                code="hole-off-pattern",
                grade=Grade.STOP,
                says=first_up(f"{holes_named(numbers)} would not meet the screws of {the(label)}."),
                where=label,
                rule="the fitting's own pattern",
                remedy="Offer the fitting up and mark through its holes.",
                holes=tuple(numbers),
            )
        )


def _flipped(after: Afterwards, label: str) -> Iterator[Place]:
    """Where the pattern would lie seen in a mirror."""
    plan = next(f for f in after.layout.standing if f.label == label)
    per_mm = 360.0 / after.surface.circumference_mm
    a = math.radians(plan.turned_deg)
    for hole in plan.fitting.holes:
        x = hole.right_mm * math.cos(a) - hole.down_mm * math.sin(a)
        y = hole.right_mm * math.sin(a) + hole.down_mm * math.cos(a)
        yield Place(plan.place.along_deg - x * per_mm, plan.place.down_mm + y)


def _facing(after: Afterwards, tally: Tally) -> None:
    """A lug's mouth looks to the head that it serves."""
    for lug in after.layout.standing:
        if lug.fitting.kind is not Kind.LUG or lug.row not in ("batter", "resonant"):
            continue
        if not lug.fitting.mouths or mouths_of(lug, after.layout, head=lug.row):
            continue
        tally.say(
            Finding(
                code="lug-faces-away",
                grade=Grade.STOP,
                says=first_up(f"{lug.label} has its mouth turned away from the {lug.row} head."),
                where=lug.label,
                along_deg=lug.place.along_deg,
                down_mm=lug.place.down_mm,
                unit="",
                rule="a lug's mouth looks to its head",
                remedy="Turn the lug over.",
            )
        )
