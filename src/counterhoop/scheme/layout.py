"""The drum as a scheme leaves it: the geometry, every hole and every fitting."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from counterhoop.development.flat import Development, End
from counterhoop.development.outline import Outline
from counterhoop.development.place import Place
from counterhoop.development.truing import Truing
from counterhoop.fittings.entry import Fitting
from counterhoop.scheme.verdict import HolePlan
from counterhoop.shell.drum import Drum, Mark
from counterhoop.shell.wish import FinishPlan

RowOf: TypeAlias = Literal["batter", "resonant", "both", ""]


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingPlan:
    """A fitting under a scheme.

    ``place`` is in the scheme's own geometry. ``status`` says whether it stays where it is, is
    new on the drum, or goes. ``row`` is the head whose row it belongs to ("both" for long lugs).
    """

    label: str
    fitting: Fitting
    place: Place
    turned_deg: float = 0.0
    status: Literal["stays", "new", "goes"] = "stays"
    row: RowOf = ""
    holes: tuple[int, ...] = ()

    @property
    def outline(self) -> Outline | None:
        """Base turned as it stands, about its reference point."""
        base = self.fitting.base
        return None if base is None else base.turned(self.turned_deg)

    def height_mm(self, down_mm: float) -> float:
        """Down of a point of the entry (a mouth) as the fitting stands (turned 0 or 180)."""
        return self.place.down_mm + (down_mm if self.turned_deg % 360.0 != 180.0 else -down_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class HoopPlan:
    """The hoop of one head under a scheme."""

    head: End
    hoop: Fitting
    pinned: bool = False
    new: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RodPlan:
    """The rods of one head: what length the stack asks for, and what is chosen.

    Lengths are under the head. ``least_mm`` engages the thread as the rules want,
    ``most_mm`` stays clear of the bottom.
    """

    head: End
    count: int
    thread: str
    least_mm: float
    most_mm: float
    rod: Fitting | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Everything on the shell under a scheme, in one geometry.

    Attributes
    ----------
    drum : Drum
        As found; its heights are before truing.
    flat : Development
        The working geometry: surface worked on, depth after truing or shortening.
    truing : Truing
        From as found to ``flat``.
    holes, fittings : tuple
        ``holes`` includes what is plugged; holes cut away with an offcut are not in it.
        ``fittings`` includes those that go (their shadow may stay).
    marks : tuple of Mark
        Shadows and imprints that are there afterwards, covered or not, in this geometry:
        those found, and those of fittings that go, unless the finish plan takes them away.
    """

    drum: Drum
    flat: Development
    truing: Truing
    finish: FinishPlan
    holes: tuple[HolePlan, ...]
    fittings: tuple[FittingPlan, ...]
    hoops: tuple[HoopPlan, ...] = ()
    rods: tuple[RodPlan, ...] = ()
    marks: tuple[Mark, ...] = ()

    @property
    def put_on_again(self) -> frozenset[str]:
        """Labels of fittings that come off and go on again elsewhere: the same part, moved."""
        off = {(f.label, f.fitting.name) for f in self.fittings if f.status == "goes"}
        new = {(f.label, f.fitting.name) for f in self.fittings if f.status == "new"}
        return frozenset(label for label, _ in off & new)

    @property
    def standing(self) -> tuple[FittingPlan, ...]:
        """Fittings that are on the drum afterwards."""
        return tuple(f for f in self.fittings if f.status != "goes")

    def lugs(self, head: End) -> tuple[FittingPlan, ...]:
        """Lugs that serve a head afterwards, in order along."""
        serving = [f for f in self.standing if f.row in (head, "both")]
        return tuple(sorted(serving, key=lambda f: f.place.along_deg))
