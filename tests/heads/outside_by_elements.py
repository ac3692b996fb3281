"""Air outside a closed cylinder by finite elements: what the table of shares is held against.

Laplace's equation in a box round the upper half, once with mirrored and once with opposed flow
below; far off each field falls as its lowest multipole does. scikit-fem assembles.
"""

from __future__ import annotations

import numpy as np
import skfem
from scipy.sparse.linalg import splu
from scipy.special import jv
from skfem.helpers import dot, grad

from counterhoop.heads.ends import Outside
from counterhoop.heads.shapes import air_zeros, head_zeros

FAR = 60.0


def outside_by_elements(around, terms, deep, *, opening_terms=0, finest=0.004, growth=1.35):
    """Return the air outside, for heads at both ends or for one end open."""
    zeros = head_zeros(around, terms)
    if opening_terms:
        zeros = np.concatenate([zeros, air_zeros(around, opening_terms)])
    pumping, same_way = (
        half(around, zeros, deep, pumping=way, finest=finest, growth=growth)
        for way in (True, False)
    )
    own, between = (pumping + same_way) / 2.0, (pumping - same_way) / 2.0
    far = slice(terms, None) if opening_terms else slice(None)
    here = slice(terms)
    return Outside(own[here, here], own[far, far], between[here, far])


def half(around, zeros, deep, *, pumping, finest, growth):
    """Return the mass matrix of one end for ``J_m(zero r)``, over density and radius cubed."""
    top = deep / 2.0
    mesh = _mesh(top, finest, growth)
    basis = skfem.Basis(mesh, skfem.ElementQuad2(), intorder=6)
    far = _facets(basis, lambda x: np.isclose(x[0], FAR) | np.isclose(x[1], FAR))
    end = _facets(basis, lambda x: np.isclose(x[1], top) & (x[0] < 1.0))
    order = 1 + around + (not pumping)

    def field(u, v, w):
        return (dot(grad(u), grad(v)) + around**2 * u * v / w.x[0] ** 2) * w.x[0]

    def falling(u, v, w):
        return order * u * v * w.x[0] * dot(w.x, w.n) / dot(w.x, w.x)

    matrix = skfem.BilinearForm(field).assemble(basis)
    matrix = matrix + skfem.BilinearForm(falling).assemble(far)
    flows = [
        skfem.LinearForm(lambda v, w, k=k: v * jv(around, k * w.x[0]) * w.x[0]).assemble(end)
        for k in zeros
    ]
    flow = np.array(flows).T
    held = np.zeros(matrix.shape[0], dtype=bool)
    if not pumping:
        low = mesh.facets_satisfying(lambda x: np.isclose(x[1], 0.0) & _beside(x, top))
        held[basis.get_dofs(low).all()] = True
    if around:
        axis = mesh.facets_satisfying(lambda x: np.isclose(x[0], 0.0))
        held[basis.get_dofs(axis).all()] = True
    free = np.nonzero(~held)[0]
    potential = splu(matrix[free][:, free].tocsc()).solve(flow[free])
    return flow[free].T @ potential


def _beside(x, top):
    """Under the cylinder there is no air; under a disc of no depth there is none either."""
    return x[0] > 1.0


def _facets(basis, where):
    facets = basis.mesh.facets_satisfying(where, boundaries_only=True)
    return skfem.FacetBasis(basis.mesh, basis.elem, facets=facets, intorder=8)


def _mesh(top, finest, growth):
    inward, outward = _steps(1.0, finest, growth), _steps(FAR - 1.0, finest, growth)
    r = np.concatenate([1.0 - inward[::-1], 1.0 + outward[1:]])
    z = top + _steps(FAR - top, finest, growth)
    if top:
        z = np.concatenate([top - _steps(top, finest, growth)[::-1], z[1:]])
    mesh = skfem.MeshQuad.init_tensor(r, z)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    return mesh.remove_elements(np.nonzero((middle[0] < 1.0) & (middle[1] < top))[0])


def _steps(length, finest, growth):
    """Return places from 0 to a length in growing steps."""
    count = int(np.ceil(np.log1p(length * (growth - 1.0) / finest) / np.log(growth)))
    grown = np.concatenate([[0.0], np.cumsum(growth ** np.arange(count))])
    return grown * length / grown[-1]
