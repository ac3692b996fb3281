"""The ground a scheme is worked out on: the drum in the geometry that the finish plan gives."""

from __future__ import annotations

from dataclasses import dataclass, replace

from counterhoop.development.flat import Development
from counterhoop.development.heights import make_flat
from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin
from counterhoop.development.tape import girth_over_mm
from counterhoop.development.truing import Truing
from counterhoop.errors import BadInput
from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.layout import FittingPlan, HoopPlan, RowOf
from counterhoop.shell.drum import Drum, PlacedFitting
from counterhoop.shell.hole import Hole
from counterhoop.shell.wish import FinishPlan

NEW_WRAP_MM = 0.5  # common practice, no source: a plastic wrap when the plan names no thickness


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """A drum moved into the working geometry, with its fittings looked up in the book.

    Holes and fittings have heights from the new batter edge; what is cut away with an offcut is
    in ``cut_away`` and nowhere else.
    """

    drum: Drum
    finish: FinishPlan
    truing: Truing
    flat: Development
    holes: tuple[Hole, ...]
    cut_away: tuple[Hole, ...]
    fittings: tuple[FittingPlan, ...]
    missing: tuple[FittingPlan, ...]
    hoops: tuple[HoopPlan, ...]

    def hole(self, number: int) -> Hole:
        """Return a hole of the shell by its number."""
        return next(hole for hole in self.holes if hole.number == number)


def working_skin(drum: Drum, finish: FinishPlan) -> Skin:
    """Return the skin that is laid out and drilled: bare where the old finish comes off."""
    if finish.kind == "new wrap":
        return Skin.NEW
    return Skin.OLD if finish.kind == "stays" else Skin.BARE


def ground_of(drum: Drum, *, finish: FinishPlan, book: Book) -> Ground:
    """Move a drum as found into the geometry that a finish plan gives.

    Raises
    ------
    BadInput
        When a fitting is not in the book.
    """
    flat = flat_of(drum, finish=finish)
    holes: list[Hole] = []
    gone: list[Hole] = []
    for hole in drum.holes:
        moved = replace(hole, place=_moved(hole.place, finish.truing))
        inside = 0.0 <= moved.place.down_mm <= flat.depth_at_mm(moved.place.along_deg)
        (holes if inside else gone).append(moved)
    plans = tuple(_plans(drum, truing=finish.truing, book=book))
    missing = {lug.label for lug in drum.everything if lug.missing}
    return Ground(
        drum=drum,
        finish=finish,
        truing=finish.truing,
        flat=flat,
        holes=tuple(holes),
        cut_away=tuple(gone),
        fittings=tuple(plan for plan in plans if plan.label not in missing),
        missing=tuple(plan for plan in plans if plan.label in missing),
        hoops=tuple(_hoops(drum, book=book)),
    )


def flat_of(drum: Drum, *, finish: FinishPlan) -> Development:
    """Return the shell laid flat on the surface that is worked on, after any truing."""
    girth_mm = drum.circumference.mean_mm
    if drum.circumference.skin is Skin.BARE:
        girth_mm = girth_over_mm(girth_mm, thickness_mm=drum.finish.thickness_mm)
    new_mm = NEW_WRAP_MM if finish.thickness_mm is None else finish.thickness_mm
    return make_flat(
        girth_mm,
        skin=working_skin(drum, finish),
        old_finish_mm=drum.finish.thickness_mm,
        new_finish_mm=new_mm if finish.kind == "new wrap" else 0.0,
        wall_bare_mm=drum.wall_mm,
        depth_mm=drum.depth_mm,
        rings=drum.rings,
        truing=finish.truing,
        depth_cos_mm=drum.depth_cos_mm,
        depth_sin_mm=drum.depth_sin_mm,
    )


def _moved(place: Place, truing: Truing) -> Place:
    return truing.moved(place) if truing.any else place


def _plans(drum: Drum, *, truing: Truing, book: Book) -> list[FittingPlan]:
    plans = []
    for row in drum.rows:
        for lug in row.lugs:
            entry = book.find(lug.fitting, where=f"drums.{drum.key}.rows")
            both = entry.kind is Kind.LONG_LUG
            plans.append(_plan(lug, entry, drum, truing, row="both" if both else row.head))
    for placed in drum.fittings:
        entry = book.find(placed.fitting, where=f"drums.{drum.key}.fittings")
        plans.append(_plan(placed, entry, drum, truing, row=""))
    return plans


def _reference(placed: PlacedFitting, entry: Fitting, drum: Drum) -> Place:
    """Where the entry's own reference point lies: its hole pattern laid over the holes read.

    A survey that gives holes only knows their middle; the middle of the entry's pattern need not
    be its reference point.
    """
    if placed.place_from != "holes" or not placed.holes or len(placed.holes) != len(entry.holes):
        return placed.place
    middle = Outline(tuple((h.right_mm, h.down_mm) for h in entry.holes)).turned(placed.turned_deg)
    right_mm = sum(x for x, _ in middle.points) / len(middle.points)
    down_mm = sum(y for _, y in middle.points) / len(middle.points)
    girth_mm = drum.circumference.mean_mm
    return Place(
        placed.place.along_deg - right_mm * 360.0 / girth_mm, placed.place.down_mm - down_mm
    )


def _plan(
    placed: PlacedFitting, entry: Fitting, drum: Drum, truing: Truing, *, row: RowOf
) -> FittingPlan:
    return FittingPlan(
        label=placed.label,
        fitting=entry,
        place=_moved(_reference(placed, entry, drum), truing),
        turned_deg=placed.turned_deg,
        row=row,
        holes=placed.holes,
    )


def _hoops(drum: Drum, *, book: Book) -> list[HoopPlan]:
    named = {row.head: row.hoop for row in drum.rows if row.hoop}
    named |= {head: name for head, name in drum.hoops if head not in named}
    pinned = {row.head for row in drum.rows if row.pinned}
    return [
        HoopPlan(head=head, hoop=_hoop(name, drum, book=book), pinned=head in pinned)
        for head, name in named.items()
    ]


def _hoop(name: str, drum: Drum, *, book: Book) -> Fitting:
    where = f"drums.{drum.key}.hoops"
    entry = book.find(name, where=where)
    if entry.kind is not Kind.HOOP:
        raise BadInput(
            "that is not a hoop", where=where, given=name, wanted="the name of a hoop in the book"
        )
    return entry
