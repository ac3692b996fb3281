"""A scheme in the making: what stands, what goes, which holes are used, what is drilled."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import count

from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape
from counterhoop.errors import BadInput
from counterhoop.scheme.ground import Ground
from counterhoop.scheme.layout import FittingPlan, HoopPlan
from counterhoop.scheme.row_put import RowPut
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.hole import Condition, Hole, Origin


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """An old hole that a fitting goes on using: kept, enlarged or slotted.

    ``of`` is the label of the fitting, ``serves`` says which of its holes this is.
    """

    number: int
    verdict: Verdict
    of: str
    serves: str
    off_mm: float = 0.0
    new: HoleShape | None = None
    new_place: Place | None = None
    washer_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A hole to be drilled new, for the fitting with the label ``of``."""

    place: Place
    shape: HoleShape
    of: str
    serves: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """Immutable state that each wish turns into one or more further drafts.

    ``rows`` are those put on so far, in order. ``steps`` are the parts of the heading, one for
    each wish: its pattern, then what tells this draft from its fellows. ``spoken`` are sentences
    on near misses gathered on the way; ``centred`` turns false when a row lies off its proper
    height or half spacing.
    """

    ground: Ground
    fittings: tuple[FittingPlan, ...]
    uses: tuple[Use, ...] = ()
    cuts: tuple[Cut, ...] = ()
    hoops: tuple[HoopPlan, ...] = ()
    plug_only: tuple[int, ...] | None = None  # holes that may be plugged; None: any left over
    open_under: tuple[int, ...] = ()  # holes left as they are under a plate
    steps: tuple[tuple[str, ...], ...] = ()
    spoken: tuple[str, ...] = ()
    rows: tuple[RowPut, ...] = ()
    centred: bool = True
    work: tuple[tuple[str, int], ...] = ()  # operations that no verdict or fitting implies

    @property
    def standing(self) -> tuple[FittingPlan, ...]:
        """What is on the drum so far."""
        return tuple(f for f in self.fittings if f.status != "goes")

    def pinned(self, head: str) -> bool:
        """Whether the hoop of a head cannot be turned."""
        return any(hoop.head == head and hoop.pinned for hoop in self.hoops) or any(
            row.head == head and row.pinned for row in self.ground.drum.rows
        )

    def called(self, label: str) -> FittingPlan:
        """Return the fitting of that label: standing, or taken off already, or missing.

        Raises
        ------
        BadInput
            When the drum never had one of that name.
        """
        known = (*self.standing, *self.fittings, *self.ground.missing)
        found = next((plan for plan in known if plan.label == label), None)
        if found is None:
            names = ", ".join(f'"{plan.label}"' for plan in known if not plan.row)
            raise BadInput(
                "nothing on this drum is called that",
                where=f"drums.{self.ground.drum.key}.wish",
                given=label,
                wanted=f"one of {names}" if names else "a fitting entered under fittings",
            )
        return found

    def unused(self, label: str) -> str:
        """Return a label that nothing standing has: "bracket", then "bracket 2" and so on."""
        taken = {plan.label for plan in self.standing}
        names = (label if n == 1 else f"{label} {n}" for n in count(1))
        return next(name for name in names if name not in taken)

    @property
    def pattern(self) -> str:
        """What sort of change: the pattern of each wish, in order."""
        return ", ".join(step[0] for step in self.steps)

    @property
    def free_holes(self) -> tuple[Hole, ...]:
        """Holes that nothing on the drum uses so far."""
        used = {use.number for use in self.uses}
        return tuple(hole for hole in self.ground.holes if hole.number not in used)

    def named(self, *, pattern: str = "", called: str = "") -> Draft:
        """Add to what the scheme is called."""
        steps = (*self.steps, (pattern,)) if pattern else self.steps
        if called:
            *before, last = steps or ((),)
            steps = (*before, last if called in last else (*last, called))
        return replace(self, steps=steps)

    def saying(self, *sentences: str) -> Draft:
        """Add sentences."""
        new = tuple(s for s in sentences if s and s not in self.spoken)
        return replace(self, spoken=(*self.spoken, *new))

    def only_here(self, *words: str) -> Draft:
        """Mark words of the heading, or sentences, that hold for the last row's place alone."""
        *before, last = self.rows
        said = tuple(word for word in words if word)
        row = replace(last, only_here=(*last.only_here, *said), step=len(self.steps) - 1)
        return replace(self, rows=(*before, row))

    def without(self, *labels: str) -> Draft:
        """Take fittings off: their holes are free again, their shadow stays behind.

        One that an earlier wish put on leaves nothing: its holes are not drilled at all.
        """
        gone = set(labels)
        fittings = tuple(
            replace(f, status="goes") if f.label in gone and f.status == "stays" else f
            for f in self.fittings
            if not (f.label in gone and f.status == "new")
        )
        freed = tuple(use.number for use in self.uses if use.of in gone)
        return replace(
            self,
            fittings=fittings,
            uses=tuple(use for use in self.uses if use.of not in gone),
            cuts=tuple(cut for cut in self.cuts if cut.of not in gone),
            rows=tuple(row for row in self.rows if gone.isdisjoint(row.labels)),
            plug_only=None if self.plug_only is None else (*self.plug_only, *freed),
        )

    def with_fittings(
        self, fittings: tuple[FittingPlan, ...], *, uses: tuple[Use, ...], cuts: tuple[Cut, ...]
    ) -> Draft:
        """Put fittings on with the holes that they use and those that they need."""
        return replace(
            self,
            fittings=(*self.fittings, *fittings),
            uses=(*self.uses, *uses),
            cuts=(*self.cuts, *cuts),
        )


