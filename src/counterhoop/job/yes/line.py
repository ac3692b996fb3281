"""One line of a code of permanent changes, read back: what a yes was given to."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TypeAlias, get_args

from counterhoop.development.flat import End
from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Rectangle, Round
from counterhoop.scheme.code import PERMANENT
from counterhoop.scheme.verdict import Verdict

_NUMBER = r"-?\d+\.\d+"
_PLACE = rf"at ({_NUMBER}) ({_NUMBER})"
_VERDICTS = "|".join(sorted((str(verdict) for verdict in PERMANENT), key=len, reverse=True))
_HOLE = re.compile(
    rf"(\d+) ({_VERDICTS}) (?:closed|({_NUMBER}) x ({_NUMBER})) {_PLACE}"
    rf"(?: plug ({_NUMBER}) {_PLACE})?"
)
_DEPTH = re.compile(rf"depth ({_NUMBER}) from ({_NUMBER})")
_SURFACE = re.compile(rf"surface (.+) ({_NUMBER})")
_FINISH = re.compile(r"finish (.+)")
_OFF = re.compile(rf"off ({'|'.join(get_args(End))}) ({_NUMBER}) ({_NUMBER}) ({_NUMBER})")
_WORK = re.compile(r"(.+) (\d+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleLine:
    """A hole that is closed, drilled, enlarged or slotted; ``opening`` None is closed.

    ``plug_mm`` and ``plug_place`` are those of a plug that is not simply the hole's own.
    """

    number: int
    verdict: Verdict
    opening: HoleShape | None
    place: Place
    plug_mm: float | None = None
    plug_place: Place | None = None

    @property
    def key(self) -> tuple[str, str]:
        """What the line is about: two lines of one key are two versions of the same thing."""
        return ("hole", str(self.number))


@dataclass(frozen=True, slots=True, kw_only=True)
class DepthLine:
    """How deep the shell is left, and how deep it was found."""

    after_mm: float
    found_mm: float

    @property
    def key(self) -> tuple[str, str]:
        """As of a hole."""
        return ("depth", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceLine:
    """The skin that places are laid out on, and once round it."""

    skin: str
    around_mm: float

    @property
    def key(self) -> tuple[str, str]:
        """As of a hole."""
        return ("surface", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishLine:
    """What happens to the finish; "stays" is nothing."""

    kind: str

    @property
    def key(self) -> tuple[str, str]:
        """As of a hole."""
        return ("finish", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class OffLine:
    """Wood off one end: on average, and how far the cut leans."""

    end: str
    mean_mm: float
    cos_mm: float
    sin_mm: float

    @property
    def key(self) -> tuple[str, str]:
        """As of a hole."""
        return ("off", self.end)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkLine:
    """Work that no hole implies, and how often."""

    operation: str
    times: int

    @property
    def key(self) -> tuple[str, str]:
        """As of a hole."""
        return ("work", self.operation)


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherLine:
    """A line that an older or a newer program wrote: it is shown as it stands."""

    text: str

    @property
    def key(self) -> tuple[str, str]:
        """The line itself: it is only ever there or not."""
        return ("other", self.text)


Line: TypeAlias = HoleLine | DepthLine | SurfaceLine | FinishLine | OffLine | WorkLine | OtherLine


def read_line(text: str) -> Line:
    """Read one line of ``scheme.code.permanent_changes``.

    Examples
    --------
    >>> read_line("finish new wrap")
    FinishLine(kind='new wrap')
    >>> line = read_line("7 enlarge 10.0 x 10.0 at 12.50 62.0")
    >>> line.opening, line.place
    (Round(diameter_mm=10.0), Place(along_deg=12.5, down_mm=62.0))
    >>> read_line("something else")
    OtherLine(text='something else')
    """
    if found := _HOLE.fullmatch(text):
        return _hole(*found.groups())
    if found := _DEPTH.fullmatch(text):
        return DepthLine(after_mm=float(found[1]), found_mm=float(found[2]))
    if found := _SURFACE.fullmatch(text):
        return SurfaceLine(skin=found[1], around_mm=float(found[2]))
    if found := _FINISH.fullmatch(text):
        return FinishLine(kind=found[1])
    if found := _OFF.fullmatch(text):
        mean, cos, sin = (float(figure) for figure in found.groups()[1:])
        return OffLine(end=found[1], mean_mm=mean, cos_mm=cos, sin_mm=sin)
    if found := _WORK.fullmatch(text):
        return WorkLine(operation=found[1], times=int(found[2]))
    return OtherLine(text=text)


def _hole(
    number: str, verdict: str, wide: str | None, high: str | None, along: str, down: str,
    plug: str | None, plug_along: str | None, plug_down: str | None,
) -> HoleLine:  # fmt: skip
    return HoleLine(
        number=int(number),
        verdict=Verdict(verdict),
        opening=None if wide is None or high is None else _opening(float(wide), float(high)),
        place=Place(float(along), float(down)),
        plug_mm=None if plug is None else float(plug),
        plug_place=None
        if plug_along is None or plug_down is None
        else Place(float(plug_along), float(plug_down)),
    )


def _opening(along_mm: float, down_mm: float) -> HoleShape:
    """A line has the extents alone: equal ones are a round hole, others what they measure."""
    return Round(along_mm) if along_mm == down_mm else Rectangle(along_mm, down_mm)
