"""The dynamic stiffness of a drum: heads, the air outside and the air between, at one pitch."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from counterhoop.heads.exterior import (
    baffled_mass,
    baffled_opening_mass,
    end_share,
    opening_share,
)
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.shapes import Floats, air_norms, air_zeros, head_norms, head_zeros, overlaps

MORE_AIR = 6
"""Shapes of the air beyond those of a head, so that what is near a head is resolved."""
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
    """

    drum: HeadedShell
    around: int
    terms: int

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
        outside = air * end_share(m) * baffled_mass(m, n)
        area = drum.radius_m**2
        stretch[:n, :n] = np.diag(drum.batter_n_per_m * zeros**2 * norms)
        mass[:n, :n] = np.diag(drum.batter.mass_kg_per_m2 * area * norms) + outside
        if drum.resonant is None or drum.resonant_n_per_m is None:
            mass[n:, n:] = air * opening_share(m) * baffled_opening_mass(m, other)
        else:
            stretch[n:, n:] = np.diag(drum.resonant_n_per_m * zeros**2 * norms)
            mass[n:, n:] = np.diag(drum.resonant.mass_kg_per_m2 * area * norms) + outside
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
        end, ``q^2 = (j'/a)^2 - (w/c)^2`` (Morse and Ingard, chapter 9, from memory).
        """
        drum, n = self.drum, self.terms
        stretch, heads = self._heads
        batter, resonant = self._seen
        w = 2.0 * np.pi * hz
        square = self._across**2 - (w / drum.air.sound_m_per_s) ** 2
        q = np.sqrt(np.abs(square))
        with np.errstate(divide="ignore"):
            x = np.minimum(q * drum.depth_m, _STEEP)
            same = np.where(square > 0, 1.0 / np.tanh(x), -1.0 / np.tan(x)) / q
            across = np.where(square > 0, 1.0 / np.sinh(x), -1.0 / np.sin(x)) / q
        norms = air_norms(self.around, self._air_terms)
        scale = drum.air.density_kg_per_m3 * drum.radius_m**2
        mass = heads.copy()
        mass[:n, :n] += scale * (batter * (same / norms)) @ batter.T
        mass[n:, n:] += scale * (resonant * (same / norms)) @ resonant.T
        between = scale * (batter * (across / norms)) @ resonant.T
        mass[:n, n:] += between
        mass[n:, :n] += between.T
        return np.asarray(stretch - w**2 * mass)

    def poles_hz(self, up_to_hz: float) -> list[float]:
        """Return where the air alone would resonate between rigid ends, in rising order."""
        sound, deep = self.drum.air.sound_m_per_s, self.drum.depth_m
        most = 2.0 * np.pi * up_to_hz / sound
        found = {
            float(sound / (2.0 * np.pi) * np.hypot(across, turn * np.pi / deep))
            for across in self._across
            for turn in range(int(most * deep / np.pi) + 1)
        }
        return sorted(hz for hz in found if 0.0 < hz < up_to_hz)
