"""What helps a head on, in mm, with what it costs and whether it can be undone.

Costs are common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.survey.head_fit import Fit, HeadFit, head_fit


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """One thing that would help.

    Attributes
    ----------
    short : str
        What to do, in a few words, without figures that stand in ``does``.
    does : str
        What to do, in mm; a sentence.
    gains_mm : float
        Clearance that it can give.
    enough : bool
        Nothing else is then wanted.
    costs : str
        What it costs; a sentence.
    undone : str
        Whether it can be undone ("wholly", "not without ...", "never").
    refused : bool
        Not offered unless the client and the restorer both insist.
    """

    short: str
    does: str
    gains_mm: float
    enough: bool
    costs: str
    undone: str
    refused: bool = False


def ways_out(
    fit: HeadFit, *, wall_mm: float | None = None, new_wrap: bool = False
) -> tuple[WayOut, ...]:
    """Return what would help: what can be undone first, the cheaper first; none when none is asked.

    Parameters
    ----------
    fit : HeadFit
        As found, or for the finish to come.
    wall_mm : float, optional
        Wood of the shell, to say how much of it sanding would take.
    new_wrap : bool
        The wrap is not on yet, so that a band can be kept free of it.
    """
    if _well(fit):
        return ()
    band, heads = _band(fit, new_wrap=new_wrap), _other_heads(fit)
    middle = (*band, *heads) if new_wrap else (*heads, *band)
    return (*_easing(fit), *middle, _sanding(fit, wall_mm))


def _well(fit: HeadFit) -> bool:
    return fit.known.fit in (Fit.FLOATS, Fit.SNUG) and fit.round_enough


def other_hoop(fit: HeadFit) -> WayOut | None:
    """Return the counterhoop that goes over the head's rim; None when the one measured does."""
    if fit.rim_clear_mm is None or fit.rim_clear_mm >= 0.0:
        return None
    inside = _mm(fit.readings.rim_mm or 0.0)
    return WayOut(
        short=f"a counterhoop more than {inside} inside",
        does=f"Another counterhoop, measured: more than {inside} inside.",
        gains_mm=-fit.rim_clear_mm,
        enough=True,
        costs="A hoop with as many ears as the row has lugs.",
        undone="wholly",
    )


def _mm(value_mm: float) -> str:
    return print_mm(value_mm, resolution_mm=CALIPER_MM)


def _short_mm(fit: HeadFit) -> float:
    return fit.wanted_mm - fit.known.clear_mm


def _easing(fit: HeadFit) -> list[WayOut]:
    stands, eased = fit.as_it_stands, fit.eased_round
    if stands is None or eased.clear_mm < 0.0:
        return []
    if eased.clear_mm - stands.clear_mm < CALIPER_MM / 2.0:  # prints as nothing gained
        return []
    return [
        WayOut(
            short="ease the shell round by hand as the head goes on",
            does="Ease the shell round by hand as the head goes on: eased to a circle it leaves "
            f"{_mm(eased.clear_mm)} on the diameter.",
            gains_mm=eased.clear_mm - stands.clear_mm,
            enough=eased.clear_mm >= fit.snug_mm,
            costs="A second pair of hands; the shell pulls back and the head may seat unevenly. "
            "Nothing forced: old shells split.",
            undone="wholly",
        )
    ]


def _other_heads(fit: HeadFit) -> list[WayOut]:
    collar = _mm((fit.largest_mm or fit.round_mm) + fit.wanted_mm)
    return [
        WayOut(
            short=f"another head, at least {collar} inside its collar",
            does=f"Another head, measured: at least {collar} inside its collar.",
            gains_mm=_short_mm(fit),
            enough=True,
            costs="A head; makes differ by a millimetre or more, so measure before paying.",
            undone="wholly",
        ),
        WayOut(
            short=f"an over-size head, {collar} or more inside its collar, with its hoop",
            does=f"An over-size head, {collar} or more inside its collar, with a counterhoop that "
            "goes over its rim. Order by these millimetres, not by a nominal size.",
            gains_mm=_short_mm(fit),
            enough=True,
            costs="A head made to order and its hoop; check ears, rods and lugs against the hoop.",
            undone="wholly",
        ),
    ]


def _band(fit: HeadFit, *, new_wrap: bool) -> list[WayOut]:
    """No wrap under the collar: two thicknesses less, and the overlap where no reading holds it."""
    read = fit.readings
    if not read.wrap_mm:
        return []
    off = 2.0 * read.wrap_mm
    bare = head_fit(
        replace(
            read,
            around_mm=read.around_mm - math.pi * off,
            largest_mm=None if read.largest_mm is None else read.largest_mm - off,
            smallest_mm=None if read.smallest_mm is None else read.smallest_mm - off,
            wrap_mm=0.0,
        ),
        floats_mm=fit.floats_mm,
        snug_mm=fit.snug_mm,
    )
    gains = bare.known.clear_mm - fit.known.clear_mm
    if new_wrap:
        return [
            WayOut(
                short="keep a band under the collar free of wrap",
                does="Keep a band under the collar free of the new wrap: "
                f"{_mm(gains)} on the diameter.",
                gains_mm=gains,
                enough=_well(bare),
                costs="A narrower wrap, and a line of bare shell that the hoop has to hide.",
                undone="wholly, until it is glued",
            )
        ]
    return [
        WayOut(
            short="relieve the wrap by a band under the collar",
            does=f"Relieve the wrap by a band under the collar: up to {_mm(gains)} on the "
            f"diameter, {_mm(_short_mm(fit))} wanted.",
            gains_mm=gains,
            enough=_well(bare),
            costs="A band of bare shell under the hoop; old wrap may be cellulose nitrate: cut it "
            "cold, no heat gun, no sanding.",
            undone="not without a new wrap",
        )
    ]


def _sanding(fit: HeadFit, wall_mm: float | None) -> WayOut:
    off = _short_mm(fit) / 2.0
    wall = "" if wall_mm is None else f" of {_mm(wall_mm)} wall"
    return WayOut(
        short="sand wood off the shell",
        does=f"Sand wood off the shell: {_mm(off)}{wall} all round.",
        gains_mm=_short_mm(fit),
        enough=wall_mm is None or off < wall_mm,
        costs="The shell's outer ply and its value.",
        undone="never",
        refused=True,
    )
