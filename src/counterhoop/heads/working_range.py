"""What pitches a drum can do: film neither slack nor torn, no rod beyond the restorer's limit."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.heads.air import Air
from counterhoop.heads.beside import tension_beside
from counterhoop.heads.head import Head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.kit import HeardAs, KitDrum
from counterhoop.heads.modes import lowest
from counterhoop.heads.rods import tension_of_rods
from counterhoop.heads.tension import (
    SLACKEST_N_PER_M,
    TIGHTEST_N_PER_M,
    rim_hz,
    tension_from_pitch,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice:
    """A drum whose bottom head follows its top head, and how its pitch is named.

    Attributes
    ----------
    drum : KitDrum
    bottom_cents : float
        How far the bottom head sits above the top.
    heard : HeardAs
    air : Air
    """

    drum: KitDrum
    bottom_cents: float
    heard: HeardAs
    air: Air

    def resonant_n_per_m(self, batter_n_per_m: float) -> float | None:
        """Return the tension of the bottom head that goes with one of the top head."""
        if self.drum.resonant is None:
            return None
        return self._beside(batter_n_per_m, self.drum.batter, self.drum.resonant, self.bottom_cents)

    def rim_hz(self, batter_n_per_m: float) -> float:
        """Return the pitch of the top head near a rod, the other head muted or not there."""
        drum = self.drum
        return rim_hz(
            batter_n_per_m, radius_m=drum.radius_m, depth_m=drum.depth_m, head=drum.batter,
            end="open" if drum.resonant is None else "muted", air=self.air,
        )  # fmt: skip

    def middle_hz(self, batter_n_per_m: float) -> float:
        """Return the pitch of the drum struck in the middle."""
        drum = self.drum
        shell = HeadedShell(
            radius_m=drum.radius_m, depth_m=drum.depth_m, batter=drum.batter,
            batter_n_per_m=batter_n_per_m, resonant=drum.resonant,
            resonant_n_per_m=self.resonant_n_per_m(batter_n_per_m), air=self.air,
        )  # fmt: skip
        return lowest(shell, 0).hz

    def hz(self, batter_n_per_m: float) -> float:
        """Return its pitch as pitches are named in this kit."""
        return (self.rim_hz if self.heard == "rim" else self.middle_hz)(batter_n_per_m)

    def batter_n_per_m(self, hz: float, *, low: float, high: float) -> float:
        """Return the tension of the top head at which it has a pitch within its range."""
        from scipy.optimize import brentq

        if self.heard == "rim":
            return tension_from_pitch(
                hz, radius_m=self.drum.radius_m, depth_m=self.drum.depth_m, head=self.drum.batter,
                end="open" if self.drum.resonant is None else "muted", air=self.air,
            ).n_per_m  # fmt: skip
        if hz <= self.hz(low):
            return low
        if hz >= self.hz(high):
            return high
        return float(brentq(lambda n_per_m: self.hz(n_per_m) - hz, low, high, xtol=1e-3))

    def tensions(self) -> tuple[float, float]:
        """Return the least and the most that the top head may have; the first above: none.

        The bottom head, which follows it, has to stay within its own limits too.
        """
        drum = self.drum
        low, high = SLACKEST_N_PER_M, min(TIGHTEST_N_PER_M, self.limit_n_per_m(drum.rods))
        if drum.resonant is None:
            return low, high
        other = drum.resonant_rods or drum.rods
        top = min(TIGHTEST_N_PER_M, self.limit_n_per_m(other))
        slack, tight = (
            self._beside(n_per_m, drum.resonant, drum.batter, -self.bottom_cents)
            for n_per_m in (SLACKEST_N_PER_M, top)
        )
        return max(low, slack), min(high, tight)

    def limit_n_per_m(self, rods: int) -> float:
        """Return the tension at which so many rods pull what the restorer allows."""
        if self.drum.most_per_rod_n is None:
            return float("inf")
        return tension_of_rods(
            self.drum.most_per_rod_n, radius_m=self.drum.radius_m, rods=rods,
            edge_friction=self.drum.edge_friction,
        )  # fmt: skip

    def _beside(self, n_per_m: float, head: Head, other: Head, cents: float) -> float:
        try:
            return tension_beside(
                n_per_m, head=head, other=other, cents=cents, radius_m=self.drum.radius_m,
                depth_m=self.drum.depth_m, air=self.air,
            )  # fmt: skip
        except BadInput:
            # So high a pitch no head of this size has: it sets no limit.
            return float("inf")
