"""Readings held against each other: findings of the survey, never errors."""

from __future__ import annotations

import math
import statistics
from collections.abc import Iterator

from counterhoop.development.flat import End
from counterhoop.development.tape import Closing
from counterhoop.errors import Finding, Grade
from counterhoop.shell.drum import Drum
from counterhoop.shell.hole import Hole
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.shell.survey_file.models_job import DrumWritten
from counterhoop.shell.survey_file.template import EIGHT, LUGS

DEPTH_SPREAD_MM = 2.0
"""Depths round the rim agree within this, common practice, no source."""
OFF_SIZE_MM = 12.0
"""Old shells run over or under their nominal size, by less than this; no source."""
INCH_MM = 25.4
OFF_ROW_MM = 10.0
"""No drill wanders this far from an even row; common practice, no source."""
LUGS_TO_JUDGE = 4


def crosscheck(drum: Drum, *, written: DrumWritten, rules: ShopRules) -> Iterator[Finding]:
    """Yield what the readings of one drum say against each other."""
    yield from _example(drum, written=written)
    yield from _row_not_written(drum, written=written)
    yield from _girth_spread(drum, rules=rules)
    yield from _girth_and_diameters(drum, written=written, rules=rules)
    yield from _size(drum, written=written)
    yield from _depth_spread(drum)
    yield from _lug_off_row(drum)
    for hole in drum.holes:
        yield from _at_edge(hole, drum=drum)


def _example(drum: Drum, *, written: DrumWritten) -> Iterator[Finding]:
    row = written.rows[0] if written.rows else None
    if row is None or row.near is None or row.first is None or row.lugs != LUGS:
        return
    found = (written.circumference, written.depth, written.wall, row.first, *row.near, row.hole)
    as_written = tuple(getattr(one, "as_written", "") for one in found)
    if as_written in zip(*EIGHT.values(), strict=True):
        yield Finding(
            code="example-numbers",
            grade=Grade.STOP,
            says=f"The eight numbers of the {drum.key} are those of the example in a new file.",
            where="the eight numbers",
            rule="",
            remedy="Measure this drum and write its own numbers over them.",
        )


def _row_not_written(drum: Drum, *, written: DrumWritten) -> Iterator[Finding]:
    heads = {row.head for row in written.rows}
    if drum.heads == 1 or not heads or "both" in heads or heads == {"batter", "resonant"}:
        return
    there = next(iter(heads))
    other: End = "resonant" if there == "batter" else "batter"
    yield Finding(
        code="row-not-written",
        grade=Grade.TAKE_CARE,
        says=f"The drum has two heads, but only the lugs of the {there} head are written down.",
        where=f"{other} row",
        rule="",
        remedy=f"Write the {other} row too, or say that the drum has one head, or that these "
        "lugs serve both heads, as long ones do.",
    )


def _girth_spread(drum: Drum, *, rules: ShopRules) -> Iterator[Finding]:
    readings = drum.circumference.readings_mm
    if len(readings) < 2:
        return
    most, least = max(readings, key=_size_of), min(readings, key=_size_of)
    spread = most[1] - least[1]
    if spread > rules.girth_spread_mm:
        yield Finding(
            code="girth-spread",
            grade=Grade.TAKE_CARE,
            says=f"The circumference at {most[0]} is {spread:.1f} mm more than at {least[0]}; "
            f"{rules.girth_spread_mm:g} is allowed.",
            where="circumference",
            measured=spread,
            limit=rules.girth_spread_mm,
            doubt=2.0 * drum.circumference.doubt_mm,
            rule="girth_spread",
            remedy="Read it again with the tape square to the shell; a loose seam, a bulge or a "
            "taper remains as it is.",
            too_close=spread - rules.girth_spread_mm <= 2.0 * drum.circumference.doubt_mm,
        )


def _size_of(reading: tuple[str, float]) -> float:
    return reading[1]


def _girth_and_diameters(
    drum: Drum, *, written: DrumWritten, rules: ShopRules
) -> Iterator[Finding]:
    if drum.circumference.from_diameters or not written.diameters:
        return
    mean = math.fsum(one.mm for one in written.diameters) / len(written.diameters)
    across = drum.circumference.mean_mm / math.pi
    off = math.pi * mean - drum.circumference.mean_mm
    doubt = math.pi * 0.5 / math.sqrt(len(written.diameters)) + drum.circumference.doubt_mm
    limit = rules.girth_spread_mm
    if abs(off) > limit + doubt:
        yield Finding(
            code="girth-diameters",
            grade=Grade.TAKE_CARE,
            says=f"The circumference makes {across:.1f} mm across, the diameters read "
            f"{mean:.1f}: {abs(off):.1f} mm apart round the shell.",
            where="circumference and diameters",
            measured=abs(off),
            limit=limit,
            doubt=doubt,
            rule="girth_spread",
            remedy="Read both again on the same skin; one of them is a slip, or the shell is far "
            "from round.",
        )


def _size(drum: Drum, *, written: DrumWritten) -> Iterator[Finding]:
    if written.size is None:
        return
    across = drum.circumference.mean_mm / math.pi
    for code, noun, found, called in (
        ("girth-size", "diameter", across, written.size.dia.mm),
        ("depth-size", "depth", drum.depth_mm, written.size.deep.mm),
    ):
        off = found - called
        if abs(off) <= OFF_SIZE_MM:
            continue
        inches = round(off / INCH_MM)
        slip = ""
        if inches and abs(off - inches * INCH_MM) <= 6.0:
            slip = f" That is {abs(inches)} in {'more' if off > 0 else 'less'}."
        elif abs(found / called - INCH_MM) < 2.0 or abs(called / found - INCH_MM) < 2.0:
            slip = " One of them is in the other unit."
        yield Finding(
            code=code,
            grade=Grade.STOP if code == "girth-size" else Grade.TAKE_CARE,
            says=f"The {noun} measured is {found:.1f} mm, the size it is called by says "
            f"{called:.1f}: {abs(off):.1f} mm apart.{slip}",
            where=noun,
            measured=abs(off),
            limit=OFF_SIZE_MM,
            rule="",
            remedy="Read it again, mind where the tape's scale begins, and look at the size.",
        )


