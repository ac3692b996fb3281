"""How far a drum has come, from what is written of it: taken, allowed, done, on which days."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Any, Literal

from counterhoop.bench.folders.days import day_written, local_day
from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.kinds import APPROVAL, CHOICE, SURVEY, TICKS
from counterhoop.quantities.day import say_day

Stage = Literal["bare", "surveyed", "taken", "allowed", "ticked"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """A yes that was given.

    Attributes
    ----------
    who, how, covers : str
        Whose, how it was given, and the code of the scheme that it covers.
    day : datetime.date or None
        When.
    back, back_how : datetime.date or None, str
        When it was taken back, by whom and how.
    """

    who: str
    how: str
    covers: str
    day: dt.date | None
    back: dt.date | None = None
    back_how: str = ""

    def says(self, *, to: str = "") -> str:
        """Return the yes in words.

        Examples
        --------
        >>> yes = Given(who="Nell", how="by letter", covers="TVK6", day=dt.date(2030, 5, 17))
        >>> yes.says(to="the small tom")
        'Nell said yes to the small tom on 17 May 2030'
        """
        return f"{self.who} said yes{f' to {to}' if to else ''}{on(self.day)}"

    def back_says(self) -> str:
        """Return in words that the yes was taken back; empty while it stands."""
        if self.back is None:
            return ""
        return f"{self.says()}, and that was taken back{on(self.back)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumState:
    """How far one drum has come.

    Attributes
    ----------
    drum : KeptDrum
        Which.
    stage : str
        "bare" before anything is measured, then "surveyed", "taken" (a scheme), "allowed" (by the
        client), "ticked" (holes done).
    scheme, code : str
        The scheme that is taken: its heading where it is known, and its code.
    taken_at : datetime.date or None
        When it was taken.
    yes, taken_back : tuple of Given
        Every yes that stands, the first first; every yes that was taken back.
    done : tuple of (day or None, tuple of str)
        Holes that are ticked, by day.
    """

    drum: KeptDrum
    stage: Stage
    scheme: str = ""
    code: str = ""
    taken_at: dt.date | None = None
    yes: tuple[Given, ...] = ()
    taken_back: tuple[Given, ...] = ()
    done: tuple[tuple[dt.date | None, tuple[str, ...]], ...] = ()

    @property
    def holes(self) -> int:
        """How many holes are ticked."""
        return sum(len(numbers) for _, numbers in self.done)

    @property
    def last_day(self) -> dt.date | None:
        """The day of the last tick."""
        return max((day for day, _ in self.done if day), default=None)

    @property
    def no_yes(self) -> str:
        """Why no yes stands."""
        if self.taken_back:
            return f"the yes was taken back{on(self.taken_back[-1].back)}"
        return "no yes is written down"

    @property
    def says(self) -> str:
        """One sentence on it."""
        match self.stage:
            case "ticked":
                back = f"; {self.no_yes}" if self.taken_back and not self.yes else ""
                return f"{ticked_says(self.holes, last=self.last_day)}{back}."
            case "allowed":
                yes = self.yes[-1].says()
                return f"{yes[:1].upper()}{yes[1:]}; no hole is ticked yet."
            case "taken":
                return f"A scheme is taken{on(self.taken_at)}; {self.no_yes}."
            case "surveyed":
                return "No scheme has been taken yet."
        return "Nothing is measured yet."


def on(day: dt.date | None) -> str:
    """Return " on 17 May 2030", or nothing for no day."""
    return f" on {say_day(day)}" if day else ""


def ticked_says(holes: int, *, last: dt.date | None, where: str = "") -> str:
    """Return how many holes are done, and the day of the last.

    Examples
    --------
    >>> ticked_says(7, last=dt.date(2030, 5, 17), where=" on the small tom")
    '7 holes ticked on the small tom, the last on 17 May 2030'
    """
    if holes == 1:
        return f"1 hole ticked{where}{on(last)}"
    return f"{holes} holes ticked{where}{f', the last{on(last)}' if last else ''}"


def state_of_drum(drum: KeptDrum) -> DrumState:
    """Return how far a drum has come; documents that are not loaded count as not written."""
    choice, ticks = drum.kept(CHOICE), drum.kept(TICKS).table
    marks = ticks.get("done")
    done = _by_day(marks) if isinstance(marks, dict) else ()
    given = tuple(_given(row) for row in drum.kept(APPROVAL).rows if isinstance(row, dict))
    yes = tuple(one for one in given if one.back is None)
    code = _text(choice.table.get("scheme"))
    stage: Stage = "bare" if drum.kept(SURVEY).number and not drum.kept(SURVEY).body else "surveyed"
    if done:
        stage = "ticked"
    elif yes:
        stage = "allowed"
    elif code:
        stage = "taken"
    return DrumState(
        drum=drum,
        stage=stage,
        scheme=_text(choice.table.get("title")),
        code=code,
        taken_at=choice.made_at.astimezone().date() if code and choice.made_at else None,
        yes=yes,
        taken_back=tuple(one for one in given if one.back is not None),
        done=done,
    )


def what_says(drum: KeptDrum) -> str:
    """Return what the survey calls a drum: in words, or by its size and kind."""
    table = drum.kept(SURVEY).table
    said = table.get("says")
    if isinstance(said, str) and said.strip():
        return said.strip().rstrip(".")
    parts = [table.get("size"), table.get("kind")]
    return " ".join(part for part in parts if isinstance(part, str))


def _given(row: dict[str, Any]) -> Given:
    return Given(
        who=_text(row.get("who")) or "Somebody",
        how=_text(row.get("how")),
        covers=_text(row.get("covers")),
        day=day_written(row.get("when")),
        back=day_written(row.get("taken_back")),
        back_how=_text(row.get("taken_back_how")),
    )


def _by_day(marks: dict[str, Any]) -> tuple[tuple[dt.date | None, tuple[str, ...]], ...]:
    found: dict[dt.date | None, list[str]] = {}
    for number, mark in marks.items():
        day = local_day(mark.get("when")) if isinstance(mark, dict) else None
        found.setdefault(day, []).append(number)
    days = sorted(found, key=lambda day: day or dt.date.min)
    return tuple((day, tuple(sorted(found[day], key=_counted))) for day in days)


def _counted(number: str) -> tuple[int, str]:
    return (int(number) if number.isdecimal() and len(number) < 10 else 0, number)


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""
