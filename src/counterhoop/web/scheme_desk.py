"""A drum's schemes as one request finds them: what is written, what is planned, what is in hand."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from typing import Any

from starlette.requests import Request

from counterhoop.bench.folders.folder import Kept, KeptDrum, KeptJob, drawer, kept_job
from counterhoop.bench.folders.kinds import APPROVAL, BOOK, CHOICE, JOB, RULES, SURVEY, WISH
from counterhoop.bench.move_row import HeldRow, row_held
from counterhoop.bench.plan_job import JobPlan
from counterhoop.bench.remembered import Remembered
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.print_length import print_inch, print_mm
from counterhoop.scheme.plan import PartLine
from counterhoop.shell.choice import RowMoved
from counterhoop.store.body import Json
from counterhoop.web.folder_index import drum_address
from counterhoop.web.look.mine import Mine, mine_of
from counterhoop.web.plans import Planned, need_plan, plan_for

MOST_PLANS, MOST_ROWS = 6, 12
SAME_MM = 0.005
_PLANS = Remembered(MOST_PLANS)
_ROWS = Remembered(MOST_ROWS)


@dataclass(frozen=True, slots=True, kw_only=True)
class SchemeDesk:
    """One drum of a folder, and the browser that looks at its schemes."""

    shop: Workshop
    job: KeptJob
    drum: KeptDrum
    drawer: dict[str, Kept]
    mine: Mine

    @property
    def address(self) -> str:
        """Of its sheet."""
        return f"{drum_address(self.job, self.drum)}/schemes"

    @property
    def choice(self) -> Kept:
        """What is taken by hand, if anything is."""
        return self.drum.kept(CHOICE)

    @property
    def code(self) -> str:
        """The code of what is taken by hand, as it was worked out; empty where the kit decides."""
        return str(self.choice.table.get("scheme") or "")

    @property
    def moves(self) -> tuple[RowMoved, ...]:
        """The rows that were moved by hand; what cannot be read counts as not moved."""
        rows = self.choice.table.get("moved")
        listed = rows if isinstance(rows, list) else []
        return tuple(
            RowMoved(
                row=str(row.get("row", "")), right_mm=_mm(row.get("right")),
                down_mm=_mm(row.get("down")),
            )
            for row in listed
            if isinstance(row, dict)
        )  # fmt: skip

    def moves_of(self, code: str) -> tuple[RowMoved, ...]:
        """Return the rows moved of a scheme; those of another are not this one's."""
        return self.moves if code == self.code else ()

    def moved_json(self, moves: tuple[RowMoved, ...]) -> list[Json]:
        """Return moves as they are written down, in the unit of who made them."""
        return [
            {"row": one.row, "right": self._text(one.right_mm), "down": self._text(one.down_mm)}
            for one in moves
            if one.right_mm or one.down_mm
        ]

    def _text(self, mm: float) -> str:
        said = print_inch(mm) if self.mine.units == "in" else print_mm(mm)
        return said if abs(_mm(said) - mm) < SAME_MM else f"{mm:.3f} mm"

    def plan_remembered(self, made: JobPlan | None = None) -> JobPlan:
        """Return a plan of what is written now, whatever is taken for this drum.

        The schemes of a drum do not hang on which of them is taken, so a row can be moved again
        while the plan that follows its last move is still under way.

        Raises
        ------
        CannotDo
            While there is none.
        """
        plan: JobPlan = _PLANS.get(self._versions(), lambda: made or self.need_plan())
        return plan

    def planned(self) -> Planned:
        """Return the plan of the folder, or how far it is."""
        return plan_for(self.shop, self.job, held=self.drawer)

    def need_plan(self, *, wait_s: float = 2.0) -> JobPlan:
        """Return the plan of the folder for a form that was sent from a page that showed it."""
        return need_plan(self.shop, self.job, held=self.drawer, wait_s=wait_s)

    def parts_of(self, code: str, title: str) -> tuple[PartLine, ...] | None:
        """Return what a scheme asks for, as it was worked out; none where nothing is taken by hand.

        None while there is no plan, or no such scheme in it: then nothing is known of its parts.
        """
        if not code:
            return ()
        try:
            plan = self.plan_remembered()
        except CannotDo:
            return None
        every = plan.drum(self.drum.name).ranked.every
        found = [one for one in every if one.code == code and not one.moved]
        named = [one for one in found if one.title == title] or found
        return named[0].parts if named else None

    def row_in_hand(self, *, code: str, title: str, row: str) -> HeldRow:
        """Return a row ready to be put anywhere, the other rows where they were put by hand."""
        others = tuple(one for one in self.moves_of(code) if one.row.casefold() != row.casefold())
        key = (self._versions(), code, title, row, others)
        held: HeldRow = _ROWS.get(
            key,
            lambda: row_held(
                self.plan_remembered(), drum=self.drum.name, scheme_code=code, title=title,
                row=row, moves=others,
            ),
        )  # fmt: skip
        return held

    def _versions(self) -> Hashable:
        """What the schemes of this drum rest on: everything but what is taken for it."""
        of_drums = tuple(
            (
                one.id,
                one.name,
                *(one.kept(kind).number for kind in (SURVEY, WISH, APPROVAL)),
                one.kept(CHOICE).number if one.id != self.drum.id else 0,
            )
            for one in self.job.drums
        )
        of_shop = tuple(self.drawer.get(kind, Kept()).number for kind in (RULES, BOOK))
        books = tuple(self.job.books.items())
        return (self.job.id, self.drum.id, self.job.kept(JOB).number, of_drums, of_shop, books)


def scheme_desk(request: Request, shop: Workshop, job: str, drum: str) -> SchemeDesk:
    """Return a drum of a folder, for the one who asks."""
    kept = kept_job(shop, job)
    return SchemeDesk(
        shop=shop, job=kept, drum=kept.drum(drum), drawer=dict(drawer(shop)), mine=mine_of(request)
    )


def _mm(written: Any) -> float:
    if not isinstance(written, str):
        return 0.0
    try:
        return parse_length(written, allow_negative=True).mm
    except ValueError:
        return 0.0
