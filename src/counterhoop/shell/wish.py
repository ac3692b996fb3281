"""What the client wants of a drum, and what happens to its finish."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal, TypeAlias

from counterhoop.development.flat import End
from counterhoop.development.place import Place
from counterhoop.development.truing import Truing


class Pattern(StrEnum):
    """Ways to give a single-headed drum its second head, in the order they are considered."""

    LONG_LUGS = "long lugs"
    IN_LINE = "second row in line"
    HALF_ALONG = "second row half a lug spacing along"
    TURNED = "second row turned"


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondHead:
    """A second head on a single-headed drum."""

    lug: str = ""  # entry for a second row; empty: the lug the batter row has
    long_lugs: tuple[str, ...] = ()  # entries to try; empty: every long lug of the book that fits
    patterns: tuple[Pattern, ...] = tuple(Pattern)
    hoop: str = ""  # for the new head; empty: the hoop the batter row has


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherLugs:
    """Other lugs than the ones it has, on one row or on both."""

    lug: str
    heads: tuple[End, ...] = ("batter", "resonant")
    count: int | None = None  # lugs a head; None: as many as it has
    hoop: str = ""  # empty: the one it has, or one with as many ears as the new lugs


@dataclass(frozen=True, slots=True, kw_only=True)
class BackToFactory:
    """Everything back as it left the factory: extras off, their holes plugged, originals on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOut:
    """Take a fitting off; its holes are plugged, or covered by a plate."""

    labels: tuple[str, ...]
    plate: str = ""  # a cover plate of the book


@dataclass(frozen=True, slots=True, kw_only=True)
class PutOn:
    """Put a bracket, strainer, butt or damper on, or put a missing one back.

    With ``near`` the fitting may move within ``free_along_mm`` and ``free_down_mm`` of it.
    With ``replaces`` the old one comes off first and, without ``near``, the new one seeks its
    place.
    """

    fitting: str
    label: str = ""
    near: Place | None = None
    replaces: str = ""
    free_along_mm: float = 0.0
    free_down_mm: float = 15.0
    turned_deg: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """Move a fitting to another place."""

    label: str
    near: Place
    free_along_mm: float = 0.0
    free_down_mm: float = 15.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Shorten:
    """Cut a shell down to about a depth, from the named end."""

    depth_mm: float
    end: End = "resonant"
    free_mm: float = 25.0  # how far from that depth is still what was wished


@dataclass(frozen=True, slots=True, kw_only=True)
class KitSnare:
    """A deep marching snare becomes a kit snare: shorten, then lugs, strainer and butt."""

    depth_mm: float
    end: End = "resonant"
    free_mm: float = 40.0
    lug: str = ""
    count: int | None = None
    strainer: str = ""
    butt: str = ""


Wish: TypeAlias = (
    SecondHead | OtherLugs | BackToFactory | TakeOut | PutOn | Move | Shorten | KitSnare
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Flatten:
    """Edges to be trued by what their readings say.

    Attributes
    ----------
    ends : tuple of End
        Which edges.
    least : {"most", "total"}
        Make the most at any station least, or the wood taken off all round.
    parallel : bool
        The edges end parallel to each other.
    fresh_mm : float
        Wood that comes off even at the lowest station.
    """

    ends: tuple[End, ...]
    least: Literal["most", "total"] = "most"
    parallel: bool = False
    fresh_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishPlan:
    """What happens to the outside, and to the edges before anything is measured from them.

    ``truing`` is what is known to come off. ``flatten`` asks for more: the planner puts what the
    readings say into ``truing`` before it works anything out.
    """

    kind: Literal["stays", "clear lacquer", "paint", "new wrap"] = "stays"
    thickness_mm: float | None = None  # of a new wrap
    truing: Truing = Truing()
    flatten: Flatten | None = None
    wrap: str = ""  # name of the wrap in the job's stock
    butt: bool = False  # the new wrap meets itself at the seam and does not overlap

    @property
    def hides_plugs(self) -> bool:
        """Whether plugs outside disappear under it."""
        return self.kind in ("paint", "new wrap")
