"""A hole's sides become its centre, its size and where it lies."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Oval, Rectangle, Round, Slot
from counterhoop.errors import BadInput
from counterhoop.quantities.length import Length
from counterhoop.shell.hole import Hole, Origin
from counterhoop.shell.survey_file.models_hole import HoleWritten, SingleHole
from counterhoop.shell.survey_file.resolve_along import PlaceFinder, mean_deg
from counterhoop.shell.survey_file.resolve_height import Heights

DOUBT_MM = {"rule": 0.5, "tape": 0.5, "caliper": 0.1}
"""Half-width of one reading's doubt, common practice, no source."""
LARGEST_MM = 250.0
"""No hole in the wall of a drum is larger; more is a slip of unit."""
AGREE_MM = 1.0
"""Two readings of 0.5 mm: as far as sides and a diameter may disagree."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """One hole before it has its number: where it is written, and how it is worked out."""

    path: str
    number: int | None
    along: Callable[[], float]
    build: Callable[[int], Hole]


def shape_of(written: HoleWritten, *, where: str, sides_along_mm: float | None = None) -> HoleShape:
    """Return the hole's shape from its sizes and from the sides that were read.

    ``near`` and ``far`` give its extent down, sides read along its extent along.
    """
    sides_down_mm = _between(written, where=where)
    if written.shape == "round":
        return Round(_round(written, where=where, down=sides_down_mm, along=sides_along_mm))
    if written.dia is not None:
        raise BadInput(
            f"a {written.shape} has no one diameter",
            where=f"{where}.dia",
            given=written.dia.as_written,
            wanted='wide = "20 mm", tall = "12 mm"'
            if written.shape == "rectangle"
            else 'wide = "6 mm", long = "9 mm"',
        )
    if written.shape == "rectangle":
        _not_here(written, ("long", "lies"), where=where)
        wide = _size(written.wide, sides_along_mm, name="wide", where=where)
        return Rectangle(wide, _size(written.tall, sides_down_mm, name="tall", where=where))
    _not_here(written, ("tall",), where=where)
    lies = written.lies or "along"
    across, lengthways = (
        (sides_down_mm, sides_along_mm) if lies == "along" else (sides_along_mm, sides_down_mm)
    )
    wide = _size(written.wide, across, name="wide", where=where)
    long = _size(written.long, lengthways, name="long", where=where)
    if long < wide:
        raise BadInput(
            f"a {written.shape} wider than it is long",
            where=f"{where}.long",
            given=f"{wide:g} wide, {long:g} long",
            wanted='the larger size as long, and lies = "down" when it stands upright',
        )
    return Slot(wide, long, lies) if written.shape == "slot" else Oval(wide, long, lies)


def _between(written: HoleWritten, *, where: str) -> float | None:
    if written.near is None or written.far is None:
        return None
    between = written.far.mm - written.near.mm
    if between <= 0.0:
        raise BadInput(
            "the far side is not farther than the near side",
            where=f"{where}.far",
            given=written.far.as_written,
            wanted=f"more than near, {written.near.as_written}",
        )
    return between


def _round(written: HoleWritten, *, where: str, down: float | None, along: float | None) -> float:
    _not_here(written, ("wide", "long", "tall", "lies"), where=where)
    read = [size for size in (down, along) if size is not None]
    if written.dia is not None:
        read.insert(0, written.dia.mm)
    if not read:
        raise BadInput(
            "how large is the hole?",
            where=where,
            wanted='dia = "6 mm", or far, its side farthest from the edge',
        )
    if max(read) - min(read) > AGREE_MM:
        raise BadInput(
            "the sides and the diameter do not agree",
            where=where,
            given=" and ".join(f"{size:g} mm" for size in read),
            wanted="one size",
            step='Read it again, or write shape = "oval" with wide and long.',
        )
    return _possible(read[0], where=f"{where}.dia")


def _not_here(written: HoleWritten, names: tuple[str, ...], *, where: str) -> None:
    for name in names:
        if getattr(written, name) is not None:
            raise BadInput(
                f"a {written.shape} hole has no such size",
                where=f"{where}.{name}",
                wanted='dia for a round hole, or shape = "slot", "oval" or "rectangle"',
            )


def _size(written: Length | None, read: float | None, *, name: str, where: str) -> float:
    if written is not None:
        size_mm = written.mm
        if read is not None and abs(read - size_mm) > AGREE_MM:
            raise BadInput(
                "the sides and the size do not agree",
                where=f"{where}.{name}",
                given=f"{size_mm:g} mm and {read:g} mm",
                wanted="one size",
                step="Read it again.",
            )
    elif read is not None:
        size_mm = read
    else:
        raise BadInput("how large is it?", where=where, wanted=f'{name} = "9 mm"')
    return _possible(size_mm, where=f"{where}.{name}")


def _possible(size_mm: float, *, where: str) -> float:
    if size_mm > LARGEST_MM:
        raise BadInput(
            "impossible for a hole in a drum's wall",
            where=where,
            given=f"{size_mm:g} mm",
            wanted=f"at most {LARGEST_MM:g} mm",
            step="Look at the unit and the decimal point.",
        )
    return size_mm


def centre_down_mm(
    written: HoleWritten, *, shape: HoleShape, along_deg: float, heights: Heights, where: str
) -> float:
    """Return the centre's height from the batter edge, made from the sides that were read."""
    half = shape.size_mm[1] / 2.0
    if written.near is not None:
        given, read = written.near, written.near.mm + half
        if written.far is not None:
            read = (written.near.mm + written.far.mm) / 2.0
    elif written.far is not None:
        given, read = written.far, written.far.mm - half
    else:
        raise BadInput(
            "how high is it?", where=where, wanted='near = "38 mm", its side nearest the edge'
        )
    return heights.down_mm(
        read,
        from_edge=written.from_edge,
        along_deg=along_deg,
        where=f"{where}.{'near' if written.near is not None else 'far'}",
        given=given.as_written,
    )


