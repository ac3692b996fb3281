"""Ask for long work, look how far it is, stop it: the same whether done beside the pages or not."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import AsyncIterator
from typing import TYPE_CHECKING, Any, TypeVar

from counterhoop.bench.long_work.answers import Answer
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.results import Paper, Preview
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.printing import Printing

if TYPE_CHECKING:
    from counterhoop.bench.hear_it import HearIt
    from counterhoop.bench.known import Known
    from counterhoop.bench.long_work.parts_tasks import PlaceTold
    from counterhoop.bench.long_work.results import KitTold, TapsHeard
    from counterhoop.bench.parts.place_asked import PlaceAsked
    from counterhoop.bench.plan_job import JobPlan
    from counterhoop.bench.taps_told import TapsTold
    from counterhoop.parts.piece import Piece
    from counterhoop.scheme.wrapping import WrapPlan

T = TypeVar("T")


class Works(ABC):
    """Who does long work. Everything here answers at once, except ``wait`` and ``stop``.

    The same work asked for again is the same work: it is found by its ``id`` after a reload, and
    done once however often it is asked for. Work that was stopped, that died or that met a
    mistake of the program stays so until ``again``: a page that is loaded anew does not start it.
    """

    def plan(self, source: JobSource) -> Answer[JobPlan]:
        """Plan a job."""
        return self.ask(plan_asked(source))

    def wraps(self, source: JobSource) -> Answer[tuple[WrapPlan, ...]]:
        """Lay out the new wraps of the chosen schemes."""
        from counterhoop.bench.long_work import tasks

        return self.ask(
            Asked(line="wraps", task=tasks.wraps, source=source, rests_on=plan_asked(source))
        )

    def listen(
        self, source: JobSource, *, drum: str, file: str, name: str, told: TapsTold
    ) -> Answer[TapsHeard]:
        """Listen to a recording.

        Parameters
        ----------
        drum : str
            The drum's name; empty where it cannot be planned.
        file, name : str
            Where the recording lies, under its hash, and what it is called.
        told : TapsTold
            How it was taken.
        """
        from counterhoop.bench.long_work import sounds

        return self.ask(
            Asked(
                line="sounds",
                task=sounds.listen,
                source=source,
                arguments=(drum, file, name, told),
                rests_on=plan_asked(source) if drum else None,
            )
        )

    def kit(self, source: JobSource) -> Answer[KitTold]:
        """Plan the pitches of a job's drums."""
        from counterhoop.bench.long_work import sounds

        return self.ask(
            Asked(line="sounds", task=sounds.kit, source=source, rests_on=plan_asked(source))
        )

    def hear(self, source: JobSource, *, drum: str) -> Answer[HearIt]:
        """Play a drum as it is and as its scheme leaves it."""
        from counterhoop.bench.long_work import sounds

        return self.ask(
            Asked(
                line="sounds",
                task=sounds.hear,
                source=source,
                arguments=(drum,),
                rests_on=plan_asked(source),
            )
        )

    def paper(
        self, source: JobSource, name: str, *, drum: str = "", scheme: int = 0,
        printing: Printing | None = None, known: Known | None = None,
    ) -> Answer[Paper]:  # fmt: skip
        """Make one paper.

        Parameters
        ----------
        name : str
            As ``listed_papers`` has it for the same drum, scheme and printing.
        """
        from counterhoop.bench.long_work import tasks

        return self.ask(
            Asked(
                line="papers",
                task=tasks.paper,
                source=source,
                arguments=(name, drum, scheme, printing or Printing(), known),
                rests_on=plan_asked(source),
            )
        )

    def paper_set(
        self, source: JobSource, *, drum: str = "", scheme: int = 0,
        printing: Printing | None = None, known: Known | None = None,
    ) -> Answer[Paper]:  # fmt: skip
        """Make all papers, into one ZIP file."""
        from counterhoop.bench.long_work import tasks

        return self.ask(
            Asked(
                line="sets",
                task=tasks.papers_zipped,
                source=source,
                arguments=(drum, scheme, printing or Printing(), known),
                rests_on=plan_asked(source),
            )
        )

    def preview(
        self, source: JobSource, name: str, *, drum: str = "", scheme: int = 0,
        printing: Printing | None = None, known: Known | None = None, page: int = 1,
        wide_px: int = 900,
    ) -> Answer[Preview]:  # fmt: skip
        """Show one page of a paper as a picture."""
        from counterhoop.bench.long_work import tasks

        return self.ask(
            Asked(
                line="papers",
                task=tasks.preview,
                source=source,
                arguments=(name, drum, scheme, printing or Printing(), known, page, wide_px),
                rests_on=plan_asked(source),
            )
        )

    def blank(self, which: str, *, sheet: str) -> Answer[Paper]:
        """Make a paper that belongs to no job.

        Parameters
        ----------
        which : str
            As ``blank_papers`` names it.
        sheet : str
            A size of paper.
        """
        from counterhoop.bench.long_work import tasks

        none = JobSource(tables_json=b"")
        return self.ask(
            Asked(line="papers", task=tasks.blank, source=none, arguments=(which, sheet))
        )

    def fits(
        self, source: JobSource, *, drum: str, asked: PlaceAsked, pieces: tuple[Piece, ...]
    ) -> Answer[PlaceTold]:
        """Hold book and shelf against a place of a drum.

        Parameters
        ----------
        pieces : tuple of Piece
            Pieces that were only measured and may be offered to the job.
        """
        from counterhoop.bench.long_work import parts_tasks

        return self.ask(
            Asked(
                line="parts", task=parts_tasks.fits, source=source, arguments=(drum, asked, pieces)
            )
        )

    @abstractmethod
    def ask(self, asked: Asked[T]) -> Answer[T]:
        """Start a piece of work, or return how far it is."""

    @abstractmethod
    def wait(self, id_: str, seconds: float) -> Answer[Any]:
        """Return how far work is, after it ended or the time is up."""

    @abstractmethod
    def stop(self, id_: str) -> Answer[Any]:
        """Stop work for good; returns what it came to, for it may have been quicker."""

    @abstractmethod
    def again(self, id_: str) -> Answer[Any]:
        """Start failed work once more."""

    @abstractmethod
    def events(self, id_: str) -> AsyncIterator[tuple[str, float]]:
        """Yield what is being done and the share of the whole, until there is an answer."""

    def state(self, id_: str) -> Answer[Any]:
        """Return how far work is."""
        return self.wait(id_, 0.0)

    def warm(self) -> None:
        """Make ready to plan, so that the first to ask does not wait for it."""
        return

    def close(self) -> None:
        """End everything."""
        return


def plan_asked(source: JobSource) -> Asked[JobPlan]:
    """Return the plan of a job as it is asked for: what other work of it rests on."""
    # The planner takes a second to load: pages that plan nothing do without.
    from counterhoop.bench.long_work import tasks

    return Asked(line="plans", task=tasks.plan, source=source, bears=True)


def open_works() -> Works:
    """Return works that are done beside the pages, in processes of their own."""
    from counterhoop.bench.long_work.beside import WorksBeside

    return WorksBeside()
