"""The form for a recording of taps: what is asked of it, and what a person said."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final
from urllib.parse import urlencode

from counterhoop.bench.taps_told import AlsoTold, TapsTold, end_named, stage_named

HEAD_CHOICES: Final = (("batter", "batter head"), ("resonant", "the other head"))
STAGE_CHOICES: Final = (
    ("before", "before anything is turned"),
    ("between", "on the way"),
    ("after", "when it is done"),
)
WAY_CHOICES: Final = (
    ("", "by the numbers of the rods"),
    ("back", "against the numbers"),
)
MUTED_CHOICES: Final = (("yes", "yes, with a cloth"), ("no", "no"))
MOST_ROD = 40
MOST_STROKES = 400
LEFT_OUT = "0"
SAID: Final = (
    "head", "stage", "muted", "first", "way", "phone", "also", "also_first", "also_phone",
)  # fmt: skip
"""What a person says, by the names in forms and addresses; rods stroke by stroke beside it."""
ROD_WANTED = f"Wanted: a rod's number, 1 to {MOST_ROD}, or nothing."
MUTED_WANTED = "Say whether the other head was muted: its ring moves the pitch of the one tapped."


@dataclass(frozen=True, slots=True, kw_only=True)
class TapsForm:
    """What was filled in, as it was typed, and what is wrong with it.

    Attributes
    ----------
    head, stage, muted, first, way, phone : str
        As sent; ``muted`` is "yes", "no" or empty: not answered.
    rods : tuple of str
        The rod of each stroke, where they were set one by one.
    also : str
        The recording of the same taps from a second place of the phone; empty without one.
    also_first, also_phone, also_rods :
        As of the first recording.
    refused, also_refused : str
        Why a file was not kept.
    muted_wrong, first_wrong, phone_wrong, also_first_wrong, also_phone_wrong : str
        What is wrong with a field.
    """

    head: str = "batter"
    stage: str = "before"
    muted: str = ""
    first: str = ""
    way: str = ""
    phone: str = ""
    rods: tuple[str, ...] = ()
    also: str = ""
    also_first: str = ""
    also_phone: str = ""
    also_rods: tuple[str, ...] = ()
    refused: str = ""
    also_refused: str = ""
    muted_wrong: str = ""
    first_wrong: str = ""
    phone_wrong: str = ""
    also_first_wrong: str = ""
    also_phone_wrong: str = ""

    @property
    def told(self) -> TapsTold:
        """What it comes to; fields that are wrong count as empty."""
        return TapsTold(
            head=end_named(self.head),
            stage=stage_named(self.stage),
            muted=self.muted == "yes",
            first_rod=_rod(self.first) or 1,
            back=self.way == "back",
            phone_rod=_rod(self.phone),
            rods=tuple(_rod(one) for one in self.rods),
        )

    def also_told(self, *, file: str, name: str) -> AlsoTold:
        """Return what it comes to of the second recording, which lies there under that name."""
        return AlsoTold(
            file=file,
            name=name,
            first_rod=_rod(self.also_first) or 1,
            phone_rod=_rod(self.also_phone),
            rods=tuple(_rod(one) for one in self.also_rods),
        )

    @property
    def alone(self) -> TapsForm:
        """The first recording without the second."""
        return replace(self, also="", also_first="", also_phone="", also_rods=())

    @property
    def in_order(self) -> TapsForm:
        """All strokes in order again, whatever was set one by one."""
        return replace(self, rods=(), also_rods=())

    @property
    def unseen(self) -> list[tuple[str, str]]:
        """All of it as a form sends it on, each name with its value."""
        return [*((name, getattr(self, name)) for name in SAID), *self._each_rod]

    @property
    def _each_rod(self) -> list[tuple[str, str]]:
        return [
            *(("rod", one) for one in self.rods),
            *(("also_rod", one) for one in self.also_rods),
        ]

    @property
    def query(self) -> str:
        """All of it as the end of an address; what is as usual is left out."""
        usual = TapsForm()
        said = [(name, getattr(self, name)) for name in SAID]
        told = [(name, value) for name, value in said if value != getattr(usual, name)]
        told += self._each_rod
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

        def wrong(said: str) -> str:
            return "" if not said or _rod(said) else ROD_WANTED

        return replace(
            self, muted_wrong=muted, first_wrong=wrong(self.first), phone_wrong=wrong(self.phone),
            also_first_wrong=wrong(self.also_first), also_phone_wrong=wrong(self.also_phone),
        )  # fmt: skip


def taps_form(
    given: Mapping[str, str], *, rods: Sequence[str] = (), also_rods: Sequence[str] = ()
) -> TapsForm:  # fmt: skip
    """Return what an address or a form says of a recording.

    Examples
    --------
    >>> taps_form({"head": "resonant", "muted": "yes", "first": " 3"}).told.first_rod
    3
    >>> taps_form({"head": "x"}).told == TapsTold()
    True
    """
    said = {name: given.get(name, "").strip()[:40] for name in SAID}
    return TapsForm(
        head=end_named(said["head"]),
        stage=stage_named(said["stage"]),
        muted=muted if (muted := given.get("muted", "")) in dict(MUTED_CHOICES) else "",
        first=said["first"],
        way=said["way"] if said["way"] in dict(WAY_CHOICES) else "",
        phone=said["phone"],
        rods=_listed(rods),
        also=said["also"],
        also_first=said["also_first"],
        also_phone=said["also_phone"],
        also_rods=_listed(also_rods),
    )


def _listed(rods: Sequence[str]) -> tuple[str, ...]:
    return tuple(one.strip()[:3] for one in rods[:MOST_STROKES])


def _rod(text: str) -> int:
    """Return a rod's number, 0 where it is none."""
    ok = text.isascii() and text.isdecimal() and len(text) < 3
    return int(text) if ok and 1 <= int(text) <= MOST_ROD else 0


def followed(
    rods: Sequence[str], was: Sequence[str], *, count: int, back: bool = False
) -> tuple[str, ...]:  # fmt: skip
    """Return the rods after the first that was changed in order, from that one on.

    Parameters
    ----------
    rods, was : sequence of str
        The rod of each stroke as it is chosen now, and as it stood before; "0" is none.
    count : int
        How many rods there are.
    back : bool
        They went against the numbers.

    Examples
    --------
    Rod 2 was tapped twice: the third stroke is it again, and so are all after it one less.

    >>> followed(["1", "2", "2", "0", "4"], ["1", "2", "3", "0", "4"], count=4)
    ('1', '2', '2', '0', '3')
    >>> followed(["1", "0", "3"], ["1", "2", "3"], count=4)
    ('1', '0', '2')
    >>> followed(["2", "4", "3"], ["1", "4", "3"], count=4, back=True)
    ('2', '1', '4')
    """
    if len(rods) != len(was) or count < 1:
        return tuple(rods)
    changed = next((at for at, one in enumerate(rods) if one != was[at]), None)
    if changed is None:
        return tuple(rods)
    # A stroke that is left out leaves its rod to the next.
    step = -1 if back else 1
    behind = _rod(rods[changed]) or _rod(was[changed]) - step
    made = [*rods[: changed + 1]]
    for one in was[changed + 1 :]:
        behind += step * (one != LEFT_OUT)
        made.append(one if one == LEFT_OUT else str((behind - 1) % count + 1))
    return tuple(made)
