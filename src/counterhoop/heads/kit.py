"""A kit of drums, what a player wishes of its pitches, and the plan that answers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterhoop.errors import BadInput
from counterhoop.heads.air import Air
from counterhoop.heads.believed import believed
from counterhoop.heads.head import Head
from counterhoop.heads.mode import Standing
from counterhoop.heads.rods import EDGE_FRICTION, RodForce, RodTorque
from counterhoop.heads.turns import TurnGain, TurnsGuide
from counterhoop.quantities.pitch import A4_HZ, HIGHEST_HZ, LOWEST_HZ
from counterhoop.standards.threads import Thread

MOST_DRUMS = 8
LEAST_STEP_CENTS = 100
"""Drums less than a semitone apart are one pitch to a player. Common practice, no source."""
LEAST_A4_HZ, MOST_A4_HZ = 380.0, 480.0
"""What A4 has ever been, and some. Common knowledge, no source."""
HeardAs = Literal["middle", "rim"]
"""What a wished pitch names: the drum struck in the middle, both heads ringing; or its batter
head tapped near a rod, the other muted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KitDrum:
    """A drum as its pitch asks for it.

    Attributes
    ----------
    name : str
    radius_m, depth_m : float
        Of the bearing edge; of the shell as it will be.
    batter, resonant : Head, Head or None
        None: that end stays open.
    rods, resonant_rods : int, int or None
        Round each head; None: as many.
    thread : Thread or None
        Of the rods; without it there is no torque and there are no turns.
    rods_are : str
        See ``rods.nut_factor``.
    most_per_rod_n : float or None
        The restorer's own limit for these castings. None is none: no strength is known here.
    edge_friction : float
        See ``rods.rod_force``.
    bottom_cents : float or None
        How far the bottom head sits above the top; the wish's if None.
    batter_gain, resonant_gain : TurnGain or None
        What a turn was heard to do on this drum.
    """

    name: str
    radius_m: float
    depth_m: float
    batter: Head
    resonant: Head | None = None
    rods: int
    resonant_rods: int | None = None
    thread: Thread | None = None
    rods_are: str = "not known"
    most_per_rod_n: float | None = None
    edge_friction: float = EDGE_FRICTION
    bottom_cents: float | None = None
    batter_gain: TurnGain | None = None
    resonant_gain: TurnGain | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WishedPitch:
    """A pitch for one drum; with no drum named, for whichever is lowest or highest.

    ``heard`` says what it names, where that is not what the other pitches of the wish name.
    """

    hz: float
    drum: str = ""
    heard: HeardAs | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PitchWish:
    """What a player wishes of a kit; nothing at all is a wish too.

    Attributes
    ----------
    lowest, highest : WishedPitch or None
        Of the lowest and the highest drum.
    as_heard : tuple of WishedPitch
        Drums that stay as they sound, or are to match another that was heard.
    bottom_cents : float
        How far each bottom head sits above the top one, near a rod, the other muted.
    heard : HeardAs
        What these pitches name.
    least_step_cents : int
        From drum to drum.
    a4_hz : float
        What notes are named by.
    """

    lowest: WishedPitch | None = None
    highest: WishedPitch | None = None
    as_heard: tuple[WishedPitch, ...] = ()
    bottom_cents: float = 0.0
    heard: HeardAs = "middle"
    least_step_cents: int = LEAST_STEP_CENTS
    a4_hz: float = A4_HZ
    air: Air | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadPlan:
    """One head of a drum.

    Attributes
    ----------
    head : {"batter", "resonant"}
    rim_hz, note : float, str
        Its pitch near a rod, the other head muted; as it is said.
    n_per_m : float
        Tension.
    force : RodForce
        Of each rod.
    torque : RodTorque or None
        A guide; None without a thread.
    start, order : TurnsGuide or None, tuple of int
        Turns from finger-tight; in which order the rods are turned.
    says : tuple of str
        In sentences.
    """

    head: Literal["batter", "resonant"]
    rim_hz: float
    note: str
    n_per_m: float
    force: RodForce
    torque: RodTorque | None
    start: TurnsGuide | None
    order: tuple[int, ...]
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedDrum:
    """One drum of the plan.

    Attributes
    ----------
    name : str
    middle_hz, note : float, str
        Struck in the middle, both heads ringing; as it is said.
    low_hz, high_hz : float
        What the drum can do, named as the wish names its pitches.
    wished : bool
        Whether its pitch was wished; the plan chose it otherwise.
    batter, resonant : HeadPlan, HeadPlan or None
    standing : Standing
        What the figures were checked against.
    says : tuple of str
        In sentences.
    """

    name: str
    middle_hz: float
    note: str
    low_hz: float
    high_hz: float
    wished: bool
    batter: HeadPlan
    resonant: HeadPlan | None
    standing: Standing
    says: tuple[str, ...]

    @property
    def heads(self) -> tuple[HeadPlan, ...]:
        """The heads there are, batter first."""
        return (self.batter,) if self.resonant is None else (self.batter, self.resonant)


