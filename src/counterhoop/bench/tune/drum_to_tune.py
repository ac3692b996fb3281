"""A drum of a planned job as tuning and listening ask for it, as it is and as it will be."""

from __future__ import annotations

from dataclasses import dataclass, field

from counterhoop.bench.heads_on import has_other_head, sounding_across_mm
from counterhoop.bench.plan_job import DrumPlan
from counterhoop.bench.tune.heads_written import HeadTaken, head_of
from counterhoop.bench.tune.rods_at import RodsOfHead, rods_of
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.heads.head import Head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.shell.tuning import Tuning
from counterhoop.survey.edge_profile import BACK_CUT_MM

_ENDS: tuple[End, ...] = ("batter", "resonant")


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumToTune:
    """One drum.

    Attributes
    ----------
    key, what : str
        Its name in the job, and its size in words.
    radius_m : float
        Of the film that sounds, inside the bearing edge's highest line.
    depth_now_m, depth_m : float
        As it stands; as it will be under the chosen scheme.
    heads_now, heads_then : int
        How many it wears, and will.
    batter, resonant : HeadTaken
        What goes on; the resonant one also where it has none yet.
    rods_now, rods_then : tuple of RodsOfHead
        Of each head that has rods, as found and under the chosen scheme.
    oval_mm : tuple of (End, float)
        Largest less smallest diameter, where that was read.
    diameter_mm : float
        Across the film that sounds.
    tuning : Tuning
        What is written down; empty where nothing is.
    assumed : tuple of str
        What was taken for granted, a sentence each.
    """

    key: str
    what: str
    radius_m: float
    depth_now_m: float
    depth_m: float
    heads_now: int
    heads_then: int
    batter: HeadTaken
    resonant: HeadTaken
    rods_now: tuple[RodsOfHead, ...]
    rods_then: tuple[RodsOfHead, ...]
    oval_mm: tuple[tuple[End, float], ...] = ()
    diameter_mm: float
    tuning: Tuning = field(default_factory=Tuning)
    assumed: tuple[str, ...] = ()

    @property
    def most_per_rod_n(self) -> float | None:
        """The restorer's own limit; None where there is none."""
        return self.tuning.most_per_rod_n

    def head(self, end: End) -> Head:
        """Return the head at one end.

        Raises
        ------
        BadInput
            For calf that nobody weighed.
        """
        taken = self.batter if end == "batter" else self.resonant
        if taken.head is None:
            raise BadInput(
                f"the {end} head is calf that nobody weighed",
                where=self.key,
                wanted="its weight without the hoop",
                step="Without it no pitch of it can be forecast.",
            )
        return taken.head

    def rods(self, end: End, *, then: bool = True) -> RodsOfHead | None:
        """Return the rods of a head, as they will be or as found."""
        every = self.rods_then if then else self.rods_now
        return next((one for one in every if one.head == end), None)

    def oval(self, end: End) -> float | None:
        """Return the largest less the smallest diameter at one end, where it was read."""
        return dict(self.oval_mm).get(end)

    def before(
        self, *, batter_n_per_m: float, resonant_n_per_m: float | None = None
    ) -> HeadedShell:
        """Return the drum as it stands, at these tensions."""
        return self._shell(self.depth_now_m, self.heads_now, batter_n_per_m, resonant_n_per_m)

    def then(self, *, batter_n_per_m: float, resonant_n_per_m: float | None = None) -> HeadedShell:
        """Return the drum as it will be, at these tensions."""
        return self._shell(self.depth_m, self.heads_then, batter_n_per_m, resonant_n_per_m)

    def _shell(
        self, depth_m: float, heads: int, batter_n_per_m: float, resonant_n_per_m: float | None
    ) -> HeadedShell:
        two = heads > 1
        return HeadedShell(
            radius_m=self.radius_m,
            depth_m=depth_m,
            batter=self.head("batter"),
            batter_n_per_m=batter_n_per_m,
            resonant=self.head("resonant") if two else None,
            resonant_n_per_m=(resonant_n_per_m or batter_n_per_m) if two else None,
        )


def drum_to_tune(plan: DrumPlan) -> DrumToTune:
    """Return a drum as tuning asks for it.

    Parameters
    ----------
    plan : DrumPlan
        Of a planned job; the chosen scheme says how the drum will be, the survey where there is
        none.
    """
    drum, tuning = plan.wanted.drum, plan.wanted.tuning or Tuning()
    then = plan.chosen.layout if plan.chosen is not None else plan.found
    across_mm = sounding_across_mm(drum)
    heads: dict[End, HeadTaken] = {
        end: head_of(tuning.head(end), end=end, kind=drum.kind, diameter_m=across_mm / 1000.0)
        for end in _ENDS
    }
    heads_then = 2 if has_other_head(then) else 1
    rods_now, rods_then = (
        tuple(rods for end in _ENDS if (rods := rods_of(lay, end, tuning=tuning)) is not None)
        for lay in (plan.found, then)
    )
    assumed = [heads["batter"].assumed]
    if heads_then > 1:
        assumed.append(heads["resonant"].assumed)
    assumed += dict.fromkeys(one.thread_from for one in rods_then if one.thread_assumed)
    if _edge_not_read(plan):
        assumed.append(
            f"The edge's highest line is taken to lie {BACK_CUT_MM:g} mm in from the outside."
        )
    survey = plan.surveyed.survey
    ovals = tuple(
        (end, across.largest_mm - across.smallest_mm)
        for end in _ENDS
        if (across := survey.at(end).across) is not None
    )
    return DrumToTune(
        key=plan.key,
        what=drum.says or drum.size_as_written or drum.kind.value,
        radius_m=across_mm / 2000.0,
        depth_now_m=plan.found.flat.depth_mm / 1000.0,
        depth_m=then.flat.depth_mm / 1000.0,
        heads_now=2 if has_other_head(plan.found) else 1,
        heads_then=heads_then,
        batter=heads["batter"],
        resonant=heads["resonant"],
        rods_now=rods_now,
        rods_then=rods_then,
        oval_mm=ovals,
        diameter_mm=across_mm,
        tuning=tuning,
        assumed=tuple(said for said in assumed if said),
    )


def _edge_not_read(plan: DrumPlan) -> bool:
    """Tell whether nobody read the cut of the batter edge."""
    return plan.wanted.drum.readings.at("batter").profile is None
