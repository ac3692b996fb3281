"""What each piece of work could do were nothing else in the shop."""

from __future__ import annotations

from counterhoop.job.schedule.numbered import Numbered


def heads(numbered: Numbered) -> list[int]:
    """Return the first open minute, by its number, with which each piece of work may begin."""
    clock = numbered.clock
    found = list(numbered.soonest)
    for one in numbered.in_turn(range(len(numbered.keys))):
        follows = clock.number(cured_from(numbered, one, found[one]))
        for later in numbered.then[one]:
            found[later] = max(found[later], follows)
    return found


def tails(numbered: Numbered) -> list[int]:
    """Return the least minutes of the calendar from each beginning until its job is ready.

    As if the shop never closed, and by work of the same job only.
    """
    found = [0] * len(numbered.keys)
    for one in reversed(numbered.in_turn(range(len(numbered.keys)))):
        job = numbered.job[one]
        later = [found[each] for each in numbered.then[one] if numbered.job[each] == job]
        found[one] = numbered.minutes[one] + numbered.cure[one] + max(later, default=0)
    return found


def cured_from(numbered: Numbered, one: int, begins: int) -> int:
    """Return the minute of the calendar at which work begun with an open minute is cured.

    After the last open minute time is taken to go on without any.
    """
    clock = numbered.clock
    last = begins + numbered.minutes[one] - 1
    hands_off = clock.at[last] + 1 if last < clock.total else clock.last + 1
    return hands_off + numbered.cure[one]
