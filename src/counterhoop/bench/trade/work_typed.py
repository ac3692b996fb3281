"""Work that is typed line by line, "8 x refit a lug", and how long it takes as the log believes."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from counterhoop.bench.price.works import log_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.job.hours.belief import Belief, believed
from counterhoop.job.hours.hours_said import HoursSaid, hours_of
from counterhoop.quantities.duration import parse_duration, print_minutes
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.shell.operations import TAIL, operations_of
from counterhoop.shell.shop_rules import ShopFigures

GUESS_SPREAD: Final = 0.35
"""Sigma of ln(minutes) of a time that somebody guesses. Common practice, no source."""
MOST_LINES: Final = 60
MOST_OF_ONE: Final = 500
_COUNTED = re.compile(r"(?:(?P<count>\d{1,4})\s*x\s+)?(?P<what>.+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkTyped:
    """Work with its hours.

    Attributes
    ----------
    hours : HoursSaid
    """

    hours: HoursSaid

    @property
    def minutes(self) -> int:
        """Hands at work, as often more as less."""
        return round(self.hours.usual_min)

    @property
    def spread(self) -> float:
        """Sigma of ln(minutes) of all of it together."""
        if self.hours.usual_min <= 0.0:
            return 0.0
        return math.log(self.hours.slow_min / self.hours.usual_min) / TAIL


def lines_in(text: str, *, where: str) -> tuple[str, ...]:
    """Return the lines of a field that say something.

    Raises
    ------
    BadInput
        For more lines than a drum has work or parts.
    """
    lines = tuple(line for one in text.splitlines() if (line := " ".join(one.split())))
    if len(lines) > MOST_LINES:
        raise BadInput("too many lines", where=where, wanted=f"at most {MOST_LINES}")
    return lines


def counted_words(line: str, *, where: str) -> tuple[int, str]:
    """Read how many of what; one where no count is written.

    Examples
    --------
    >>> counted_words("8 x refit a lug", where="work"), counted_words("tune a drum", where="work")
    ((8, 'refit a lug'), (1, 'tune a drum'))
    """
    found = _COUNTED.fullmatch(line)
    count = int(found["count"] or 1) if found else 0
    if found is None or not 1 <= count <= MOST_OF_ONE:
        raise BadInput(
            "how many of what?", where=where, given=line, wanted='such as "8 x refit a lug"'
        )
    return count, found["what"].strip()


def read_work(shop: Workshop, text: str, *, where: str, figures: ShopFigures) -> WorkTyped:
    """Read work, one line each: an operation of the book, or own words with a time of their own.

    Parameters
    ----------
    text : str
        "8 x refit a lug", or "photographs and letters; 1 h".
    figures : ShopFigures
        Own minutes go before the book's.

    Raises
    ------
    BadInput
        For what is no operation and has no time.
    """
    book = {one.name: one for one in operations_of(figures)}
    log = log_of(shop)
    works: list[tuple[str, int]] = []
    beliefs: dict[str, Belief] = {}
    for line in lines_in(text, where=where):
        said, _, time = line.partition(";")
        count, what = counted_words(said.strip(), where=where)
        if time.strip():
            each_min = parse_duration(time, where=where).minutes
            beliefs[line] = Belief(
                operation=line, median_min=each_min, spread=GUESS_SPREAD if each_min else 0.0,
                times=0, whose="typed here",
            )  # fmt: skip
            works.append((line, count))
            continue
        name = what.casefold()
        if name not in book:
            raise BadInput(
                "no such operation in the book", where=where, given=what,
                wanted='one of the book, or a time behind it: "photographs; 1 h"',
                step=did_you_mean(name, book),
            )  # fmt: skip
        beliefs[name] = believed(book[name], log)
        works.append((name, count))
    return WorkTyped(hours=hours_of(_joined(works), beliefs))


def _joined(works: Sequence[tuple[str, int]]) -> list[tuple[str, int]]:
    counts: dict[str, int] = {}
    for name, count in works:
        counts[name] = counts.get(name, 0) + count
    return list(counts.items())


def hours_lines(work: WorkTyped) -> tuple[str, ...]:
    """Return a line for each piece of work: how often, how long, whose figure."""
    return tuple(
        f"{one.count} x {counted_words(one.operation.partition(';')[0], where='')[1]}: "
        f"{print_minutes(one.usual_min)}, {one.whose}"
        for one in work.hours.lines
    )
