"""What was found on a drum in mid-work, and what the client answered."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final

from counterhoop.bench.folders.days import day_written
from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.kinds import FOUND
from counterhoop.errors import Finding, Grade
from counterhoop.job.yes.note_said import NoteSaid
from counterhoop.quantities.day import say_day

THINGS: Final = "things"
ANSWERS: Final = "answers"
SORTS: Final[dict[str, str]] = {
    "crack": "a crack",
    "loose ply": "a loose ply",
    "hole": "a hole that is not on the list",
    "thread": "a thread that is gone",
    "part": "a part that is cracked",
    "other": "something else",
}
"""What can be found, in the order of the form."""
NAMED: Final[dict[str, str]] = {
    "crack": "crack in the shell",
    "loose ply": "loose ply",
    "hole": "hole that was not on the list",
    "thread": "thread that is gone",
    "part": "cracked part",
    "other": "",
}
"""How each begins a sentence to the client."""
CODE: Final = "found-on-the-way"
REMEDY: Final = (
    "Ask the client by the change note and write the answer down, or say that it needs none."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """One thing that was found.

    Attributes
    ----------
    number : int
        Its number on this drum, from 1.
    sort : str
        One of ``SORTS``.
    where, size, means : str
        Where it is, how large, and what it means, as typed or as made of what was typed.
    on : datetime.date or None
        The day.
    by : str
        At which bench.
    photographs : tuple of str
        Names of enclosures.
    place : str
        The list of the survey that it went into; empty for none.
    item : mapping
        What stands there.
    settled, taken_back : str
        Why it needs no answer of the client; why it was taken back. Empty for neither.
    """

    number: int
    sort: str
    where: str
    size: str = ""
    means: str = ""
    on: dt.date | None = None
    by: str = ""
    photographs: tuple[str, ...] = ()
    place: str = ""
    item: Mapping[str, Any] | None = None
    settled: str = ""
    taken_back: str = ""

    @property
    def says(self) -> str:
        """One sentence, as the client reads it.

        Examples
        --------
        >>> Found(number=1, sort="crack", where="lug 4", size="0 mm to 60 mm down").says
        'Crack in the shell at lug 4, 0 mm to 60 mm down.'
        >>> Found(number=2, sort="other", where="", means="the glue of the ring is dust").says
        'The glue of the ring is dust.'
        """
        name = NAMED.get(self.sort, "")
        if name and self.where:
            name = f"{name} at {self.where}"
        head = ", ".join(part for part in (name or self.where, self.size) if part)
        words = ": ".join(part for part in (head, self.means) if part).rstrip(".")
        return f"{words[:1].upper()}{words[1:]}."


@dataclass(frozen=True, slots=True, kw_only=True)
class Charged:
    """What a change makes dearer, of one kind; in the smallest coin, as prices are typed."""

    kind: str
    minor: int
    currency: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What the client said to a change.

    Attributes
    ----------
    number : int
        Its number on this drum, from 1.
    yes : bool
    who, how : str
    when : datetime.date
    things : tuple of int
        What it was about.
    offer : int
        Number of the offer whose price it moves.
    code : str
        Of what is cut for good, as it was shown.
    says : str
        Price and day in words, as they were shown.
    charges : tuple of Charged
    note : NoteSaid
        Empty in answers of before notes were kept.
    """

    number: int
    yes: bool
    who: str
    when: dt.date
    how: str
    things: tuple[int, ...] = ()
    offer: int = 0
    code: str = ""
    says: str = ""
    charges: tuple[Charged, ...] = ()
    note: NoteSaid = field(default_factory=NoteSaid)

    @property
    def words(self) -> str:
        """Who answered what, when and how.

        Examples
        --------
        >>> day = dt.date(2030, 5, 17)
        >>> Answer(number=1, yes=False, who="Nell", when=day, how="by letter").words
        'Nell said no on 17 May 2030, by letter'
        """
        said = "yes" if self.yes else "no"
        return f"{self.who} said {said} on {say_day(self.when)}, {self.how}"


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundOnDrum:
    """Everything that was found on a drum.

    Attributes
    ----------
    number : int
        The revision of the document; 0 before the first.
    every : tuple of Found
        The first first, those that were taken back too.
    answers : tuple of Answer
    """

    number: int = 0
    every: tuple[Found, ...] = ()
    answers: tuple[Answer, ...] = ()

    @property
    def stands(self) -> tuple[Found, ...]:
        """What was not taken back."""
        return tuple(one for one in self.every if not one.taken_back)

    @property
    def open(self) -> tuple[Found, ...]:
        """What waits for an answer."""
        answered = {number for one in self.answers for number in one.things}
        return tuple(one for one in self.stands if not one.settled and one.number not in answered)

    @property
    def said_no(self) -> tuple[Found, ...]:
        """What the client said no to last, and stands all the same."""
        return tuple(
            one for one in self.stands if (said := self.answer_to(one)) is not None and not said.yes
        )

    def said_no_says(self, thing: Found) -> str:
        """Return a thing with the no to it, as the next note has it."""
        said = self.answer_to(thing)
        return f"{thing.says} Asked before: {said.words}." if said else thing.says

    def answer_to(self, thing: Found) -> Answer | None:
        """Return the last answer to a thing."""
        said = [one for one in self.answers if thing.number in one.things]
        return said[-1] if said else None

    def thing(self, number: int) -> Found | None:
        """Return a thing by its number."""
        return next((one for one in self.every if one.number == number), None)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the drum's pages say of it: take care until it is answered."""
        waits = {one.number for one in self.open}
        return tuple(
            Finding(
                code=CODE,
                grade=Grade.TAKE_CARE if one.number in waits else Grade.NOTE,
                says=f"{one.says} Found{f' on {say_day(one.on)}' if one.on else ''}"
                f"{self._since(one, waits)}.",
                where=one.where,
                rule="",
                remedy=REMEDY if one.number in waits else "",
            )
            for one in self.stands
        )

    def _since(self, one: Found, waits: set[int]) -> str:
        if one.number in waits:
            return "; not answered yet"
        said = self.answer_to(one)
        return f"; {said.words}" if said else f"; no answer wanted: {one.settled.rstrip('.')}"


