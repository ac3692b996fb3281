"""A listing from plain facts: every change and every extra hole told, and no praise."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from counterhoop.job.trade.facts import DrumFacts, ExtraHole, PartFact
from counterhoop.quantities.length import MM_PER_INCH
from counterhoop.quantities.print_length import print_mm

_WHOLE_MM = 1.0
"""A size as it is called is no measurement: whole millimetres at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """One line that is seen first, and paragraphs.

    Attributes
    ----------
    title : str
    paragraphs : tuple of str
        In order; a paragraph of several lines holds line ends.
    """

    title: str
    paragraphs: tuple[str, ...]

    @property
    def text(self) -> str:
        """The whole, paragraphs an empty line apart."""
        return "\n\n".join((self.title, *self.paragraphs))


def listing(drum: DrumFacts) -> Listing:
    """Tell a drum to a buyer.

    All words that are not fixed here come from the record. What nobody looked at is said to be
    not looked at, never to be sound, original or absent.

    Examples
    --------
    >>> told = listing(DrumFacts(kind="snare drum", dia_in=14, deep_in=6.5, line="Corvane Tarnbeck",
    ...                          parts=(PartFact(name="strainer", state="later"),)))
    >>> told.title
    'Corvane Tarnbeck snare drum, 14 dia x 6.5 deep, with changed parts'
    >>> told.paragraphs[1]
    'Changed or missing:\\n- strainer: later'
    """
    return Listing(
        title=_title(drum),
        paragraphs=tuple(
            paragraph
            for paragraph in (
                _what_it_is(drum),
                _lines("Changed or missing", map(_part_line, drum.changed)),
                _kept(drum),
                _holes(drum),
                _lines("Wrong with it", map(_plain, drum.faults)),
                _lines("As it came to the workshop", map(_plain, drum.as_it_came)),
                _lines("Done to it", map(_plain, drum.work_done)),
                _lines("Comes with it", map(_plain, drum.comes_with)),
                _lines("What could not be known", _unknown(drum)),
            )
            if paragraph
        ),
    )


def said_size(drum: DrumFacts) -> str:
    """Say the size as the drum is called, each number with its word.

    Examples
    --------
    >>> said_size(DrumFacts(kind="tom", dia_in=13, deep_in=9))
    '13 dia x 9 deep'
    """
    return f"{drum.dia_in:g} dia x {drum.deep_in:g} deep"


def _title(drum: DrumFacts) -> str:
    name = _plain(f"{drum.line} {drum.kind}")
    told = [
        *(["changed parts"] if drum.changed else []),
        *_extra(drum),
    ]
    return f"{name}, {said_size(drum)}{', with ' + ' and '.join(told) if told else ''}"


def _extra(drum: DrumFacts) -> list[str]:
    if not any(hole.sure for hole in drum.extra_holes):
        return []
    plugged = all(hole.state == "plugged" for hole in drum.extra_holes)
    return ["plugged extra holes" if plugged else "extra holes"]


def _what_it_is(drum: DrumFacts) -> str:
    in_mm = [
        print_mm(float(MM_PER_INCH) * inches, resolution_mm=_WHOLE_MM)
        for inches in (drum.dia_in, drum.deep_in)
    ]
    says = [
        f"{_plain(drum.kind).capitalize()}, {said_size(drum)} in inches as it is called "
        f"(about {in_mm[0]} dia x {in_mm[1]} deep).",
        *(
            f"{word}: {_plain(value)}."
            for word, value in (
                ("Line", drum.line),
                ("Serial number", drum.serial),
                ("Made", drum.made),
                ("Shell", drum.shell),
                ("Finish", drum.finish),
                ("Bearing edges", drum.edges),
            )
            if value.strip()
        ),
    ]
    return " ".join(says)


def _kept(drum: DrumFacts) -> str:
    said = []
    for state in ("original", "of the period"):
        names = [_plain(part.name) + _aside(part) for part in drum.parts if part.state == state]
        if names:
            said.append(f"{state.capitalize()}, as far as can be told: {', '.join(names)}.")
    return " ".join(said)


def _holes(drum: DrumFacts) -> str:
    if not drum.extra_holes:
        return "No extra holes were found." if drum.holes_counted else ""
    sure = sum(hole.sure for hole in drum.extra_holes)
    perhaps = len(drum.extra_holes) - sure
    may = "" if sure else f" hole{'s'[: perhaps != 1]}"
    counts = [
        *([f"{sure} extra hole{'s'[: sure != 1]}"] if sure else []),
        *([f"{perhaps}{may} that may be extra"] if perhaps else []),
    ]
    return _lines(" and ".join(counts), map(_hole_line, drum.extra_holes))


def _unknown(drum: DrumFacts) -> list[str]:
    unsure = [part for part in drum.parts if part.state == "not sure"]
    return [
        *map(_plain, drum.not_known),
        *(f"{_plain(part.name)}: can't tell whether its own{_aside(part)}" for part in unsure),
        *(
            f"hole {hole.number}: can't tell whether the factory made it"
            for hole in drum.extra_holes
            if not hole.sure
        ),
        *([] if drum.made.strip() else ["when it was made"]),
        *([] if drum.parts else ["which parts are its own: they were not gone over"]),
        *(
            []
            if drum.holes_counted
            else ["whether there are more holes: they were not all counted"]
        ),
    ]


def _part_line(part: PartFact) -> str:
    return f"{_plain(part.name)}: {part.state}{_aside(part)}"


def _hole_line(hole: ExtraHole) -> str:
    where = _plain(hole.where)
    return (
        f"hole {hole.number}: {print_mm(hole.across_mm)} across, {hole.state}"
        f"{', ' + where if where else ''}{'' if hole.sure else ', perhaps the factory made it'}"
    )


def _aside(part: PartFact) -> str:
    return f" ({_plain(part.says)})" if part.says.strip() else ""


def _lines(head: str, lines: Iterable[str]) -> str:
    told = [f"- {line}" for line in lines if line]
    return "\n".join([f"{head}:", *told]) if told else ""


def _plain(text: str) -> str:
    """Return a text on one line, without the stop at its end."""
    return " ".join(text.split()).removesuffix(".")
