"""An invented drum's missing pieces, and what is known of it beside its survey."""

from __future__ import annotations

from counterhoop.papers.identity_sheet import Identity, PartSaid
from counterhoop.papers.wants_list import DrumWants
from counterhoop.parts.comes_apart import Sort
from counterhoop.parts.strip_down import Expected, StripDown
from counterhoop.parts.ticked import Counted
from counterhoop.parts.wants import Want, Wants


def wants_of_drum(drum: str) -> DrumWants:
    """Six screws, one of them spoilt; a badge that nobody has looked for."""
    screw = Sort(piece="screw M5 x 16 mm", kind="screw")
    badge = Expected(place="badge", sort=Sort(piece=drum, kind="badge"), count=1)
    want = Want(sort=screw, count=6, places=((drum, 4), ("lug 2", 2)), spoilt=1)
    return DrumWants(drum=drum, wants=Wants(lines=(want,), uncounted=(Counted(expected=badge),)))


def known_of(text: str) -> Identity:
    """Something of everything, with what somebody typed in each place."""
    return Identity(
        marks=(("serial number", "61 482"), ("stamp", text)),
        condition=("Lacquer crazed all over, not lifted.", text),
        dated=("Likely between 1957 and 1963.", text),
        parts=(
            PartSaid(part="badge", seen="oval", word="original", why="goes with the lugs"),
            PartSaid(part=text, seen=text, word="can't tell", why=text),
        ),
        photographs=("outside, from the badge", text),
    )


def strip_of_drum(drum: str) -> StripDown:
    """Six lugs with screws, a lost badge, and what somebody typed in each place."""
    lug, screw = Sort(piece=drum, kind="lug"), Sort(piece="screw M5 x 16 mm", kind="screw")
    lines = [
        Expected(place=f"batter lug {n}", sort=sort, count=count)
        for n in range(1, 7)
        for sort, count in ((lug, 1), (screw, 2))
    ]
    lost = Expected(place=drum, sort=Sort(piece="badge", kind="badge"), count=1, lost=True)
    return StripDown(drum=drum, lines=(*lines, lost), unsaid=(f"Count what holds {drum} on.",))
