"""Decisions on a drum: the scheme that is taken, the client's yes, the holes that are done."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from counterhoop.bench.folders.days import need_day
from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.folders.kinds import APPROVAL, CHOICE, TICKS
from counterhoop.bench.folders.ticks import ticks_of
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.job.yes.changes import lines_of
from counterhoop.scheme.code import same_code
from counterhoop.store.body import Json
from counterhoop.store.pointer import NOTHING, write_pointer
from counterhoop.store.save import Conflict, Saved

if TYPE_CHECKING:
    from counterhoop.scheme.plan import Scheme


def choose(
    shop: Workshop, job_id: str, drum_id: str, *, code: str, title: str = "", moved: list[Json],
    based_on: int, by: str,
) -> Saved | Conflict:  # fmt: skip
    """Take a scheme for a drum, with the rows that were moved by hand.

    Parameters
    ----------
    code : str
        The scheme's code as it was worked out; empty leaves the choice to the kit.
    title : str
        Its heading, which tells two schemes of one code apart.
    moved : list
        As the survey file has them: [{"row": "resonant", "right": "2.5 mm", "down": "0 mm"}].
    based_on : int
        The revision of the choice that the writer saw, 0 for none.
    """
    body: dict[str, Json] = {"scheme": code} if code else {}
    if code and title:
        body["title"] = title
    if code and moved:
        body["moved"] = moved
    change = Change(kind=CHOICE, name=drum_id, value=body, based_on=based_on)
    return write_down(shop, job_id, change, by=by)


@dataclass(frozen=True, slots=True, kw_only=True)
class Yes:
    """A client's yes to what cannot be undone.

    Attributes
    ----------
    who, how : str
        Whose yes, and how it was given ("signed on the approval sheet").
    when : str
        The day, year-month-day.
    """

    who: str
    when: str
    how: str


def approve(
    shop: Workshop, job_id: str, drum: KeptDrum, *, scheme: Scheme, shown_code: str, yes: Yes,
    by: str,
) -> Saved | Conflict:  # fmt: skip
    """Record a yes to the permanent changes of a scheme, with every line of them.

    Parameters
    ----------
    scheme : Scheme
        As it is worked out now.
    shown_code : str
        The code that stood on the page on which the yes was given.

    Raises
    ------
    BadInput
        When the scheme has changed since the page was made, nothing permanent is done, something
        stops it, or something is not filled in.
    """
    change = approval_of(shop, drum, scheme=scheme, shown_code=shown_code, yes=yes)
    return write_down(shop, job_id, change, by=by)


def approval_of(
    shop: Workshop, drum: KeptDrum, *, scheme: Scheme, shown_code: str, yes: Yes
) -> Change:
    """Return the change by which ``approve`` records a yes; what it refuses is refused."""
    if shown_code != scheme.code:
        raise BadInput(
            "the scheme has changed since that page was opened", where="covers",
            given=shown_code, wanted=scheme.code, step="Look at it again, then say yes",
        )  # fmt: skip
    if not scheme.permanent:
        raise BadInput("nothing that this scheme does is permanent", where="covers")
    if scheme.stopped:
        raise BadInput(
            "this scheme cannot be done as it stands, so there is nothing to say yes to",
            where="covers", step="Put right what stops it first",
        )  # fmt: skip
    for name, given, wanted in (
        ("who", yes.who, "who said yes"),
        ("how", yes.how, 'how, such as "signed on the approval sheet"'),
    ):
        if not given.strip() or len(given) > 80:
            raise BadInput(
                "a few words belong here", where=name, given=given or None, wanted=wanted
            )
    need_day(yes.when, where="when", today=shop.now().date())
    before = drum.kept(APPROVAL)
    row: Json = {
        "who": yes.who.strip(), "when": yes.when.strip(), "how": yes.how.strip(),
        "covers": scheme.code, "lines": list(lines_of(scheme)),
    }  # fmt: skip
    return Change(kind=APPROVAL, name=drum.id, value=[*before.rows, row], based_on=before.number)


def take_back(
    shop: Workshop, job_id: str, drum: KeptDrum, *, code: str, when: str, how: str, by: str
) -> Saved | Conflict:
    """Record that the client takes a yes back: from then on the papers say DRAFT again.

    That is never refused for what is done already: what is cut stays cut, and nothing more is.

    Parameters
    ----------
    code : str
        What the yes was given to; every yes to it is taken back.
    when, how : str
        The day, year-month-day; by whom and how ("the owner, by telephone").

    Raises
    ------
    BadInput
        When no yes to that code stands, or something is not filled in.
    """
    before = drum.kept(APPROVAL)
    standing = [
        isinstance(row, dict)
        and not row.get("taken_back")
        and same_code(str(row.get("covers")), code)
        for row in before.rows
    ]
    if not any(standing):
        raise BadInput("no yes to this code stands", where="covers", given=code)
    if not how.strip() or len(how.strip()) > 120:
        raise BadInput(
            "a few words belong here", where="how", given=how or None,
            wanted='who took it back and how, such as "the owner, by telephone"',
        )  # fmt: skip
    need_day(when, where="when", today=shop.now().date())
    back = {"taken_back": when.strip(), "taken_back_how": how.strip()}
    rows: list[Json] = [
        {**row, **back} if stands and isinstance(row, dict) else row
        for row, stands in zip(before.rows, standing, strict=True)
    ]
    change = Change(kind=APPROVAL, name=drum.id, value=rows, based_on=before.number)
    return write_down(shop, job_id, change, by=by)


def tick(
    shop: Workshop, job_id: str, drum: KeptDrum, *, scheme: Scheme, hole: int, done: bool,
    by: str,
) -> Saved | Conflict:  # fmt: skip
    """Tick a hole of the hole list, or take the tick back.

    Raises
    ------
    BadInput
        For a hole that the scheme has not got.
    CannotDo
        For a cut that nobody has said yes to.
    """
    if done and scheme.draft:
        raise CannotDo("No yes covers this scheme yet, so no hole of it is done.")
    if all(plan.number != hole for plan in scheme.layout.holes):
        raise BadInput("no such hole under this scheme", where="hole", given=hole)
    kept = drum.kept(TICKS)
    if kept.table.get("code") != scheme.code:
        # Another code: what is done the same under this one goes on counting.
        marks = dict(ticks_of(drum, scheme=scheme))
        marks.pop(str(hole), None)
        value: Json = {
            "code": scheme.code, "done": {**marks, **({str(hole): _mark(shop, by)} if done else {})}
        }  # fmt: skip
        change = Change(kind=TICKS, name=drum.id, value=value, based_on=kept.number)
        return write_down(shop, job_id, change, by=by)
    change = Change(
        kind=TICKS, name=drum.id, pointer=write_pointer(["done", str(hole)]),
        value=_mark(shop, by) if done else NOTHING, based_on=kept.number,
    )  # fmt: skip
    return write_down(shop, job_id, change, by=by)


def _mark(shop: Workshop, by: str) -> Json:
    return {"when": shop.now().isoformat(timespec="seconds"), "by": by}
