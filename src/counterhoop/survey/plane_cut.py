"""The linear programme behind a truing plan: a plane under each edge, least wood above it."""

from __future__ import annotations

from typing import Literal, TypeAlias

import numpy as np

from counterhoop.survey.flat_heights import EdgeHeights
from counterhoop.survey.lowest_corner import Array, lowest_corner
from counterhoop.survey.plane_edge import rim_columns
from counterhoop.survey.round_stations import shares

Least: TypeAlias = Literal["most", "total"]
"""Which is made least first; the other decides between plans that are as good."""


def cut_alone(edge: EdgeHeights, *, least: Least) -> Array:
    """Return the factors of the plane to sand one edge to, shape (3,).

    Examples
    --------
    >>> edge = EdgeHeights.from_gaps((0, 0.3, 0, 0.3))
    >>> (cut_alone(edge, least="most").round(9) + 0.0).tolist()
    [-0.3, 0.0, 0.0]
    """
    columns, heights = rim_columns(edge), np.asarray(edge.height_mm)
    side = np.zeros((len(heights), 1))
    rows = np.block([[columns, side], [-columns, side - 1.0]])
    total = np.append(-np.asarray(shares(edge.along_deg)) @ columns, 0.0)
    limits = np.concatenate((heights, -heights))
    return lowest_corner(rows, limits, aims=_aims(total, least=least))[:3]


def cut_parallel(
    first: EdgeHeights, second: EdgeHeights, *, least: Least, lean: Array
) -> tuple[Array, Array]:
    """Return the factors of the planes to sand both edges to, so that they end parallel.

    Parameters
    ----------
    first, second : EdgeHeights
        The edges; their stations may differ.
    lean : array, shape (2,)
        ``cos`` and ``sin`` of the depth between the planes measured from; those of the two new
        planes add up to minus this.
    """
    one, two = rim_columns(first), rim_columns(second)
    # Unknown are mean, cos and sin of the first plane, the mean of the second, and the most that
    # comes off anywhere: the lean of the second follows from that of the first.
    over_one, over_two = np.zeros((len(one), 5)), np.zeros((len(two), 5))
    over_one[:, :3] = one
    over_two[:, 1:3], over_two[:, 3] = -two[:, 1:], 1.0
    heights_one = np.asarray(first.height_mm)
    heights_two = np.asarray(second.height_mm) + two[:, 1:] @ lean
    most = np.array([0.0, 0.0, 0.0, 0.0, 1.0])
    found = lowest_corner(
        np.vstack((over_one, over_two, -over_one - most, -over_two - most)),
        np.concatenate((heights_one, heights_two, -heights_one, -heights_two)),
        aims=_aims(
            -np.asarray(shares(first.along_deg)) @ over_one
            - np.asarray(shares(second.along_deg)) @ over_two,
            least=least,
        ),
    )
    return found[:3], np.append(found[3], -lean - found[1:3])


def cut_leaning(edge: EdgeHeights, *, lean: Array) -> Array:
    """Return the highest plane under an edge whose ``cos`` and ``sin`` are given, shape (3,)."""
    left = np.asarray(edge.height_mm) - rim_columns(edge)[:, 1:] @ lean
    return np.array([left.min(), *lean])


def standing_plane(edge: EdgeHeights) -> Array:
    """Return the flat plate that an edge stands on, shape (3,): the least air under it.

    Feeler gaps, of which one at least is 0, are measured from it already; heights by gauge may
    lean against it.

    Examples
    --------
    >>> (standing_plane(EdgeHeights.from_gaps((0, 0.3, 0, 0.3))).round(9) + 0.0).tolist()
    [0.0, 0.0, 0.0]
    """
    if max(edge.height_mm) == 0.0:
        return np.zeros(3)
    below = EdgeHeights(along_deg=edge.along_deg, height_mm=tuple(-h for h in edge.height_mm))
    return -cut_alone(below, least="total")


def _aims(total: Array, *, least: Least) -> Array:
    most = np.zeros(len(total))
    most[-1] = 1.0
    return np.array((most, total) if least == "most" else (total, most))
