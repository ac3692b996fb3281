"""The dynamic stiffness of a drum: heads, the air outside and the air between, at one pitch."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from counterhoop.heads.ends import Outside, outside_of
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.shapes import (
    Floats,
    air_norms,
    air_zeros,
    head_norms,
    head_zeros,
    overlaps,
)
from counterhoop.heads.vent import vent_hz

MORE_AIR = 6
"""Shapes of the air beyond those of a head, so that what is near a head is resolved."""
LEAK_HZ = 3.0
"""A vent that breathes slower than this is a leak: no sound notices it."""
_STEEP = 600.0


@dataclass(frozen=True)
class Stiffness:
    """Of the modes with some nodal diameters; movement is counted outward at both ends.

    Attributes
    ----------
    drum : HeadedShell
        What vibrates.
    around, terms : int
        Nodal diameters; shapes of each head.
    outside : Outside or None
        The air outside, where another reckoning of it is to be used; None: as for a cylinder.
    """

    drum: HeadedShell
    around: int
    terms: int
    outside: Outside | None = None

    @property
    def _air_terms(self) -> int:
        return self.terms + MORE_AIR

    @cached_property
    def _heads(self) -> tuple[Floats, Floats]:
        """What does not change with pitch: stretch, and the mass of heads and outer air."""
        drum, m, n = self.drum, self.around, self.terms
        other = self._air_terms if drum.is_open else n
        stretch, mass = np.zeros((n + other, n + other)), np.zeros((n + other, n + other))
        norms, zeros = head_norms(m, n), head_zeros(m, n)
        air = drum.air.density_kg_per_m3 * drum.radius_m**3
        area = drum.radius_m**2
        stretch[:n, :n] = np.diag(drum.batter_n_per_m * zeros**2 * norms)
        mass[:n, :n] = np.diag(drum.batter.mass_kg_per_m2 * area * norms)
        if drum.resonant is not None and drum.resonant_n_per_m is not None:
            stretch[n:, n:] = np.diag(drum.resonant_n_per_m * zeros**2 * norms)
            mass[n:, n:] = np.diag(drum.resonant.mass_kg_per_m2 * area * norms)
        outside = self.outside or outside_of(
            m, n, drum.depth_m / drum.radius_m, opening_terms=other if drum.is_open else 0
        )
        mass += air * outside.mass
        return stretch, mass

    @cached_property
    def _seen(self) -> tuple[Floats, Floats]:
        """How the shapes at each end meet the shapes of the air."""
        head = overlaps(self.around, self.terms, self._air_terms)
        norms = air_norms(self.around, self._air_terms)
        return head, np.diag(norms) if self.drum.is_open else head

    @cached_property
    def _across(self) -> Floats:
        return air_zeros(self.around, self._air_terms) / self.drum.radius_m

    def at(self, hz: float) -> Floats:
        """Return ``K - w^2 M(w)``, symmetric, shape (n, n).

        Notes
        -----
        Air in a rigid cylinder with movements ``w_b``, ``w_r`` outward at its ends has, in each
        shape across, the pressure ``rho w^2 / q (w_b coth(q L) + w_r / sinh(q L))`` at the batter
        end, ``q^2 = (j'/a)^2 - (w/c)^2`` (Morse and Ingard, chapter 9, from memory). A vent lets
        the even pressure ease to ``1 / (1 - (f_vent / f)^2)`` of itself.
        """
        stretch, heads = self._heads
        square, same, across = self._between(hz)
        if self.breathes:
            eased = self._eased(hz) / (square[0] * self.drum.depth_m)
            same[0] += eased
            across[0] += eased
        w = 2.0 * np.pi * hz
        return np.asarray(stretch - w**2 * (heads + self._air(same, across)))

    def inertia(self, hz: float) -> Floats:
        """Return how fast ``K - w^2 M(w)`` falls with ``w^2``, shape (n, n).

        A mode's shape twice over it is what all its parts weigh as they move: heads, air outside,
        air inside with its spring.
        """
        square, same, across = self._between(hz)
        w2, deep = (2.0 * np.pi * hz) ** 2, self.drum.depth_m
        # Falling with w^2 is rising with q^2, over the speed of sound squared.
        turn = w2 / self.drum.air.sound_m_per_s**2 / 2.0
        slow_same = same + turn * (deep * across**2 + same / square)
        slow_across = across + turn * (deep * same * across + across / square)
        if self.breathes:
            slow_same[0] += self._vent_moves(hz)
            slow_across[0] += self._vent_moves(hz)
        return np.asarray(self._heads[1] + self._air(slow_same, slow_across))

    def _between(self, hz: float) -> tuple[Floats, Floats, Floats]:
        """For each shape of the air: ``q^2``, ``coth(q L) / q`` and ``1 / (q sinh(q L))``."""
        square = self._across**2 - (2.0 * np.pi * hz / self.drum.air.sound_m_per_s) ** 2
        q = np.sqrt(np.abs(square))
        with np.errstate(divide="ignore"):
            x = np.minimum(q * self.drum.depth_m, _STEEP)
            same = np.where(square > 0, 1.0 / np.tanh(x), -1.0 / np.tan(x)) / q
            across = np.where(square > 0, 1.0 / np.sinh(x), -1.0 / np.sin(x)) / q
        return square, same, across

    def _air(self, same: Floats, across: Floats) -> Floats:
        """Return the mass at both ends, from that of each shape of the air."""
        n = self.terms
        batter, resonant = self._seen
        norms = air_norms(self.around, self._air_terms)
        scale = self.drum.air.density_kg_per_m3 * self.drum.radius_m**2
        between = batter * (across / norms) @ resonant.T
        mass = np.empty_like(self._heads[1])
        mass[:n, :n] = batter * (same / norms) @ batter.T
        mass[n:, n:] = resonant * (same / norms) @ resonant.T
        mass[:n, n:], mass[n:, :n] = between, between.T
        return scale * mass

    @property
    def breathes(self) -> bool:
        """Whether a vent lets out what the heads press together; uneven pressure it lets be."""
        return self.around == 0 and self._vent_hz > LEAK_HZ

    @cached_property
    def _vent_hz(self) -> float:
        return vent_hz(self.drum)

    def _eased(self, hz: float) -> float:
        return 1.0 / ((hz / self._vent_hz) ** 2 - 1.0)

    def breath(self, hz: float, shape: Floats) -> float:
        """Return which share of all that moves in a mode is the air in the vent."""
        swept = float(np.concatenate([end[:, 0] for end in self._seen]) @ shape)
        scale = self.drum.air.density_kg_per_m3 * self.drum.radius_m**2 / air_norms(0, 1)[0]
        moving = scale * swept**2 * self._vent_moves(hz)
        return float(moving / (shape @ self.inertia(hz) @ shape))

    def _vent_moves(self, hz: float) -> float:
        eased = self._eased(hz)
        sound = self.drum.air.sound_m_per_s / (2.0 * np.pi * hz)
        return eased * (1.0 + eased) * sound**2 / self.drum.depth_m

    def poles_hz(self, up_to_hz: float) -> list[float]:
        """Return where the air alone would resonate between rigid ends, in rising order."""
        sound, deep = self.drum.air.sound_m_per_s, self.drum.depth_m
        most = 2.0 * np.pi * up_to_hz / sound
        found = {
            float(sound / (2.0 * np.pi) * np.hypot(across, turn * np.pi / deep))
            for across in self._across
            for turn in range(int(most * deep / np.pi) + 1)
        }
        if self.breathes:
            found.add(self._vent_hz)
        return sorted(hz for hz in found if 0.0 < hz < up_to_hz)
