"""What a drum of one head sounds like once it has two, and the other way round."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from counterhoop.heads.air import Air, air_at
from counterhoop.heads.beside import tension_beside
from counterhoop.heads.head import Head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.mode import Standing
from counterhoop.heads.modes import batter_lug_mode, lowest, resonant_lug_mode
from counterhoop.heads.tension import rim_hz
from counterhoop.quantities.pitch import A4_HZ
from counterhoop.quantities.print_pitch import cents, print_hz, print_pitch

STAYS_CENTS = 10.0
"""What moves by less is said to stay: two strokes differ by as much."""
FAR_CENTS = 300.0
"""Pitches further apart are not taken for one that is uneven."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conversion:
    """A drum before and after, the batter head as tight as before.

    Attributes
    ----------
    adds : bool
        Whether the second head is put on, or taken off.
    batter_n_per_m, resonant_n_per_m : float
        Tensions.
    middle_before_hz, middle_after_hz, middle_cents : float
        Struck in the middle, both heads ringing: what the client hears; cents up.
    rim_before_hz, rim_after_hz, rim_cents : float
        Tapped near a rod, the other head muted: what is tuned by.
    together_hz : tuple of float
        The two pitches near a rod while both heads ring, the batter's own first.
    stays : bool
        Whether the pitch near a rod may be tuned by across the work.
    splits : bool
        Whether, unmuted, the other head draws it off by as much.
    standing : Standing
        What the figures were checked against.
    says : tuple of str
        In sentences.
    """

    adds: bool
    batter_n_per_m: float
    resonant_n_per_m: float
    middle_before_hz: float
    middle_after_hz: float
    rim_before_hz: float
    rim_after_hz: float
    together_hz: tuple[float, float]
    splits: bool
    standing: Standing
    says: tuple[str, ...] = ()

    @property
    def middle_cents(self) -> float:
        """How far the drum struck in the middle goes up."""
        return cents(self.middle_after_hz, above_hz=self.middle_before_hz)

    @property
    def rim_cents(self) -> float:
        """How far the pitch near a rod goes up, the other head muted."""
        return cents(self.rim_after_hz, above_hz=self.rim_before_hz)

    @property
    def stays(self) -> bool:
        """Whether that pitch stays where it was."""
        return abs(self.rim_cents) < STAYS_CENTS


def conversion(
    *,
    radius_m: float,
    depth_m: float,
    batter: Head,
    batter_n_per_m: float,
    resonant: Head,
    resonant_n_per_m: float | None = None,
    bottom_cents: float = 0.0,
    adds: bool = True,
    a4_hz: float = A4_HZ,
    air: Air | None = None,
) -> Conversion:
    """Return what a second head does to a drum, or what taking it off does.

    Parameters
    ----------
    radius_m, depth_m : float
        Of the shell; the same before and after.
    batter, batter_n_per_m : Head, float
        The head that stays as it is.
    resonant : Head
        The one that is put on or taken off.
    resonant_n_per_m : float, optional
        Its tension; by ``bottom_cents`` if left out.
    bottom_cents : float
        How far its pitch near a rod lies above the batter's, each with the other muted.
    adds : bool
        False: it is taken off.
    a4_hz : float
        What notes are named by.
    air : Air, optional
        20 degrees if left out.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> told = conversion(radius_m=0.1524, depth_m=0.2032, batter=film_head(254e-6),
    ...                   batter_n_per_m=1500.0, resonant=film_head(190.5e-6),
    ...                   resonant_n_per_m=1500.0)
    >>> 290 < told.middle_cents < 360, told.stays
    (True, True)
    """
    air = air or air_at()
    if resonant_n_per_m is None:
        resonant_n_per_m = tension_beside(
            batter_n_per_m, head=batter, other=resonant, cents=bottom_cents, radius_m=radius_m,
            depth_m=depth_m, air=air,
        )  # fmt: skip
    one = HeadedShell(
        radius_m=radius_m, depth_m=depth_m, batter=batter, batter_n_per_m=batter_n_per_m, air=air
    )
    two = replace(one, resonant=resonant, resonant_n_per_m=resonant_n_per_m)
    middle = [lowest(drum, 0).hz for drum in (one, two)]
    ends: tuple[Literal["open", "muted"], ...] = ("open", "muted")
    rim = [
        rim_hz(batter_n_per_m, radius_m=radius_m, depth_m=depth_m, head=batter, end=end, air=air)
        for end in ends
    ]
    if not adds:
        middle.reverse()
        rim.reverse()
    together = (batter_lug_mode(two).hz, resonant_lug_mode(two).hz)
    alone = rim[1] if adds else rim[0]
    told = Conversion(
        adds=adds,
        batter_n_per_m=batter_n_per_m,
        resonant_n_per_m=resonant_n_per_m,
        middle_before_hz=middle[0],
        middle_after_hz=middle[1],
        rim_before_hz=rim[0],
        rim_after_hz=rim[1],
        together_hz=together,
        splits=abs(cents(together[0], above_hz=alone)) >= STAYS_CENTS,
        standing=Standing.UNCHECKED,
    )
    calf = batter.calf or resonant.calf
    return replace(told, says=tuple(_sentences(told, calf=calf, a4_hz=a4_hz)))


def _sentences(told: Conversion, *, calf: bool, a4_hz: float) -> list[str]:
    up = told.middle_cents
    before, after = (
        print_pitch(hz, a4_hz=a4_hz) for hz in (told.middle_before_hz, told.middle_after_hz)
    )
    change = "with the second head on" if told.adds else "with the second head off"
    says = [
        f"Struck in the middle it sounds {semitones(up)} {change}: {after} where it was "
        f"{before}, the batter head as tight as before. That is what the client hears."
    ]
    near = print_pitch(told.rim_before_hz, a4_hz=a4_hz)
    if told.stays:
        says.append(
            f"Tapped near a rod, the other head muted, the batter stays at {near}, within "
            f"{STAYS_CENTS:.0f} cents: tune by that across the work."
        )
    else:
        says.append(
            f"Tapped near a rod the batter goes from {near} to "
            f"{print_pitch(told.rim_after_hz, a4_hz=a4_hz)} even with the other head muted, for "
            "the shell is shallow: allow for it where you tune by that."
        )
    if told.splits:
        says.append(_both_ring(told))
    if calf:
        says.append("With calf this holds for the weather of the day only.")
    says.append("Computed; nothing published was found to check a drum with an open end against.")
    return says


def _both_ring(told: Conversion) -> str:
    low, high = sorted(told.together_hz)
    apart = cents(high, above_hz=low)
    mute = "with all rods even: mute the other head before you judge a rod."
    if apart > FAR_CENTS:
        return (
            f"While both heads ring, the batter is drawn to {print_hz(told.together_hz[0])} {mute}"
        )
    return (
        f"While both heads ring, two pitches sound near every rod, {print_hz(low)} and "
        f"{print_hz(high)}, {round(apart / 5) * 5} cents apart {mute}"
    )


def semitones(up_cents: float) -> str:
    """Return an interval as a player would say it.

    Examples
    --------
    >>> semitones(323.0), semitones(-360.0), semitones(20.0), semitones(95.0)
    ('3 semitones higher', '3 1/2 semitones lower', 'the same', '1 semitone higher')
    """
    halves = round(abs(up_cents) / 50.0)
    if not halves:
        return "the same"
    whole, half = divmod(halves, 2)
    count = f"{whole or ''} {'1/2' if half else ''}".strip()
    plural = "" if halves <= 2 else "s"
    return f"{count} semitone{plural} {'higher' if up_cents > 0 else 'lower'}"
