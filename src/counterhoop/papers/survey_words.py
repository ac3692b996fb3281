"""What was read round a drum, in words that a rule and a feeler can check."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from counterhoop.development.flat import End
from counterhoop.papers.facts import Lengths, count, listed
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.print_length import CALIPER_MM, TAPE_MM, print_mm
from counterhoop.shell.drum import Circumference, Drum
from counterhoop.shell.readings import HeadRead, ProfileRead, RimReadings, ThreadRead
from counterhoop.survey.circle_reference import ReferenceCircle
from counterhoop.survey.drum_survey import DrumSurvey, EndSurvey
from counterhoop.survey.flat import Flatness
from counterhoop.survey.harmonics import (
    ROUND_NAMES,
    Harmonic,
    hidden_from_diameters_mm,
    tells_odd_lobes,
)
from counterhoop.survey.round_across import Across

AT_LUG_DEG = 3.0
"""A place no farther from a lug than this is said to be at it."""
MOST_HIGH = 3
SIZE_MM = CALIPER_MM
"""A size across is printed no finer: a dial knows differences, the bar's own length is read so."""
SCREW_MM = 0.01
"""What a caliper of today shows over the crests of a screw."""
LOBES_HIDE = (
    "Diameters and a tape cannot see three or five lobes: such a shell measures the same across "
    "everywhere. Radii would show them."
)
FEW_RADII = "So few radii cannot tell three or five lobes."
CIRCLES = (
    ("minimum_zone", "narrowest pair of circles (minimum zone)"),
    ("least_squares", "mean circle (least squares)"),
    ("circumscribed", "smallest circle round it"),
    ("inscribed", "largest circle inside it"),
)


@dataclass(frozen=True, slots=True)
class Places:
    """Says places round a drum as one finds them on it, by the lugs of one head if it has any."""

    drum: Drum
    head: End = "batter"

    def __call__(self, along_deg: float) -> str:
        """Return an angle and, where one is near, its lug ("72° (batter lug 2)")."""
        said = f"{round(2.0 * along_deg) / 2.0 % 360.0:g}°"
        own = self.drum.row(self.head)
        lugs = [lug for row in ((own,) if own else self.drum.rows) for lug in row.lugs]
        near = min(lugs, key=lambda lug: _apart(lug.place.along_deg, along_deg), default=None)
        if near is not None and _apart(near.place.along_deg, along_deg) <= AT_LUG_DEG:
            return f"{said} ({near.label})"
        return said

    def both(self, along_deg: float) -> str:
        """Return both ends of a diameter."""
        first = along_deg % 180.0
        return f"{self(first)} and {self(first + 180.0)}"


def round_words(drum: Drum, end: EndSurvey, *, say: Lengths) -> list[str]:
    """Say how round one end is: largest, smallest, where, the shape, and what nobody can know."""
    at = Places(drum, end.end)
    if end.across is None:
        mean = say.length(end.girth_mm / math.pi)
        return [f"Not read. Its girth alone makes it {mean} across on average."]
    lines = [_across(end.across, at=at, say=say)]
    if end.radii is not None and end.roundness is not None:
        step = end.radii.resolution_mm
        lines += _shape(end.waves, at=at, step_mm=step)
        if tells_odd_lobes(end.waves):
            hidden = print_mm(hidden_from_diameters_mm(end.waves), resolution_mm=step)
            lines.append(f"Odd lobes, which no caliper shows: {hidden} on the radius, high to low.")
        else:
            lines.append(FEW_RADII)
    else:
        lines.append(LOBES_HIDE)
    return lines


def flat_words(drum: Drum, end: EndSurvey) -> list[str]:
    """Say how flat one edge is, how it leans, and where it stands high."""
    flat, at = end.flat, Places(drum, end.end)
    if flat is None:
        edge = drum.edge(end.end)
        return ["No edge was ever cut here." if not edge.there else "Not read."]
    step = flat.resolution_mm
    off = print_mm(flat.minimum_zone.total_mm, resolution_mm=step)
    lines = [f"Within {off} of flat, give or take {_at_least(flat.doubt_mm, step)}."]
    lines += _lean(flat, at=at)
    high = flat.standing_high[:MOST_HIGH]
    if high:
        said = [
            f"{h.name}, {at(h.along_deg)}, by {print_mm(h.above_mm, resolution_mm=step)}"
            for h in high
        ]
        lines.append(f"Stands above the plane fitted to it at {'; '.join(said)}.")
    return lines


