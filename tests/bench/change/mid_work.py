"""A job in mid-work, and what a person would do with what is found."""

from __future__ import annotations

from priced_job import BY, OnTheBench

from counterhoop.bench.change.answer import write_answer
from counterhoop.bench.change.changed import Changed, changed_on
from counterhoop.bench.change.found import FoundOnDrum, found_on
from counterhoop.bench.change.typed import FoundTyped, faults_of
from counterhoop.bench.change.write_found import write_found
from counterhoop.bench.folders.decide import Yes
from counterhoop.bench.folders.folder import drawer
from counterhoop.papers.facts import Lengths
from counterhoop.scheme.plan import Scheme

__all__ = ["BY", "DAY", "InWork"]
DAY = "2030-05-14"


class InWork(OnTheBench):
    """A job in mid-work."""

    @property
    def found(self) -> FoundOnDrum:
        return found_on(self.drum)

    @property
    def scheme(self) -> Scheme:
        return self.quote().drums[0].scheme

    def faults(self, sort: str, **words: str) -> dict[str, str]:
        typed = FoundTyped(sort=sort, words=named(words))
        return faults_of(self.job, self.drum, typed, held=drawer(self.shop))

    def finds(self, sort: str, **words: str) -> int:
        assert self.faults(sort, **words) == {}
        typed = FoundTyped(sort=sort, words=named(words))
        return write_found(self.shop, self.id, self.drum.id, typed, by=BY)

    def changed(self) -> Changed:
        approvals = self.plan().opened.job.approvals
        return changed_on(self.job, self.drum.id, self.quote(), approvals=approvals, say=Lengths())

    def hears(self, *, yes: bool, seen: str = "", **said: str) -> None:
        changed = self.changed()
        words = {"who": "Tobin", "when": DAY, "how": "by telephone"} | said
        write_answer(
            self.shop, self.id, self.drum, changed, scheme=self.scheme,
            seen=seen or changed.seen, said_yes=yes, said=Yes(**words), by=BY,
        )  # fmt: skip


def named(words: dict[str, str]) -> dict[str, str]:
    """Words of this language are no names of arguments: ``from_`` is from."""
    return {name.rstrip("_"): word for name, word in words.items()}