@dataclass(frozen=True, slots=True, kw_only=True)
class KitPlan:
    """Pitches for a kit.

    Attributes
    ----------
    drums : tuple of PlannedDrum
        By rising pitch; empty where the wish cannot be met.
    steps_cents : tuple of int
        From each to the next, as the wish names pitches.
    refusal : str
        Why there is no plan and what would do; "" where there is one.
    left_out : tuple of str
        Drums that get no plan, a sentence each.
    says : tuple of str
        Of the plan as a whole.
    """

    drums: tuple[PlannedDrum, ...] = ()
    steps_cents: tuple[int, ...] = ()
    refusal: str = ""
    left_out: tuple[str, ...] = ()
    says: tuple[str, ...] = ()


def check_kit(drums: tuple[KitDrum, ...], wish: PitchWish) -> None:
    """Refuse a kit or a wish that cannot be read.

    Raises
    ------
    BadInput
        For no drum, more than eight, two of one name, no rods, no pitch, a wish for a drum that
        is not there, one drum as both ends or no step between drums.
    """
    names = [drum.name for drum in drums]
    if not 1 <= len(drums) <= MOST_DRUMS:
        raise BadInput("a kit has 1 to 8 drums", where="kit", given=len(drums))
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise BadInput("two drums have one name", where="kit", given=twice[0])
    for drum in drums:
        if drum.rods < 1 or (drum.resonant_rods is not None and drum.resonant_rods < 1):
            raise BadInput("a head needs rods", where=drum.name, given=drum.rods)
        if drum.most_per_rod_n is not None and not drum.most_per_rod_n > 0.0:
            raise BadInput("must be more than nothing", where=f"{drum.name}.most_per_rod",
                           given=drum.most_per_rod_n)  # fmt: skip
    for wished in (wish.lowest, wish.highest, *wish.as_heard):
        if wished is not None:
            believed(wished.hz, where="kit", least=LOWEST_HZ, most=HIGHEST_HZ, unit="Hz")
        if wished is not None and wished.drum and wished.drum not in names:
            raise BadInput("no such drum in this kit", where="kit", given=wished.drum,
                           wanted=" or ".join(names))  # fmt: skip
    ends = [want.drum for want in (wish.lowest, wish.highest) if want is not None and want.drum]
    if len(drums) > 1 and len(ends) > len(set(ends)):
        raise BadInput("one drum cannot be both the lowest and the highest", where="kit",
                       given=ends[0])  # fmt: skip
    if any(not wished.drum for wished in wish.as_heard):
        raise BadInput("which drum was heard is not said", where="kit.as_heard")
    believed(wish.a4_hz, where="kit.a4", least=LEAST_A4_HZ, most=MOST_A4_HZ, unit="Hz")
    for bottom in (wish.bottom_cents, *(drum.bottom_cents or 0.0 for drum in drums)):
        believed(bottom, where="kit.bottom", least=-4800.0, most=4800.0, unit="cents")
    if wish.least_step_cents < 0:
        raise BadInput("cannot be less than nothing", where="kit.least_step")
