"""What a part in hand may be, as its page says it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from urllib.parse import quote

from markupsafe import Markup

from counterhoop.bench.shelf.piece_form import Line
from counterhoop.bench.shelf.unknown import Told
from counterhoop.parts.dimension import Dimension
from counterhoop.parts.unknown.next_measurement import NextMeasurement
from counterhoop.parts.unknown.odds import COULD_ALSO, CandidateOdds
from counterhoop.web.entry_desk import drawn
from counterhoop.web.forms import fault_words
from counterhoop.web.look.mine import Units
from counterhoop.web.shelf_words import address as card_address
from counterhoop.web.unknown_asked import Pairs, PartAsked, ReadPart

MOST_SHOWN, LEAST_SHOWN = 5, 0.005
WITH = (("", "by its figures"), ("caliper", "caliper"), ("rule", "rule or tape"))
"""The rest is counted, weighed or held against a gauge, and needs no saying."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenLine:
    """A measurement that was read.

    Attributes
    ----------
    name, written, fits : str
        Which, as written, and how it fits the likeliest.
    change, out : str
        Where it is written anew, and where it is taken out.
    """

    name: str
    written: str
    fits: str
    change: str
    out: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenLine:
    """A line that is being written, or that could not be read.

    Attributes
    ----------
    at : int
        Its place.
    line : Line
        As typed so far.
    fault, how : str
        Why it cannot be read; how it is measured.
    reach : bool
        Whether writing begins here.
    """

    at: int
    line: Line
    fault: str = ""
    how: str = ""
    reach: bool = False

    @property
    def with_choices(self) -> tuple[tuple[str, str], ...]:
        """What it may be taken with; what is typed already is one of them."""
        with_it = self.line.taken_with
        known = {choice for choice, _ in WITH}
        return WITH if with_it in known else (*WITH, (with_it, with_it))


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A measurement that would tell more.

    Attributes
    ----------
    press, why, href : str
        What is pressed; how it is taken and what it tells apart; where it is written down.
    trouble : str
        "1 minute with a caliper".
    """

    press: str
    why: str
    trouble: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MayBe:
    """One of what it may be, with its odds and how each measurement speaks."""

    name: str
    href: str
    odds: str
    fits: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldWords:
    """The page's words.

    Attributes
    ----------
    face : str
        The answer.
    taken, open : tuple
        Lines that were read, and lines to write in.
    unseen : list of pairs
        What the form carries along.
    offers : tuple of Offer
        What to measure next.
    usual, other : tuple of str
        The list of what may be measured, in two parts.
    may_be, like : tuple of MayBe
        With their odds; and, where nothing fits, what it is most like.
    none : str
        The odds of none of these.
    names : tuple of str
        Entries of the book that may be written on its card.
    svg : Markup
        The likeliest, life-size; empty where nothing is drawn.
    """

    face: str
    taken: tuple[TakenLine, ...]
    open: tuple[OpenLine, ...]
    unseen: Pairs
    offers: tuple[Offer, ...]
    usual: tuple[str, ...]
    other: tuple[str, ...]
    may_be: tuple[MayBe, ...]
    like: tuple[MayBe, ...]
    none: str
    names: tuple[str, ...]
    svg: Markup


def told_words(told: Told, asked: PartAsked, read: ReadPart, *, units: Units) -> ToldWords:
    """Return what the page says."""
    found, begun = told.odds, bool(read.taken or asked.kind)
    may_be = tuple(
        one for one in found.ranked[:MOST_SHOWN] if one.odds >= LEAST_SHOWN
    ) if begun else ()  # fmt: skip
    names = tuple(
        one.candidate.name
        for one in may_be
        if one.odds >= COULD_ALSO and not one.candidate.piece_id
    )
    return ToldWords(
        face=found.says if begun else "",
        taken=_taken(told, asked, read),
        open=_open(told, asked, read),
        unseen=_unseen(asked, read),
        offers=tuple(_offer(one, asked) for one in told.offered),
        usual=tuple(what.value for what in told.usual),
        other=tuple(what.value for what in Dimension if what not in told.usual),
        may_be=tuple(map(_may_be, may_be)),
        like=tuple(replace(_may_be(one), odds="") for one in found.like)
        if found.nothing_fits and begun
        else (),
        none=_percent(found.none),
        names=names,
        svg=drawn(told.fitting, units=units) if told.fitting and begun else Markup(""),
    )


def _taken(told: Told, asked: PartAsked, read: ReadPart) -> tuple[TakenLine, ...]:
    leader = told.leader
    fits = (
        {one.dimension: one.says.partition(": ")[2] for one in leader.penalties} if leader else {}
    )
    lines = []
    for n, one in read.taken.items():
        with_it = asked.lines[n].taken_with
        written = one.written or f"{one}"
        others = [at for at in range(len(asked.lines)) if at != n]
        lines.append(
            TakenLine(
                name=one.dimension.value,
                written=f"{written} ({with_it})" if with_it else written,
                fits=fits.get(one.dimension, ""),
                change=asked.changing(n).address,
                out=asked.only(others).address,
            )
        )
    return tuple(lines)


def _open(told: Told, asked: PartAsked, read: ReadPart) -> tuple[OpenLine, ...]:
    found: list[OpenLine] = []
    for n, line in enumerate(asked.lines):
        if n not in read.taken:
            fault = read.faults.get(n)
            found.append(
                OpenLine(
                    at=n,
                    line=line,
                    fault=fault_words(fault) if fault else "",
                    how=_how(line),
                    reach=not found and bool(line.what),
                )
            )
    return tuple(found) or (OpenLine(at=len(asked.lines), line=Line()),)


def _how(line: Line) -> str:
    try:
        return Dimension(line.what).about.taken
    except ValueError:
        return ""


def _unseen(asked: PartAsked, read: ReadPart) -> Pairs:
    """Return what the form for one more line carries along: all that has no field in it."""
    fields = {f"measured.{n}" for n in range(len(asked.lines)) if n not in read.taken}
    shown = ("write", "kind", "material", "finish")
    return [
        (name, value) for name, value in asked.pairs
        if name not in shown and name.rpartition(".")[0] not in fields
    ]  # fmt: skip


def _offer(one: NextMeasurement, asked: PartAsked) -> Offer:
    about = one.dimension.about
    minutes = "1 minute" if one.minutes == 1.0 else f"{one.minutes:g} minutes"
    time = minutes if one.minutes >= 1.0 else "half a minute" if one.minutes >= 0.3 else "a moment"
    tool = {"eye": "by eye", "thread gauge": "with a thread gauge"}
    return Offer(
        press=one.dimension.value,
        why=one.says,
        trouble=f"{time} {tool.get(about.instrument, f'with a {about.instrument}')}",
        href=asked.with_line(one.dimension).address,
    )


def _may_be(one: CandidateOdds) -> MayBe:
    candidate = one.candidate
    book = f"/workshop/fittings/entry?name={quote(candidate.name, safe='')}"
    return MayBe(
        name=candidate.name if not candidate.piece_id else f"{candidate.name}, on your shelf",
        href=card_address(candidate.piece_id) if candidate.piece_id else book,
        odds=_percent(one.odds),
        fits=tuple(penalty.says for penalty in one.penalties),
    )


def _percent(odds: float) -> str:
    """Return odds as one says them.

    Examples
    --------
    >>> _percent(0.9991), _percent(0.42), _percent(0.004)
    ('over 99 %', '42 %', 'under 1 %')
    """
    if odds > 0.99:
        return "over 99 %"
    return f"{100.0 * odds:.0f} %" if odds >= 0.01 else "under 1 %"
