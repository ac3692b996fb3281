"""What differs between a scheme and the one that a client said yes to, in the client's words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from counterhoop.job.yes.altered import altered
from counterhoop.job.yes.came_and_went import came, went
from counterhoop.job.yes.changes import lines_of
from counterhoop.job.yes.line import HoleLine, Line, read_line
from counterhoop.job.yes.say import Says
from counterhoop.scheme.code import code_for, same_code
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.approval import Approval

How: TypeAlias = Literal["added", "gone", "altered"]
NOT_IN_LINES = (
    "What was agreed is not written down line by line, and it is not what is to be done now: show"
    " the whole again"
)
NOT_ITS_LINES = "The lines beside this yes are not those of its code: show the whole again"


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One thing that is not as it was agreed.

    Attributes
    ----------
    how : How
        Whether it was not agreed at all, was agreed and is no longer done, or is done otherwise.
    does : str
        What differs, without the hole that it is about.
    was, now : str
        The line that was agreed and the one that stands now, as the code has them; "" for none.
    hole : int
        The hole's number; 0 for anything else.
    """

    how: How
    does: str
    was: str = ""
    now: str = ""
    hole: int = 0

    @property
    def says(self) -> str:
        """One sentence for the client.

        Examples
        --------
        >>> Difference(how="altered", does="moved 2.5 mm right", hole=7).says
        'Hole 7: moved 2.5 mm right.'
        """
        return f"Hole {self.hole}: {self.does}." if self.hole else f"{self.does}."


def together(found: Iterable[Difference]) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """Return what differs, once for all holes of which the same is said, with their numbers.

    Examples
    --------
    >>> together(Difference(how="altered", does="moved 2 mm up", hole=n) for n in (9, 7))
    (('moved 2 mm up', (7, 9)),)
    """
    groups: dict[str, list[int]] = {}
    for one in found:
        groups.setdefault(one.does, []).extend([one.hole] if one.hole else [])
    return tuple((does, tuple(sorted(holes))) for does, holes in groups.items())


def differences(
    approved: Approval, now: Scheme, *, say: Says, not_known: frozenset[int] = frozenset()
) -> tuple[Difference, ...]:
    """Return everything in which a scheme differs from what was agreed.

    Nothing is returned exactly where the yes is to the scheme's own code.

    Parameters
    ----------
    approved : Approval
        With the lines that it was given to. Of a yes without lines only its code is known: one
        difference then says that the whole is to be shown again, unless the code is the same.
    now : Scheme
        As it is worked out now.
    say : Says
        Prints lengths in the client's units.
    not_known : frozenset of int
        Holes that were found after the yes, by number.
    """
    if approved.drum != now.drum:
        does = f"The yes was given to the {approved.drum}; this is the {now.drum}"
        return (Difference(how="altered", does=does),)
    if not approved.lines:
        return (
            ()
            if same_code(approved.covers, now.code)
            else (Difference(how="altered", does=NOT_IN_LINES),)
        )
    if not same_code(approved.covers, code_for(approved.drum, approved.lines)):
        return (Difference(how="altered", does=NOT_ITS_LINES),)
    was, lines = Counter(approved.lines), Counter(lines_of(now))
    apart = (list((was - lines).elements()), list((lines - was).elements()))
    return tuple(_of_key(*apart, layout=now.layout, say=say, not_known=not_known))


def _of_key(
    was: list[str], now: list[str], *, layout: Layout, say: Says, not_known: frozenset[int]
) -> Iterator[Difference]:
    """Lines of one key belong together; those that find no partner are gone or added."""
    left = {read_line(text).key: text for text in was}
    spare = [text for text in was if left[read_line(text).key] != text]
    added = []
    for text in now:
        line = read_line(text)
        before = left.get(line.key)
        if before is None:
            added.append(text)
            continue
        del left[line.key]
        does = altered(read_line(before), line, surface=layout.flat.surface, say=say)
        yield Difference(how="altered", does=does, was=before, now=text, hole=_hole(line))
    for text in added:
        line = read_line(text)
        does = came(line, layout=layout, say=say, not_known=not_known)
        yield Difference(how="added", does=does, now=text, hole=_hole(line))
    for text in (*left.values(), *spare):
        line = read_line(text)
        does = went(line, layout=layout, say=say)
        yield Difference(how="gone", does=does, was=text, hole=_hole(line))


def _hole(line: Line) -> int:
    return line.number if isinstance(line, HoleLine) else 0
