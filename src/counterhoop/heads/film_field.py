"""The tension at every place of a head that is pulled unevenly at its edge."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from counterhoop.errors import BadInput
from counterhoop.heads.hoop import Edge
from counterhoop.heads.rim_load import RimLoad, Wave
from counterhoop.heads.shapes import Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class FilmField:
    """A disc of film in balance.

    Attributes
    ----------
    edge : RimLoad
        Tension across the edge.
    radius_m, poisson : float
        Of the edge; of the film.
    held : {"stuck", "slips"}
        Along the edge the film does not move, or nothing holds it.

    Notes
    -----
    A stress function ``(A r^p + B r^(p+2)) cos p th`` for each wave of p lobes (Michell's
    solution: Timoshenko and Goodier, Theory of Elasticity, article 43, from memory), with A
    and B from the tension across the edge and from how the film is held along it. A slipping film
    slides across until a wave of one lobe is gone, so there is none then.
    """

    edge: RimLoad
    radius_m: float
    poisson: float = 0.38
    held: Edge = "stuck"

    def __post_init__(self) -> None:
        if self.held == "slips" and self.edge.wave(1).high_n_per_m:
            raise BadInput(
                "film that slips along the edge slides across until both sides pull alike",
                where="edge", given="a wave of one lobe", wanted="none, or film that sticks",
            )  # fmt: skip

    def at(self, out_m: Floats, along_rad: Floats) -> tuple[Floats, Floats, Floats]:
        """Return the tension outward, round and in shear, N/m.

        Parameters
        ----------
        out_m, along_rad : array, any shape that goes together
            Distance from the centre and angle along.
        """
        x = np.asarray(out_m, dtype=float) / self.radius_m
        turn = np.asarray(along_rad, dtype=float)
        mean = self.edge.mean_n_per_m + 0.0 * (x + turn)
        outward, around, shear = mean, mean.copy(), 0.0 * mean
        for wave, a, b in self._functions():
            p = wave.lobes
            # With one lobe A is the film moved as a whole, which pulls nothing.
            inner = a * x ** (p - 2) if p > 1 else 0.0
            outer = b * x**p
            phase = p * (turn - np.radians(wave.tight_deg))
            outward = outward - (p * (p - 1) * inner + (p + 1) * (p - 2) * outer) * np.cos(phase)
            around = around + (p * (p - 1) * inner + (p + 1) * (p + 2) * outer) * np.cos(phase)
            shear = shear + p * ((p - 1) * inner + (p + 1) * outer) * np.sin(phase)
        return outward, around, shear

    def moved(
        self, out_m: Floats, along_rad: Floats, *, stiffness_n_per_m: float
    ) -> tuple[Floats, Floats]:
        """Return how far the film was drawn outward and round, in metres."""
        x = np.asarray(out_m, dtype=float) / self.radius_m
        turn = np.asarray(along_rad, dtype=float)
        nu = self.poisson
        outward = (1.0 - nu) * self.edge.mean_n_per_m * x + 0.0 * turn
        around = 0.0 * outward
        for wave, a, b in self._functions():
            p = wave.lobes
            inner, outer = a * x ** (p - 1), b * x ** (p + 1)
            phase = p * (turn - np.radians(wave.tight_deg))
            stretch = p * (1 + nu) * inner + ((p - 2) + nu * (p + 2)) * outer
            outward = outward - stretch * np.cos(phase)
            around = around + (p * (1 + nu) * inner + (p + 4 + nu * p) * outer) * np.sin(phase)
        scale = self.radius_m / stiffness_n_per_m
        return outward * scale, around * scale

    def _functions(self) -> Iterator[tuple[Wave, float, float]]:
        """Each wave with A and B, for a disc of radius 1."""
        for wave in self.edge.waves:
            p, nu = wave.lobes, self.poisson
            if wave.high_n_per_m == 0.0:
                continue
            if self.held == "stuck":
                ratio = -(p + 4 + nu * p) / (p * (1 + nu))
            else:
                ratio = -(p + 1) / (p - 1)
            b = -wave.high_n_per_m / (p * (p - 1) * ratio + (p + 1) * (p - 2))
            yield wave, ratio * b, b
