"""How alike drums are, feature by feature: 1 for the same, never nothing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from counterhoop.job.trade.features import Features, same_word
from counterhoop.sources import load_table

Array = NDArray[np.float64]

LEAST = 1e-12
"""No single feature makes a sale count less than this: weights stay above nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kernel:
    """One row of the table of likeness.

    Attributes
    ----------
    feature : str
    shape : str
        "bell", "word" or "set".
    width : float
        Of a bell, in the feature's own measure; 0 for the other shapes.
    unlike, unsaid : float
        What a difference, and what silence counts.
    apart : float
        Usual difference of ln(price) between drums that differ in it.
    let_go : int
        Place in the order of widening; 0 for never.
    because : str
    """

    feature: str
    shape: str
    width: float
    unlike: float
    unsaid: float
    apart: float
    let_go: int
    because: str


@cache
def kernels() -> tuple[Kernel, ...]:
    """Return the packaged table of likeness, in its order."""
    return tuple(
        Kernel(
            feature=row.values["feature"],
            shape=row.values["shape"],
            width=float(row.values.get("width", 0.0)),
            unlike=float(row.values.get("unlike", 0.0)),
            unsaid=float(row.values["unsaid"]),
            apart=float(row.values["apart"]),
            let_go=int(row.values.get("let_go", 0)),
            because=row.values["because"],
        )
        for row in load_table("counterhoop.job.trade", "likeness.toml")
    )


def likeness(wanted: Sequence[Features], known: Sequence[Features]) -> dict[str, Array]:
    """Return by feature how alike each wanted drum is to each known one.

    Parameters
    ----------
    wanted : sequence of Features, m of them
    known : sequence of Features, n of them

    Returns
    -------
    dict of array, shape (m, n)
        Above 0, at most 1. A drum's likeness is the product over features.

    Examples
    --------
    >>> a, b = Features(dia_in=14, deep_in=5.5), Features(dia_in=14.75, deep_in=5.5)
    >>> round(float(likeness([a], [b])["diameter"][0, 0]), 3)  # exp(-1/2)
    0.607
    """
    return {one.feature: _of_one(one, wanted, known) for one in kernels()}


def _of_one(one: Kernel, wanted: Sequence[Features], known: Sequence[Features]) -> Array:
    if one.feature == "years":
        apart, said = _years_apart(wanted, known)
    elif one.shape == "bell":
        mine, theirs = (_measures(one.feature, drums) for drums in (wanted, known))
        apart = np.abs(mine[:, None] - theirs[None, :])
        said = ~np.isnan(apart)
    elif one.shape == "word":
        apart, said = _words_apart(_WORDS[one.feature], wanted, known)
    else:
        apart, said = _things_apart(_THINGS[one.feature], wanted, known)
    apart = np.where(said, apart, 0.0)
    bell = one.shape == "bell"
    alike = np.exp(-0.5 * (apart / one.width) ** 2) if bell else one.unlike**apart
    return np.asarray(np.where(said, np.maximum(alike, LEAST), one.unsaid))


_MEASURES: dict[str, Callable[[Features], float]] = {
    "diameter": lambda drum: drum.dia_in,
    "depth": lambda drum: drum.deep_in,
    "extra holes": lambda drum: (
        np.nan if drum.extra_holes is None else float(np.log1p(drum.extra_holes))
    ),
    "completeness": lambda drum: np.nan if drum.complete is None else drum.complete,
}
_WORDS: dict[str, Callable[[Features], str]] = {
    "kind": lambda drum: same_word(drum.kind),
    "line": lambda drum: same_word(drum.line),
    "finish": lambda drum: same_word(drum.finish),
}
_THINGS: dict[str, Callable[[Features], frozenset[str] | None]] = {
    "condition": lambda drum: drum.condition,
    "changed parts": lambda drum: drum.changed,
}


def _measures(feature: str, drums: Sequence[Features]) -> Array:
    return np.array([_MEASURES[feature](drum) for drum in drums], dtype=float)


def _years_apart(
    wanted: Sequence[Features], known: Sequence[Features]
) -> tuple[Array, NDArray[np.bool_]]:
    nobody = (np.nan, np.nan)
    mine = np.array([drum.made or nobody for drum in wanted], dtype=float).reshape(-1, 2)
    theirs = np.array([drum.made or nobody for drum in known], dtype=float).reshape(-1, 2)
    gap = np.maximum(mine[:, None, 0] - theirs[None, :, 1], theirs[None, :, 0] - mine[:, None, 1])
    return np.maximum(gap, 0.0), ~np.isnan(gap)


def _words_apart(
    word: Callable[[Features], str], wanted: Sequence[Features], known: Sequence[Features]
) -> tuple[Array, NDArray[np.bool_]]:
    mine = np.array([word(drum) for drum in wanted], dtype=object)[:, None]
    theirs = np.array([word(drum) for drum in known], dtype=object)[None, :]
    return (mine != theirs).astype(float), (mine != "") & (theirs != "")


def _things_apart(
    things: Callable[[Features], frozenset[str] | None],
    wanted: Sequence[Features],
    known: Sequence[Features],
) -> tuple[Array, NDArray[np.bool_]]:
    mine, theirs = [things(drum) for drum in wanted], [things(drum) for drum in known]
    words = sorted({same_word(word) for told in (*mine, *theirs) for word in told or ()})
    column = {word: place for place, word in enumerate(words)}

    def ticked(drums: Sequence[frozenset[str] | None]) -> Array:
        table = np.zeros((len(drums), len(words)))
        for row, told in enumerate(drums):
            for word in told or ():
                table[row, column[same_word(word)]] = 1.0
        return table

    a, b = ticked(mine), ticked(theirs)
    apart = a.sum(axis=1)[:, None] + b.sum(axis=1)[None, :] - 2.0 * (a @ b.T)
    said = np.array([told is not None for told in mine])[:, None] & np.array(
        [told is not None for told in theirs]
    )
    return apart, said
