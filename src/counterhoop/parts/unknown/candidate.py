"""What an unknown part may be: the entries of the book and the pieces on the shelf."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache

import numpy as np
from numpy.typing import NDArray

from counterhoop.fittings.book import name_key
from counterhoop.fittings.entry import Fitting
from counterhoop.parts.dimension import Dimension, surest
from counterhoop.parts.dimensions_of import dimensions_of
from counterhoop.parts.piece import Piece
from counterhoop.sources import load_table

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One thing that it may be.

    Attributes
    ----------
    name, kind, finish, material : str
        As the book or the shop calls it.
    dims : mapping of Dimension to float
        What it measures when new, in each dimension's unit.
    spread : mapping of Dimension to float
        Standard deviation between parts of this make.
    worn : mapping of Dimension to float
        Mean wear of a used one, without its sign; 0 where wear does nothing.
    commonness : float
        How often it turns up, against the others.
    piece_id : str
        The piece on the shelf; empty for an entry of the book.
    as_read : mapping of Dimension to float
        What was read on that piece, worn as it is.
    """

    name: str
    kind: str
    dims: Mapping[Dimension, float]
    spread: Mapping[Dimension, float]
    worn: Mapping[Dimension, float]
    commonness: float = 1.0
    finish: str = ""
    material: str = ""
    piece_id: str = ""
    as_read: Mapping[Dimension, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Column:
    """One dimension of all candidates; size is NaN where it is not stated. Shapes (candidates,)."""

    size: Floats
    spread: Floats
    worn: Floats


@dataclass(frozen=True, slots=True)
class Candidates:
    """All that it may be, and the columns that are reckoned with.

    Attributes
    ----------
    each : tuple of Candidate
        Books first, then pieces.
    kinds : tuple of str
        The kinds among them, sorted.
    """

    each: tuple[Candidate, ...]
    kinds: tuple[str, ...] = field(init=False)
    kind_of: Ints = field(init=False, repr=False, compare=False)
    share: Floats = field(init=False, repr=False, compare=False)
    _columns: dict[Dimension, Column] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def __post_init__(self) -> None:
        kinds = tuple(sorted({one.kind for one in self.each}))
        number = {kind: at for at, kind in enumerate(kinds)}
        share = np.array([one.commonness for one in self.each], dtype=float)
        object.__setattr__(self, "kinds", kinds)
        object.__setattr__(self, "kind_of", np.array([number[one.kind] for one in self.each], int))
        object.__setattr__(self, "share", share / share.sum() if len(share) else share)

    def __iter__(self) -> Iterator[Candidate]:
        return iter(self.each)

    def __len__(self) -> int:
        return len(self.each)

    def column(self, dimension: Dimension) -> Column:
        """Return one dimension of all of them, made once."""
        if dimension not in self._columns:
            self._columns[dimension] = Column(
                *(
                    np.array([held.get(dimension, other) for held in all_of], dtype=float)
                    for all_of, other in (
                        ([one.dims for one in self.each], math.nan),
                        ([one.spread for one in self.each], 0.0),
                        ([one.worn for one in self.each], 0.0),
                    )
                )
            )
        return self._columns[dimension]


def candidates_of(book: Iterable[Fitting], pieces: Iterable[Piece] = ()) -> Candidates:
    """Return what an unknown part may be.

    A piece that is known to be an entry of the book makes this entry commoner; any other piece
    with a measurement is a candidate of its own; what it says of its kind is one with the book's
    word whatever its capitals. How common a kind is comes from a table, and its candidates share
    it.

    Parameters
    ----------
    book : iterable of Fitting
        Entries of the fittings book.
    pieces : iterable of Piece
        What lies on the shelf, without the one that is asked about.

    Examples
    --------
    >>> from counterhoop.fittings.read_book import packaged_book
    >>> len(candidates_of(packaged_book())) == len(packaged_book())
    True
    """
    entries, pieces = tuple(book), tuple(pieces)
    on_shelf = Counter(name_key(piece.fitting) for piece in pieces if piece.fitting)
    known = {name_key(entry.name) for entry in entries}
    others = [piece for piece in pieces if piece.measured and name_key(piece.fitting) not in known]
    times = [1.0 + on_shelf[name_key(entry.name)] for entry in entries]
    of_kind: dict[str, float] = defaultdict(float)
    for entry, often in zip(entries, times, strict=True):
        of_kind[entry.kind.value] += often
    called = {name_key(entry.kind.value): entry.kind.value for entry in entries}
    kinds = [called.setdefault(name_key(piece.kind), piece.kind) for piece in others]
    for kind in kinds:
        of_kind[kind] += 1.0
    each = {kind: _commonness().get(kind, 1.0) / often for kind, often in of_kind.items()}
    return Candidates(
        (
            *(
                _of_book(entry, commonness=often * each[entry.kind.value])
                for entry, often in zip(entries, times, strict=True)
            ),
            *(
                _of_shelf(piece, kind=kind, commonness=each[kind])
                for piece, kind in zip(others, kinds, strict=True)
            ),
        )
    )


def _of_book(fitting: Fitting, *, commonness: float) -> Candidate:
    dims = {what: size for what, size in dimensions_of(fitting).items() if _is_size(what, size)}
    return Candidate(
        name=fitting.name,
        kind=fitting.kind.value,
        dims=dims,
        spread={what: what.about.cast_by(size) for what, size in dims.items()},
        worn={what: what.about.worn_by(size) for what, size in dims.items()},
        commonness=commonness,
        finish=fitting.finish,
    )


def _of_shelf(piece: Piece, *, kind: str, commonness: float) -> Candidate:
    """Return a piece as a candidate: it is worn and read in doubt itself."""
    dims, spread, worn, as_read = {}, {}, {}, {}
    for reading in surest(piece.measured):
        what = reading.dimension
        if not _is_size(what, reading.value):
            continue
        # A hole of next to nothing was one when it was new.
        by = min(what.about.worn_by(reading.value), reading.value / 2.0)
        as_read[what] = reading.value
        dims[what] = reading.value - what.wear_way * by
        spread[what] = math.hypot(
            math.sqrt(2.0) * what.about.cast_by(reading.value), by, reading.doubt / math.sqrt(3.0)
        )
        worn[what] = by
    return Candidate(
        name=piece.says.split("\n")[0] or f"piece {piece.number}".strip(),
        kind=kind,
        dims=dims,
        spread=spread,
        worn=worn,
        commonness=commonness,
        finish=piece.finish,
        material=piece.material,
        piece_id=piece.id,
        as_read=as_read,
    )


def _is_size(what: Dimension, size: float) -> bool:
    """Tell whether a part can be held against it: next to a length of nothing everything is far."""
    return what.unit == "count" or size > 0.0


@cache
def _commonness() -> dict[str, float]:
    rows = load_table("counterhoop.parts", "commonness.toml")
    return {row.values["kind"]: float(row.values["commonness"]) for row in rows}