def build_hole(
    written: HoleWritten,
    *,
    number: int,
    along_deg: float,
    shape: HoleShape,
    heights: Heights,
    where: str,
    said: str,
    read_with: str,
    purpose: str = "",
    origin: Origin = Origin.NOT_SURE,
    who: str = "",
) -> Hole:
    """Return the frozen record of a hole that was read by its sides."""
    return Hole(
        number=number,
        place=Place(
            along_deg,
            centre_down_mm(written, shape=shape, along_deg=along_deg, heights=heights, where=where),
        ),
        shape=shape,
        purpose=written.purpose or purpose,
        origin=written.origin if written.origin is not None else origin,
        who_says=written.who or who,
        condition=written.condition,
        doubt_mm=DOUBT_MM[written.read_with or read_with],
        as_written=as_written(written, said=said),
    )


def as_written(written: HoleWritten, *, said: str = "") -> str:
    """Return what was written down of a hole, in one line.

    Examples
    --------
    >>> as_written(HoleWritten(near="38.0 mm", dia="6 mm"), said="along 90 deg")
    'along 90 deg, near 38.0 mm, dia 6 mm'
    """
    parts = [said] if said else []
    for name in ("near", "far", "dia", "wide", "long", "tall"):
        length = getattr(written, name)
        if length is not None:
            parts.append(f"{name} {length.as_written}")
    if written.from_edge != "batter":
        parts.append(f"from the {written.from_edge} edge")
    return ", ".join(parts)


def single_site(
    written: SingleHole, *, finder: PlaceFinder, heights: Heights, read_with: str, where: str
) -> Site:
    """Return a hole on its own, ready to be worked out."""

    def sides_mm() -> float | None:
        if written.left_side is None or written.right_side is None:
            return None
        left = finder.find(written.left_side, where=f"{where}.left_side")
        right = finder.find(written.right_side, where=f"{where}.right_side")
        wide_deg = (right - left) % 360.0
        if not 0.0 < wide_deg < 180.0:
            raise BadInput(
                "the right side does not lie to the right of the left side",
                where=f"{where}.right_side",
                given=written.right_side.as_written,
                wanted="the side further along",
            )
        return finder.girth_mm * wide_deg / 360.0

    def along() -> float:
        if written.along is not None:
            if written.left_side is not None or written.right_side is not None:
                raise BadInput(
                    "its middle and a side along are both written",
                    where=f"{where}.along",
                    given=written.along.as_written,
                    wanted="along, or left_side and right_side",
                )
            return finder.find(written.along, where=f"{where}.along")
        if written.left_side is None and written.right_side is None:
            raise BadInput("where along is it?", where=where, wanted='along = "30 deg"')
        if written.left_side is not None and written.right_side is not None:
            sides_mm()
            return mean_deg(
                (
                    finder.find(written.left_side, where=f"{where}.left_side"),
                    finder.find(written.right_side, where=f"{where}.right_side"),
                )
            )
        half = finder.off_deg(shape_of(written, where=where).size_mm[0] / 2.0)
        if written.left_side is not None:
            return (finder.find(written.left_side, where=f"{where}.left_side") + half) % 360.0
        assert written.right_side is not None
        return (finder.find(written.right_side, where=f"{where}.right_side") - half) % 360.0

    def said() -> str:
        places = {
            "along": written.along,
            "left side": written.left_side,
            "right side": written.right_side,
        }
        return ", ".join(f"{name} {p.as_written}" for name, p in places.items() if p is not None)

    def build(number: int) -> Hole:
        return build_hole(
            written,
            number=number,
            along_deg=along(),
            shape=shape_of(written, where=where, sides_along_mm=sides_mm()),
            heights=heights,
            where=where,
            said=said(),
            read_with=read_with,
        )

    return Site(path=where, number=written.number, along=along, build=build)
