"""A drum of a planned job as tuning and listening ask for it, as it is and as it will be."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from counterhoop.bench.plan_job import DrumPlan
from counterhoop.bench.tune.heads_written import HeadTaken, head_of
from counterhoop.bench.tune.rods_at import RodsOfHead, rods_of
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.heads.head import Head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.drum import Drum
from counterhoop.shell.job import DrumWanted
from counterhoop.shell.tuning import Stage, Tuning
from counterhoop.survey.drum_survey import DrumSurvey, bare_across_mm
from counterhoop.survey.edge_profile import BACK_CUT_MM, profile_of

ENDS: tuple[End, ...] = ("batter", "resonant")


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

    def taken(self, end: End) -> HeadTaken:
        """Return the head at one end, with what was taken for granted of it."""
        return self.batter if end == "batter" else self.resonant

    def head(self, end: End) -> Head:
        """Return the head at one end.

        Raises
        ------
        BadInput
            For calf that nobody weighed.
        """
        taken = self.taken(end)
        if taken.head is None:
            raise BadInput(
                f"the {end} head is calf that nobody weighed",
                where=self.key,
                wanted="its weight without the hoop",
                step="Without it no pitch of it can be forecast.",
            )
        return taken.head

    def rods(self, end: End) -> RodsOfHead | None:
        """Return the rods of a head, as they will be; ``at`` tells of a stage before."""
        return next((one for one in self.rods_then if one.head == end), None)

    def oval(self, end: End) -> float | None:
        """Return the largest less the smallest diameter at one end, where it was read."""
        return dict(self.oval_mm).get(end)

    def at(self, stage: Stage) -> DrumToTune:
        """Return the drum as it is at a stage of the work: before, nothing is done yet."""
        if stage != "before":
            return self
        has = {one.head for one in self.rods_now}
        return replace(
            self,
            depth_m=self.depth_now_m,
            heads_then=self.heads_now,
            # Who taps a head that has no rods yet means those that it is to have.
            rods_then=(*self.rods_now, *(one for one in self.rods_then if one.head not in has)),
        )

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


def drum_to_tune(plan: DrumPlan, *, scheme: Scheme | None = None) -> DrumToTune:
    """Return a drum as tuning asks for it.

    Parameters
    ----------
    plan : DrumPlan
        Of a planned job.
    scheme : Scheme, optional
        How the drum will be; the chosen one where none is named, and as found where there is none.
    """
    then = scheme or plan.chosen
    return drum_between(
        plan.wanted,
        found=plan.found,
        then=plan.found if then is None else then.layout,
        survey=plan.surveyed.survey,
    )


def drum_between(
    wanted: DrumWanted, *, found: Layout, then: Layout, survey: DrumSurvey | None = None
) -> DrumToTune:
    """Return a drum between one layout and another.

    Edges are taken as flat and the shell as round; what was read of its oval stands beside.
    """
    drum, tuning = wanted.drum, wanted.tuning or Tuning()
    across_mm = _sounding_across_mm(drum)
    heads: dict[End, HeadTaken] = {
        end: head_of(tuning.head(end), end=end, kind=drum.kind, diameter_m=across_mm / 1000.0)
        for end in ENDS
    }
    heads_then = _heads_on(then)
    rods_now, rods_then = (
        tuple(rods for end in ENDS if (rods := rods_of(lay, end, tuning=tuning)) is not None)
        for lay in (found, then)
    )
    on = [heads[end] for end in ENDS[:heads_then]]
    assumed = [said for head in on for said in (head.assumed, head.collar_assumed)]
    assumed += dict.fromkeys(one.thread_from for one in rods_then if one.thread_assumed)
    if drum.readings.at("batter").profile is None:
        assumed.append(
            f"The edge's highest line is taken to lie {BACK_CUT_MM:g} mm in from the outside."
        )
    ovals = tuple(
        (end, across.largest_mm - across.smallest_mm)
        for end in ENDS
        if survey is not None and (across := survey.at(end).across) is not None
    )
    return DrumToTune(
        key=drum.key,
        what=drum.says or drum.size_as_written or drum.kind.value,
        radius_m=across_mm / 2000.0,
        depth_now_m=found.flat.depth_mm / 1000.0,
        depth_m=then.flat.depth_mm / 1000.0,
        heads_now=_heads_on(found),
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


def _heads_on(layout: Layout) -> int:
    """Count the ends at which anything holds a head; the batter's is taken for granted."""
    held = layout.lugs("resonant") or any(hoop.head == "resonant" for hoop in layout.hoops)
    return 2 if held else 1


def _sounding_across_mm(drum: Drum) -> float:
    """Return across what the batter film sounds: from apex to apex.

    Where the edge was not read, its apex is taken to lie as far in as a usual counter-cut's.
    """
    bare_mm = bare_across_mm(drum, "batter")
    profile = profile_of(drum, "batter")
    return bare_mm - 2.0 * BACK_CUT_MM if profile is None else profile.head_mm(bare_mm)
