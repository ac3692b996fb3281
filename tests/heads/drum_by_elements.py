"""A closed drum by finite elements: air as pressure, heads as lines at both ends of it.

Weak forms, per nodal diameters m, with ``p`` the pressure and ``w`` outward movement:
``int grad p grad v - (w/c)^2 p v = rho w^2 int_ends w v`` and
``int T grad w grad u - w^2 (sigma w u) = int p u``. The air outside is put on as a mass of the
lowest shapes. scikit-fem assembles; nothing is taken from ``counterhoop.heads.stiffness``.
"""

from __future__ import annotations

import numpy as np
import skfem
from scipy.sparse import block_array, csr_array
from scipy.sparse.linalg import LinearOperator, eigs, splu
from scipy.special import jv
from skfem.helpers import dot, grad

from counterhoop.heads.shapes import head_norms, head_zeros


def pitches_by_elements(drum, around, *, outside=None, near_hz, count=4, cells=(24, 16)):
    """Return the pitches nearest to one, rising."""
    a, deep, air = drum.radius_m, drum.depth_m, drum.air
    # Finer towards the rim and the heads.
    r = a * np.sin(np.linspace(0.0, np.pi / 2.0, cells[0] + 1))
    z = deep * (1.0 - np.cos(np.linspace(0.0, np.pi, cells[1] + 1))) / 2.0
    mesh = skfem.MeshQuad.init_tensor(r, z)
    inside = skfem.Basis(mesh, skfem.ElementQuad2(), intorder=6)

    def stiff(u, v, w):
        return (dot(grad(u), grad(v)) + around**2 * u * v / w.x[0] ** 2) * w.x[0]

    def plain(u, v, w):
        return u * v * w.x[0]

    def along(u, v, w):
        return (grad(u)[0] * grad(v)[0] + around**2 * u * v / w.x[0] ** 2) * w.x[0]

    def form(what, basis):
        return csr_array(skfem.BilinearForm(what).assemble(basis))

    fluid = np.ones(inside.N, dtype=bool)
    if around:
        fluid[inside.get_dofs(lambda x: np.isclose(x[0], 0.0)).all()] = False
    fluid = np.nonzero(fluid)[0]
    heads, masses, meets = [], [], []
    for end, (head, tension) in enumerate(
        ((drum.batter, drum.batter_n_per_m), (drum.resonant, drum.resonant_n_per_m))
    ):
        height = end * deep
        facets = mesh.facets_satisfying(
            lambda x, height=height: np.isclose(x[1], height), boundaries_only=True
        )
        line = skfem.FacetBasis(mesh, skfem.ElementQuad2(), facets=facets, intorder=8)
        at = inside.get_dofs(facets).all()
        places = inside.doflocs[0, at]
        at = at[(places < a * (1 - 1e-9)) & ((places > 1e-12) | (around == 0))]
        meet = form(plain, line)
        heads.append(tension * form(along, line)[at][:, at])
        mass = head.mass_kg_per_m2 * meet[at][:, at]
        if outside is not None:
            mass = mass + _carried(line, at, drum, around, (outside.batter, outside.other)[end])
        masses.append(mass)
        meets.append(meet[at][:, fluid])
    stiffness = block_array([
        [heads[0], None, -meets[0]],
        [None, heads[1], -meets[1]],
        [None, None, form(stiff, inside)[fluid][:, fluid]],
    ])  # fmt: skip
    rho = air.density_kg_per_m3
    inertia = block_array([
        [masses[0], None, None],
        [None, masses[1], None],
        [rho * meets[0].T, rho * meets[1].T,
         form(plain, inside)[fluid][:, fluid] / air.sound_m_per_s**2],
    ])  # fmt: skip
    near = (2 * np.pi * near_hz) ** 2
    solve = splu((stiffness - near * inertia).tocsc()).solve
    turned = LinearOperator(stiffness.shape, matvec=lambda x: solve(inertia @ x), dtype=float)
    found = eigs(turned, k=count, return_eigenvectors=False, v0=np.ones(stiffness.shape[0]))
    squares = near + 1.0 / found
    assert np.abs(squares.imag).max() < 1e-6 * np.abs(squares).max()
    return np.sort(np.sqrt(np.maximum(squares.real, 0.0))) / (2 * np.pi)


def _carried(line, at, drum, around, outside):
    """The mass of the lowest shapes, spread over the places of the line."""
    n, a = len(outside), drum.radius_m
    shapes = np.array([
        skfem.LinearForm(
            lambda v, w, k=k: v * jv(around, k * w.x[0] / a) * w.x[0]
        ).assemble(line)[at]
        for k in head_zeros(around, n)
    ]) / (a**2 * head_norms(around, n)[:, None])  # fmt: skip
    return csr_array(shapes.T @ (drum.air.density_kg_per_m3 * a**3 * outside) @ shapes)