def rests_on(end: EndSurvey, read: Sequence[tuple[str, RimReadings | None]]) -> list[str]:
    """Say which readings there are, how many, with what and how fine."""
    return [
        f"{name}: {count(len(r.value_mm), 'reading')}, {r.instrument}, "
        f"to {print_mm(r.resolution_mm, resolution_mm=r.resolution_mm)}"
        for name, r in read
        if r is not None
    ] or [f"Nothing was read round the {end.end} end."]


def head_words(head: HeadRead | None, *, say: Lengths) -> list[str]:
    """Say what was measured of the head and the hoop for one end."""
    if head is None:
        return ["Not measured."]
    parts = [f"collar {say.length(head.collar_mm, resolution_mm=CALIPER_MM)} inside"]
    if head.rim_mm is not None:
        parts.append(f"rim {say.length(head.rim_mm, resolution_mm=CALIPER_MM)} outside")
    if head.hoop_mm is not None:
        parts.append(f"hoop {say.length(head.hoop_mm, resolution_mm=CALIPER_MM)} inside")
    of = f"{head.says}: " if head.says else ""
    return [f"{of}{', '.join(parts)}."]


def profile_words(profile: ProfileRead | None) -> list[str]:
    """Say how an edge is cut as found."""
    if profile is None:
        return ["Cut not written down."]
    parts = [profile.cut]
    if profile.apex_mm is not None:
        parts.append(f"apex {print_mm(profile.apex_mm)} from the outside")
    if profile.inner_deg is not None:
        parts.append(f"inner cut {profile.inner_deg:g} degrees")
    if profile.outer_mm is not None:
        parts.append(f"outer {print_mm(profile.outer_mm)}")
    said = ", ".join(parts)
    return [f"{said[0].upper()}{said[1:]}."]


def girth_words(drum: Drum, *, say: Lengths) -> list[str]:
    """Say the girth at each place read, and on which surface."""
    girth = drum.circumference
    if girth.from_diameters:
        source = "from diameters"
    else:
        source = f"by tape, give or take {print_mm(girth.doubt_mm)}"
    each = [f"{where} {say.length(mm)}" for where, mm in girth.readings_mm]
    mean = f"{say.length(girth.mean_mm)} round {girth.skin}, {source}"
    mean += f"; {say.length(girth.mean_mm / math.pi)} across on average."
    off = _tape_off(girth, say=say)
    where = "At the skin" if off else "Read"
    return [mean, *off, *([f"{where}: {', '.join(each)}."] if len(each) > 1 else [])]


def _tape_off(girth: Circumference, *, say: Lengths) -> list[str]:
    """Say what the tape showed, where its own thickness makes that another figure."""
    if girth.from_diameters or not girth.as_written:
        return []
    shown = [parse_length(written).mm for written in girth.as_written]
    tape, skin = say.length(math.fsum(shown) / len(shown)), say.length(girth.mean_mm)
    if tape == skin:
        return []
    return [f"{tape} on the tape, {skin} at the skin: half the tape's thickness is off all round."]


def depth_words(drum: Drum, *, say: Lengths) -> list[str]:
    """Say the depth, and how it goes round the rim where the readings show that.

    Where edges were read it is also said between the planes that heights are measured from: what
    the edges stand out is taken off, and a gap under them added.
    """
    doubt = print_mm(max(drum.depth_doubt_mm, TAPE_MM))
    edges_off = drum.readings.batter.edge is not None or drum.readings.resonant.edge is not None
    read, between = say.length(drum.depth_read_mm), say.length(drum.depth_mm)
    lines = [f"{read}, give or take {doubt}."]
    if edges_off and between != read:
        lines.append(f"From plate to plate, as heights are counted: {between}.")
    if len(drum.depth_readings_mm) > 1:
        each = [f"{where}: {say.length(mm)}" for where, mm in drum.depth_readings_mm]
        lines.append(f"Read at {', '.join(each)}.")
    swing = math.hypot(drum.depth_cos_mm, drum.depth_sin_mm)
    if swing > 0.0:
        deepest = math.degrees(math.atan2(drum.depth_sin_mm, drum.depth_cos_mm)) % 360.0
        lines.append(
            f"{'So counted deepest' if edges_off else 'Deepest'} at {Places(drum)(deepest)}, "
            f"{print_mm(2.0 * swing)} more than opposite."
        )
    return lines