def draft_of(ground: Ground) -> Draft:
    """Return the drum as it stands: every fitting stays on its holes."""
    uses = tuple(use for plan in ground.fittings for use in own_holes(plan, ground=ground))
    return Draft(ground=ground, fittings=ground.fittings, uses=uses, hoops=ground.hoops)


def own_holes(plan: FittingPlan, *, ground: Ground) -> tuple[Use, ...]:
    """Return the holes that a fitting was found on, kept for it, but for those cut away."""
    here = {hole.number for hole in ground.holes}
    return tuple(
        Use(number=number, verdict=Verdict.KEEP, of=plan.label, serves=serves(plan, index))
        for index, number in enumerate(plan.holes)
        if number in here
    )


SWAPPED = {"upper": "lower", "lower": "upper", "left": "right", "right": "left"}


def serves(plan: FittingPlan, index: int) -> str:
    """Say which hole of a fitting one is, upper and lower as it stands on the shell.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> lug = packaged_book().find("Corvane round lug")
    >>> plan = FittingPlan(label="lug 1", fitting=lug, place=Place(0.0, 100.0), turned_deg=180.0)
    >>> lug.holes[0].called, serves(plan, 0)
    ('upper', 'lug 1, lower')
    """
    holes = plan.fitting.holes
    called = holes[index].called if index < len(holes) else ""
    if plan.turned_deg % 360.0 == 180.0:
        called = " ".join(SWAPPED.get(word, word) for word in called.split(" "))
    return f"{plan.label}, {called}" if called else plan.label


def is_vent(hole: Hole) -> bool:
    """Whether a hole is the vent."""
    return "vent" in hole.purpose.casefold()


def is_plugged(hole: Hole) -> bool:
    """Whether an earlier owner closed it."""
    return hole.condition in (Condition.DOWEL, Condition.FACE_GRAIN)


def may_serve(hole: Hole) -> bool:
    """Whether an old hole is sound enough to hold a fitting again."""
    return hole.condition in (Condition.SOUND, Condition.WORN) and not is_vent(hole)


def is_extra(hole: Hole) -> bool:
    """Whether somebody made it after the drum left the factory."""
    return hole.origin is Origin.EXTRA
