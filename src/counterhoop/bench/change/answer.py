"""What the client says to a change, written down: a yes counts for the drill and for the bill."""

from __future__ import annotations

from counterhoop.bench.change.changed import Changed
from counterhoop.bench.change.found import ANSWERS, THINGS
from counterhoop.bench.change.together import Overtaken, write_together
from counterhoop.bench.folders.days import need_day
from counterhoop.bench.folders.decide import Yes, approval_of
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import FOUND, PROMISE, QUOTE
from counterhoop.bench.folders.write_down import Change
from counterhoop.bench.promise.promises import to_promise
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.job.yes.note_said import NoteSaid
from counterhoop.papers.change_note import words_of
from counterhoop.scheme.plan import Scheme
from counterhoop.store.body import Json

LONGEST = 80


def write_answer(
    shop: Workshop, job: KeptJob, drum: KeptDrum, changed: Changed, *, scheme: Scheme, seen: str,
    said_yes: bool, said: Yes, by: str,
) -> None:  # fmt: skip
    """Write down what a client said to a change note.

    Where a yes to what is cut for good stood before, a yes to the note is a yes to the cuts that
    it names too, and the day that the note names is the day that is promised from now on: all of
    it is written, or nothing. A no changes nothing that was agreed.

    Parameters
    ----------
    job : KeptJob
        As it was read: a price that was offered, accepted or changed since is not what the client
        was told, nor is a day.
    changed : Changed
        As it stands now.
    seen : str
        ``Changed.seen`` of what the client was shown.
    said : Yes
        Who, when, how.

    Raises
    ------
    BadInput
        When something changed since it was shown, nothing is asked, or something is not filled in.
    CannotDo
        When somebody wrote at the same time.
    """
    if seen != changed.seen:
        raise BadInput(
            "what is asked has changed since that page was opened", where="seen",
            step="Look at it again, then write the answer down",
        )  # fmt: skip
    if not changed.asks:
        raise BadInput("nothing is asked of the client here", where="seen")
    when = need_day(said.when, where="when", today=shop.now().date())
    row: Json = {
        "yes": said_yes,
        "who": _words(said.who, where="who", wanted="who answered"),
        "when": when.isoformat(),
        "how": _words(said.how, where="how", wanted='how, such as "by telephone"'),
        "things": list(changed.things),
        "offer": changed.offer,
        "code": changed.code,
        "says": changed.says,
        "charges": [
            {"kind": str(one.kind), "minor": one.minor, "currency": one.currency}
            for one in changed.charges
        ],
        "note": _kept(words_of(changed.note)),
    }
    kept = drum.kept(FOUND)
    rows = kept.table.get(ANSWERS)
    body: Json = {
        THINGS: {}, **kept.table, ANSWERS: [*(rows if isinstance(rows, list) else []), row]
    }  # fmt: skip
    changes = [Change(kind=FOUND, name=drum.id, value=body, based_on=kept.number)]
    if said_yes and changed.approved and changed.note.differs and scheme.permanent:
        changes.append(approval_of(shop, drum, scheme=scheme, shown_code=changed.code, yes=said))
    day = changed.note.day
    if said_yes and day is not None and day.now > day.was:
        changes.append(
            to_promise(
                shop, job, day=day.now.isoformat(), to=said.who, share=None,
                based_on=job.kept(PROMISE).number,
            )
        )  # fmt: skip
    try:
        write_together(shop, job, changes, rests_on=(QUOTE, PROMISE), by=by)
    except Overtaken:
        raise CannotDo(
            "Somebody wrote about this drum, its price or its day at the same time, so nothing was"
            " kept: look at it again, then write the answer down."
        ) from None


def _kept(note: NoteSaid) -> Json:
    return {
        "found": list(note.found),
        "work": list(note.work),
        "agreed": note.agreed,
        "was_code": note.was_code,
        "differs": [list(row) for row in note.differs],
        "holes": list(note.holes),
        "price": note.price,
        "day": note.day,
    }


def _words(typed: str, *, where: str, wanted: str) -> str:
    words = " ".join(typed.split())
    if not words or len(words) > LONGEST:
        raise BadInput("a few words belong here", where=where, given=typed or None, wanted=wanted)
    return words