def thread_words_read(read: ThreadRead) -> str:
    """Say what was read off one screw."""
    fine_mm = SCREW_MM if read.outside_doubt_mm <= 2.0 * SCREW_MM else read.outside_doubt_mm
    outside = print_mm(read.outside_mm, resolution_mm=fine_mm)
    parts = [f"{read.of}: {outside} over the crests"]
    if read.over_mm is not None and read.by_gauge:
        pitch = print_mm(read.over_mm / read.threads, resolution_mm=SCREW_MM)
        parts.append(f"pitch {pitch} by gauge")
    elif read.over_mm is not None:
        over = print_mm(read.over_mm, resolution_mm=CALIPER_MM)
        parts.append(f"{count(read.threads, 'thread')} over {over}")
    if read.flanks_deg is not None:
        parts.append(f"flanks {read.flanks_deg:g} degrees")
    return ", ".join(parts)


def air_words(drum: Drum) -> str:
    """Say the air of the day and the wood."""
    air, wood = drum.readings.air, drum.readings.wood
    day = "Air of the day not written down"
    if air is not None:
        day = f"{air.temperature_c:.0f} °C, {air.humidity_percent:.0f} % humidity"
    return f"{day}. Wood: {wood or 'not written down'}."


def circle_rows(survey: DrumSurvey) -> list[list[str]]:
    """Return a line for each reference circle: of both ends its diameter and how far off it lies.

    A dash stands where an end has no radii or no such circle.
    """
    ends = [survey.batter, survey.resonant]
    if all(end.roundness is None for end in ends):
        return []
    return [[name, *_figures(ends[0], kind), *_figures(ends[1], kind)] for kind, name in CIRCLES]


def _figures(end: EndSurvey, kind: str) -> list[str]:
    circle: ReferenceCircle | None = getattr(end.roundness, kind, None)
    if circle is None or end.radii is None:
        return ["–", "–"]
    step = end.radii.resolution_mm
    size = print_mm(2.0 * circle.radius_mm, resolution_mm=max(step, SIZE_MM))
    return [size, print_mm(circle.total_mm, resolution_mm=step)]


def _across(across: Across, *, at: Places, say: Lengths) -> str:
    step = across.resolution_mm
    doubt = _at_least(across.doubt_mm, step)
    largest, smallest, mean = (
        say.length(size, resolution_mm=max(step, SIZE_MM))
        for size in (across.largest_mm, across.smallest_mm, across.mean_mm)
    )
    if across.difference_mm < step / 2.0:
        return f"{mean} across, the same wherever it was read, to {doubt}."
    return (
        f"Largest {largest} across, at {at.both(across.largest_deg)}; smallest {smallest}, at "
        f"{at.both(across.smallest_deg)}: out of round by "
        f"{print_mm(across.difference_mm, resolution_mm=step)}, give or take {doubt}."
    )


def _shape(waves: Sequence[Harmonic], *, at: Places, step_mm: float) -> list[str]:
    """The waves that stand clear of their doubt, largest first; off-centre is the bar's."""
    sure = sorted((w for w in waves if w.order > 1 and w.sure), key=lambda w: -w.amplitude_mm)
    if not sure:
        return []
    said = [
        f"{ROUND_NAMES.get(w.order, f'{w.order}-lobed')}, "
        f"{print_mm(w.amplitude_mm, resolution_mm=step_mm)} out at {_highs(w, at)}"
        for w in sure[:2]
    ]
    return [f"Shape: {'; '.join(said)}."]


def _highs(wave: Harmonic, at: Places) -> str:
    step = 360.0 / wave.order
    if wave.order > 3:
        return f"{at(wave.high_deg)} and every {round(step, 1):g}° on"
    around = sorted((wave.high_deg + n * step + 0.25) % 360.0 - 0.25 for n in range(wave.order))
    return listed([at(deg) for deg in around])


def _lean(flat: Flatness, *, at: Places) -> list[str]:
    """Tilt and saddle, from high to low, where they stand clear of their doubt."""
    step = flat.resolution_mm
    lines = []
    if flat.tilt.amplitude_mm > 2.0 * flat.tilt.doubt_mm and flat.tilt.amplitude_mm >= step:
        lean = print_mm(2.0 * flat.tilt.amplitude_mm, resolution_mm=step)
        lines.append(f"Leans {lean} from side to side, highest at {at(flat.tilt.high_deg)}.")
    saddle = flat.saddle
    if saddle is not None and saddle.sure and saddle.amplitude_mm >= step:
        deep = print_mm(2.0 * saddle.amplitude_mm, resolution_mm=step)
        lines.append(f"A saddle of {deep}, high at {at.both(saddle.high_deg)}.")
    return lines


def _at_least(doubt_mm: float, step_mm: float) -> str:
    return print_mm(max(doubt_mm, step_mm), resolution_mm=step_mm)


def _apart(a_deg: float, b_deg: float) -> float:
    return abs((a_deg - b_deg + 180.0) % 360.0 - 180.0)
