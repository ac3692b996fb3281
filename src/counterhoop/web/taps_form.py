"""The form for a recording of taps: what is asked of it, and what a person said."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final
from urllib.parse import urlencode

from counterhoop.bench.taps_told import TapsTold, end_named, stage_named

HEAD_CHOICES: Final = (("batter", "batter head"), ("resonant", "the other head"))
STAGE_CHOICES: Final = (
    ("before", "before anything is turned"),
    ("between", "on the way"),
    ("after", "when it is done"),
)
MUTED_CHOICES: Final = (("yes", "yes, with a cloth"), ("no", "no"))
MOST_ROD = 40
MOST_STROKES = 400
LEFT_OUT = "0"
MUTED_WANTED = "Say whether the other head was muted: its ring moves the pitch of the one tapped."


@dataclass(frozen=True, slots=True, kw_only=True)
class TapsForm:
    """What was filled in, as it was typed, and what is wrong with it.

    Attributes
    ----------
    head, stage, muted, first, phone : str
        As sent; ``muted`` is "yes", "no" or empty: not answered.
    rods : tuple of str
        The rod of each stroke, where they were set one by one.
    refused, muted_wrong, first_wrong, phone_wrong : str
        Why the file was not kept; what is wrong with a field.
    """

    head: str = "batter"
    stage: str = "before"
    muted: str = ""
    first: str = ""
    phone: str = ""
    rods: tuple[str, ...] = ()
    refused: str = ""
    muted_wrong: str = ""
    first_wrong: str = ""
    phone_wrong: str = ""

    @property
    def told(self) -> TapsTold:
        """What it comes to; fields that are wrong count as empty."""
        return TapsTold(
            head=end_named(self.head),
            stage=stage_named(self.stage),
            muted=self.muted == "yes",
            first_rod=_rod(self.first) or 1,
            phone_rod=_rod(self.phone),
            rods=tuple(_rod(one) for one in self.rods),
        )

    @property
    def query(self) -> str:
        """All of it as the end of an address; what is as usual is left out."""
        usual = TapsForm()
        names = ("head", "stage", "muted", "first", "phone")
        said = [(name, getattr(self, name)) for name in names]
        told = [(name, value) for name, value in said if value != getattr(usual, name)]
        told += [("rod", one) for one in self.rods]
        return f"?{urlencode(told)}" if told else ""

    def checked(self, *, two_heads: bool = False) -> TapsForm:
        """Return the form with what is wrong said at its field.

        Parameters
        ----------
        two_heads : bool
            Whether it must be said that the other head was muted, or that it was not.
        """
        # The pitch lies elsewhere with the other head ringing, and no ear can tell afterwards.
        muted = MUTED_WANTED if two_heads and not self.muted else ""
        wanted = f"a rod's number, 1 to {MOST_ROD}"
        first = "" if not self.first or _rod(self.first) else f"Wanted: {wanted}."
        phone = "" if not self.phone or _rod(self.phone) else f"Wanted: {wanted}, or nothing."
        return replace(self, muted_wrong=muted, first_wrong=first, phone_wrong=phone)

    @property
    def wrong(self) -> bool:
        """Whether anything is."""
        return bool(self.refused or self.muted_wrong or self.first_wrong or self.phone_wrong)


def taps_form(given: Mapping[str, str], *, rods: Sequence[str] = ()) -> TapsForm:
    """Return what an address or a form says of a recording.

    Examples
    --------
    >>> taps_form({"head": "resonant", "muted": "yes", "first": " 3"}).told.first_rod
    3
    >>> taps_form({"head": "x"}).told == TapsTold()
    True
    """
    said = {name: given.get(name, "").strip()[:40] for name in ("head", "stage", "first", "phone")}
    return TapsForm(
        head=end_named(said["head"]),
        stage=stage_named(said["stage"]),
        muted=muted if (muted := given.get("muted", "")) in dict(MUTED_CHOICES) else "",
        first=said["first"],
        phone=said["phone"],
        rods=tuple(one.strip()[:3] for one in rods[:MOST_STROKES]),
    )


def _rod(text: str) -> int:
    """Return a rod's number, 0 where it is none."""
    ok = text.isascii() and text.isdecimal() and len(text) < 3
    return int(text) if ok and 1 <= int(text) <= MOST_ROD else 0


def followed(rods: Sequence[str], was: Sequence[str], *, count: int) -> tuple[str, ...]:
    """Return the rods after the first that was changed in order, from that one on.

    Parameters
    ----------
    rods, was : sequence of str
        The rod of each stroke as it is chosen now, and as it stood before; "0" is none.
    count : int
        How many rods there are.

    Examples
    --------
    Rod 2 was tapped twice: the third stroke is it again, and so are all after it one less.

    >>> followed(["1", "2", "2", "0", "4"], ["1", "2", "3", "0", "4"], count=4)
    ('1', '2', '2', '0', '3')
    >>> followed(["1", "0", "3"], ["1", "2", "3"], count=4)
    ('1', '0', '2')
    """
    if len(rods) != len(was) or count < 1:
        return tuple(rods)
    changed = next((at for at, one in enumerate(rods) if one != was[at]), None)
    if changed is None:
        return tuple(rods)
    # A stroke that is left out leaves its rod to the next.
    behind = _rod(rods[changed]) or _rod(was[changed]) - 1
    made = [*rods[: changed + 1]]
    for one in was[changed + 1 :]:
        behind += one != LEFT_OUT
        made.append(one if one == LEFT_OUT else str((behind - 1) % count + 1))
    return tuple(made)