def _depth_spread(drum: Drum) -> Iterator[Finding]:
    readings = drum.depth_readings_mm
    if len(readings) < 2:
        return
    most, least = max(readings, key=_size_of), min(readings, key=_size_of)
    spread = most[1] - least[1]
    if spread > DEPTH_SPREAD_MM:
        yield Finding(
            code="depth-spread",
            grade=Grade.TAKE_CARE,
            says=f"The depth at {most[0]} is {spread:.1f} mm more than at {least[0]}.",
            where="depth",
            measured=spread,
            limit=DEPTH_SPREAD_MM,
            doubt=2.0 * drum.depth_doubt_mm,
            rule="",
            remedy="Read heights from the edge that they are drilled from; true the edges first.",
            too_close=spread - DEPTH_SPREAD_MM <= 2.0 * drum.depth_doubt_mm,
        )


def _lug_off_row(drum: Drum) -> Iterator[Finding]:
    """A lug far from its place in an otherwise even row is a slip of the tape before it is a lug.

    Even spacing is laid through the median of the row, so that one lug does not move it.
    """
    girth = drum.circumference.mean_mm
    for row in drum.rows:
        count = len(row.lugs)
        if count < LUGS_TO_JUDGE:
            continue
        step = girth / count
        at = [lug.place.along_deg * girth / 360.0 for lug in row.lugs]
        off = [math.remainder(x - at[0] - i * step, girth) for i, x in enumerate(at)]
        middle = statistics.median(off)
        apart = [x - middle for x in off]
        far = [i for i, x in enumerate(apart) if abs(x) > OFF_ROW_MM]
        if not far or len(far) > count // 3:
            continue
        for i in far:
            lug = row.lugs[i]
            yield Finding(
                code="lug-off-row",
                grade=Grade.STOP,
                says=f"{lug.label[:1].upper()}{lug.label[1:]} reads {abs(apart[i]):.0f} mm from its"
                " place in a row that is otherwise even.",
                where=lug.label,
                along_deg=lug.place.along_deg,
                down_mm=lug.place.down_mm,
                measured=abs(apart[i]),
                limit=OFF_ROW_MM,
                rule="an even row",
                remedy=f"Read {lug.label} again before anything is planned.",
                holes=lug.holes,
            )


def _at_edge(hole: Hole, *, drum: Drum) -> Iterator[Finding]:
    half = hole.shape.size_mm[1] / 2.0
    from_batter = hole.place.down_mm - half
    from_resonant = drum.depth_at_mm(hole.place.along_deg) - hole.place.down_mm - half
    edge: End = "batter" if from_batter <= from_resonant else "resonant"
    wood = min(from_batter, from_resonant)
    if wood < 0.0:
        yield Finding(
            code="hole-at-edge",
            grade=Grade.TAKE_CARE,
            says=f"Hole {hole.number}{_called(hole)} lies nearer than half its own size to the "
            f"{edge} edge: {-wood:.1f} mm of it are outside the shell.",
            where=f"hole {hole.number}",
            along_deg=hole.place.along_deg,
            down_mm=hole.place.down_mm,
            measured=wood,
            limit=0.0,
            doubt=hole.doubt_mm,
            rule="",
            remedy="A hole broken out to the edge stands so; otherwise read its near side again.",
            too_close=-wood <= hole.doubt_mm,
            holes=(hole.number,),
        )


def _called(hole: Hole) -> str:
    return f" ({hole.purpose})" if hole.purpose else ""


def closing_finding(closing: Closing | None, *, head: End) -> Finding | None:
    """Return what is wrong with the gaps between the lugs of a row, when they do not close."""
    if closing is None or closing.closed:
        return None
    off, count = closing.misfit_mm, abs(closing.misfit_mm)
    front = (
        f"The gaps between the {head} lugs add up to {closing.total_mm:.1f} mm, the tape read "
        f"{closing.girth_mm:.1f} once round: {count:.1f} too {'much' if off > 0 else 'little'}."
    )
    if closing.cause == "chords":
        says = f"{front} They close as dividers step, so they are taken straight across."
        remedy = "Nothing, if they were read with dividers; otherwise read them with the tape."
        grade = Grade.NOTE
    elif closing.cause == "girth":
        says = f"{front} The gaps agree with each other: the circumference looks wrong."
        remedy = "Read the circumference again, with the tape that read the gaps."
        grade = Grade.STOP
    else:
        suspect = (closing.suspect or 0) + 1
        also = [index + 1 for index in closing.as_likely]
        others = f" Gap {', '.join(map(str, also))} may be it as well." if also else ""
        says = f"{front} Gap {suspect}, after lug {suspect}, looks wrong.{others}"
        remedy = f"Read gap {suspect} again; {closing.corrected_mm or 0.0:.1f} mm would close."
        grade = Grade.STOP
    return Finding(
        code="gaps-open",
        grade=grade,
        says=says,
        where=f"{head} row",
        measured=count,
        limit=0.0,
        doubt=closing.doubt_mm,
        rule="",
        remedy=remedy,
        too_close=count <= 2.0 * closing.doubt_mm,
    )
