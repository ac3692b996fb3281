"""The parts of the truing sheet that show how edges and snare beds are cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from counterhoop.development.flat import End
from counterhoop.development.truing import Truing
from counterhoop.papers.drawing.bed_strip import draw_bed
from counterhoop.papers.drawing.edge_section import SCALE, draw_section
from counterhoop.papers.drawing.pens import PRINT
from counterhoop.papers.drawing.records import Drawing
from counterhoop.papers.edge_words import contact_line, profile_lines
from counterhoop.papers.facts import Lengths
from counterhoop.papers.svg import to_svg
from counterhoop.papers.truing_heights import degrees
from counterhoop.quantities.print_length import CALIPER_MM
from counterhoop.shell.drum import Bed, Drum
from counterhoop.shell.shop_rules import ShopRules
from counterhoop.survey.drum_survey import bare_across_mm
from counterhoop.survey.edge_profile import EdgeProfile, profile_of
from counterhoop.survey.edge_profile_contact import BELOW_MM, Contact, film_contact
from counterhoop.survey.snare_bed import bed_after, ramp, wood_off_mm

NOT_READ = (
    "Nobody read its cut: take the section on a card before the first stroke, and cut the same"
    " again. On an end that never had one, cut that of the other end."
)
Parts = tuple[list[dict[str, Any]], dict[str, str]]


def section_parts(drum: Drum, ends: Sequence[End], *, say: Lengths) -> Parts:
    """Return the sections of the named edges as they are and are cut again, and the drawings.

    Edges alike are drawn once.
    """
    parts: list[dict[str, Any]] = []
    images: dict[str, str] = {}
    for end in ends:
        made = _section(drum, end, say=say)
        twin = next((p for p in parts if p["cut"] == made.cut and p["lines"] == made.lines), None)
        if twin is not None:
            twin["name"] = f"Both edges{made.cut}"
            continue
        image = ""
        if made.drawing is not None:
            image = f"section-{end}"
            images[image] = to_svg(made.drawing, palette=PRINT, ident=f"{image}-")
        parts.append(
            {
                "name": f"{end.capitalize()} edge{made.cut}",
                "cut": made.cut,
                "lines": made.lines,
                **_shown(image, made.drawing),
            }
        )
    return parts, images


@dataclass(frozen=True, slots=True, kw_only=True)
class _Section:
    """What there is to say and to see of one edge's cut."""

    cut: str
    lines: list[str]
    drawing: Drawing | None = None


def _ring_mm(drum: Drum, end: End) -> float:
    return next((ring.thick_mm for ring in drum.rings if ring.end == end), 0.0)


def _section(drum: Drum, end: End, *, say: Lengths) -> _Section:
    profile = profile_of(drum, end)
    if profile is None:
        return _Section(cut=".", lines=[NOT_READ])
    bare_mm = bare_across_mm(drum, end)
    lines = profile_lines(profile, bare_mm=bare_mm, say=say)
    contact = _contact(drum, end, profile, bare_mm=bare_mm)
    if contact is not None:
        lines.append(contact_line(contact, below_mm=BELOW_MM, say=say))
    return _Section(
        cut=f": {profile.cut}, as found and to be cut again",
        lines=lines,
        drawing=draw_section(
            profile,
            title=f"Section of the {end} edge",
            says=f"Section of the {end} edge, {SCALE:g} times as large. {' '.join(lines)}",
            ring_mm=_ring_mm(drum, end),
            contact=contact,
            film_below_mm=BELOW_MM,
        ),
    )


def _shown(image: str, drawing: Drawing | None) -> dict[str, Any]:
    if drawing is None:
        return {"image": "", "alt": "", "wide": 0.0}
    return {"image": image, "alt": drawing.says, "wide": drawing.width_mm * drawing.scale}


def _contact(drum: Drum, end: End, profile: EdgeProfile, *, bare_mm: float) -> Contact | None:
    """Where the measured head lies; None when there is none, or it does not go on."""
    head = drum.readings.at(end).head
    if head is None or head.collar_mm < bare_mm:
        return None
    return film_contact(profile, bare_mm=bare_mm, collar_mm=head.collar_mm)


def bed_parts(drum: Drum, *, truing: Truing, rules: ShopRules, say: Lengths) -> Parts:
    """Return the snare beds as found and as truing leaves them; beds alike are drawn once."""
    parts: list[dict[str, Any]] = []
    images: dict[str, str] = {}
    for beds in _alike(drum.beds):
        offs = [wood_off_mm(drum, truing=truing, along_deg=bed.along_deg) for bed in beds]
        places = " and ".join(degrees(bed.along_deg) for bed in beds)
        name = f"Snare bed{'s' if len(beds) > 1 else ''} at {places}"
        slope = ramp(beds[0])
        if slope is None:
            unread = ["Width and depth were not read."]
            parts.append({"name": name, "lines": unread, **_shown("", None)})
            continue
        lines = [_found(beds[0], factor=slope.factor, rules=rules, say=say)]
        lines += [_left(bed, off, say=say) for bed, off in zip(beds, offs, strict=True) if off]
        image = f"bed-{drum.beds.index(beds[0]) + 1}"
        drawing = draw_bed(
            beds[0],
            off_mm=sum(offs) / len(offs),
            title=name,
            says=f"{name}, seen from outside. {' '.join(lines)}",
        )
        images[image] = to_svg(drawing, palette=PRINT, ident=f"{image}-")
        parts.append({"name": name, "lines": lines, **_shown(image, drawing)})
    return parts, images


def _alike(beds: Sequence[Bed]) -> list[list[Bed]]:
    """Put beds of one size together."""
    groups: dict[tuple[float, ...], list[Bed]] = {}
    for bed in beds:
        size = tuple(round(v, 1) for v in (bed.wide_mm, bed.flat_mm, bed.deep_mm))
        groups.setdefault(size, []).append(bed)
    return list(groups.values())


def _found(bed: Bed, *, factor: float, rules: ShopRules, say: Lengths) -> str:
    flat = f", {say.length(bed.flat_mm)} of it flat" if bed.flat_mm else ", its flat not read"
    deep = say.length(bed.deep_mm, resolution_mm=CALIPER_MM)
    return (
        f"As found {say.length(bed.wide_mm)} wide{flat}, {deep} deep, ramps 1 in {factor:.0f}; your"
        f" rule is 1 in {rules.bed_ramp_factor:.0f} at most. Ramps straight, ends eased by hand."
    )


def _left(bed: Bed, off_mm: float, *, say: Lengths) -> str:
    left = bed_after(bed, off_mm=off_mm)
    now = "nothing is left of it: cut it anew"
    if left is not None:
        deep = say.length(left.deep_mm, resolution_mm=CALIPER_MM)
        now = f"it is {deep} deep and {say.length(left.wide_mm)} wide"
    off = say.length(off_mm, resolution_mm=CALIPER_MM)
    return f"At {degrees(bed.along_deg)} {off} comes off the edge; then {now}."