def found_on(drum: KeptDrum) -> FoundOnDrum:
    """Return what was found on a drum; a document that is not loaded counts as not written."""
    kept = drum.kept(FOUND)
    things, said = kept.table.get(THINGS), kept.table.get(ANSWERS)
    rows = things if isinstance(things, dict) else {}
    answers = said if isinstance(said, list) else []
    found = [
        _thing(int(number), row)
        for number, row in rows.items()
        if number.isdecimal() and isinstance(row, dict)
    ]
    return FoundOnDrum(
        number=kept.number,
        every=tuple(sorted(found, key=lambda one: one.number)),
        answers=tuple(
            one
            for place, row in enumerate(answers)
            if isinstance(row, dict) and (one := _answer(place + 1, row)) is not None
        ),
    )


def _thing(number: int, row: Mapping[str, Any]) -> Found:
    lies = row.get("in_survey")
    lies = lies if isinstance(lies, dict) else {}
    pictures = row.get("photographs")
    return Found(
        number=number,
        sort=_text(row.get("sort")) or "other",
        where=_text(row.get("where")),
        size=_text(row.get("size")),
        means=_text(row.get("means")),
        on=day_written(row.get("on")),
        by=_text(row.get("by")),
        photographs=tuple(str(one) for one in pictures) if isinstance(pictures, list) else (),
        place=_text(lies.get("place")),
        item=lies.get("item") if isinstance(lies.get("item"), dict) else None,
        settled=_text(row.get("settled")),
        taken_back=_text(row.get("taken_back")),
    )


def _answer(number: int, row: Mapping[str, Any]) -> Answer | None:
    when = day_written(row.get("when"))
    if when is None:
        return None
    things, charges = row.get("things"), row.get("charges")
    return Answer(
        number=number,
        yes=row.get("yes") is True,
        who=_text(row.get("who")),
        when=when,
        how=_text(row.get("how")),
        things=tuple(one for one in things if isinstance(one, int))
        if isinstance(things, list)
        else (),
        offer=row["offer"] if isinstance(row.get("offer"), int) else 0,
        code=_text(row.get("code")),
        says=_text(row.get("says")),
        charges=tuple(
            Charged(kind=one["kind"], minor=one["minor"], currency=one["currency"])
            for one in (charges if isinstance(charges, list) else [])
            if isinstance(one, dict) and {"kind", "minor", "currency"} <= one.keys()
        ),
        note=_note(row.get("note")),
    )


def _note(row: object) -> NoteSaid:
    if not isinstance(row, dict):
        return NoteSaid()
    differs, holes = row.get("differs"), row.get("holes")
    return NoteSaid(
        found=_texts(row.get("found")),
        work=_texts(row.get("work")),
        agreed=_text(row.get("agreed")),
        was_code=_text(row.get("was_code")),
        differs=tuple(
            (str(one[0]), str(one[1]))
            for one in (differs if isinstance(differs, list) else [])
            if isinstance(one, list) and len(one) == 2
        ),
        holes=tuple(one for one in (holes if isinstance(holes, list) else []) if type(one) is int),
        price=_text(row.get("price")),
        day=_text(row.get("day")),
    )


def _texts(value: object) -> tuple[str, ...]:
    return tuple(map(str, value)) if isinstance(value, list) else ()


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""
