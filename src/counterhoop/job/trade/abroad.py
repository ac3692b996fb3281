"""Before a drum is posted abroad: what it is made of, what burns, how large, which papers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterhoop.errors import Finding, Grade
from counterhoop.job.trade.made_of import CHECK, about
from counterhoop.job.trade.parcel import Limits, Parcel, against_limits

NITRATE_RULE = (
    "Dangerous goods rules: celluloid in blocks, rods, rolls, sheets or tubes is UN 2000, class "
    "4.1; scrap is UN 2002, class 4.2 (from memory)"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Goods:
    """What goes into the parcel.

    Attributes
    ----------
    timbers, ornaments, skins : tuple of str
        In the words of the record. Empty means that nothing was written down, not that there is
        none.
    nitrate : str
        Whether a wrap, knob or inlay is celluloid: "maybe" unless it was shown not to be.
    finished : bool
        A playable drum; False for bare shells, ply, veneer and loose parts.
    """

    timbers: tuple[str, ...]
    nitrate: Literal["no", "maybe", "yes"]
    finished: bool
    ornaments: tuple[str, ...] = ()
    skins: tuple[str, ...] = ()


def before_posting(goods: Goods, *, parcel: Parcel | None, limits: Limits) -> tuple[Finding, ...]:
    """Return what to ask before a drum goes abroad, the gravest first.

    Nothing here is the law of a country: each finding names what to ask and whom. Between Great
    Britain and its neighbours is abroad too.

    Parameters
    ----------
    goods : Goods
    parcel : Parcel or None
        None when it is not packed yet.
    limits : Limits
        As typed from the carrier's paper.
    """
    found = [
        *(one for words in goods.timbers for one in about(words, kind="timber")),
        *(one for words in goods.ornaments for one in about(words, kind="ornament")),
        *(one for words in goods.skins for one in about(words, kind="skin")),
        *_unfinished(goods),
        *_unsaid(goods),
        *_nitrate(goods),
        *(against_limits(parcel, limits) if parcel else (_unpacked(),)),
        _papers(),
    ]
    return tuple(sorted(dict.fromkeys(found), key=lambda one: -one.grade))


def _nitrate(goods: Goods) -> list[Finding]:
    if goods.nitrate == "no":
        return []
    is_it = "is" if goods.nitrate == "yes" else "may be"
    return [
        Finding(
            code="abroad-nitrate",
            grade=Grade.STOP,
            says=f"Wrap, knob or inlay {is_it} celluloid (cellulose nitrate), which takes fire "
            "easily: carriers class it as dangerous goods, by air above all.",
            unit="",
            rule=NITRATE_RULE,
            remedy="Tell the carrier what it is and post it only with their yes in writing. Never "
            f"test it with flame or heat to find out. {CHECK}",
        )
    ]


def _unfinished(goods: Goods) -> list[Finding]:
    if goods.finished or not goods.timbers:
        return []
    return [
        Finding(
            code="abroad-not-finished",
            grade=Grade.TAKE_CARE,
            says="A bare shell, ply, veneer or a loose part may not pass as a finished instrument: "
            "what is left out for instruments may not be left out for it.",
            unit="",
            rule="annotations to the CITES Appendices (from memory)",
            remedy=f"Ask for each timber that is listed. {CHECK}",
        )
    ]


def _unsaid(goods: Goods) -> list[Finding]:
    if goods.timbers:
        return []
    return [
        Finding(
            code="abroad-timber-unsaid",
            grade=Grade.TAKE_CARE,
            says="Nobody wrote down what the shell is made of.",
            unit="",
            rule="the record",
            remedy=f"Write down what can be told of each ply, or that it can't be told. {CHECK}",
        )
    ]


def _unpacked() -> Finding:
    return Finding(
        code="parcel-not-measured",
        grade=Grade.NOTE,
        says="The parcel is not packed yet: size and weight are not checked.",
        where="parcel",
        unit="",
        rule="the carrier's limits",
        remedy="Measure and weigh it packed.",
    )


def _papers() -> Finding:
    return Finding(
        code="abroad-papers",
        grade=Grade.NOTE,
        says="Customs ask what it is, how old, of what, what it is worth, and who sends it.",
        unit="",
        rule="common practice, no source",
        remedy="Write the value that it is insured for, and say where it is second-hand. Great "
        f"Britain and its neighbours are abroad to each other. {CHECK}",
    )
