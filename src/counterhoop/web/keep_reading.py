"""Keep what was heard as a reading of a drum, beside whatever else is written of it meanwhile."""

from __future__ import annotations

from typing import Any

from counterhoop.bench.folders.kinds import TUNING
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.tune.heard import AlsoHeard, Heard
from counterhoop.bench.tune.kept_reading import to_json
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.store.enclosures.enclose import Enclosure
from counterhoop.store.save import Conflict
from counterhoop.web.tuned_desk import TunedDesk

READINGS = "readings"
LONGEST_SAYS = 400


def keep_reading(
    shop: Workshop, desk: TunedDesk, heard: Heard, *, one: Enclosure, also: Enclosure | None,
    says: str, by: str, based_on: int,
) -> None:  # fmt: skip
    """Write a reading down under the next number; the same one sent twice is kept once.

    Parameters
    ----------
    also : Enclosure or None
        The same taps from a second place of the phone.
    """
    reading: dict[str, Any] = {
        "head": heard.head,
        "stage": heard.stage,
        "muted": heard.muted,
        "kind": heard.kind,
        "sound": one.file.sha256,
        "file": one.name_given,
        "rods": [stroke.rod for stroke in heard.strokes],
        "result": to_json(heard),
    }
    places = [place for place in heard.also if not place.refusal]
    if also is not None and places:
        # One that was left out has no part in the reading.
        reading["also"] = [_sound_kept(also, places[0])]
    if says:
        reading["says"] = says[:LONGEST_SAYS]
    when = shop.now().astimezone().strftime("%Y-%m-%dT%H:%M")
    kept = {"when": when, "by": by, **reading}

    def put(_seen: Any, base: Any) -> Any:
        body = base if isinstance(base, dict) else {}
        held = readings_in(body)
        if any({k: v for k, v in there.items() if k not in ("when", "by")} == reading
               for there in held.values() if isinstance(there, dict)):  # fmt: skip
            return body
        return {**body, READINGS: {**held, next_number(held): kept}}

    change = ThingChange(
        kind=TUNING, drum=desk.drum.id, based_on=based_on, same=lambda _seen, _newest: True, put=put
    )
    _need(write_thing(shop, desk.job.id, change, by=by))


def _sound_kept(also: Enclosure, place: AlsoHeard) -> dict[str, Any]:
    return {
        "sound": also.file.sha256,
        "file": also.name_given,
        "rods": [stroke.rod for stroke in place.strokes],
    }


def take_reading_out(
    shop: Workshop, desk: TunedDesk, number: str, *, by: str, based_on: int
) -> None:
    """Take a reading out; it stays in the earlier versions, and its recording where it lies."""

    def put(_seen: Any, base: Any) -> Any:
        body = base if isinstance(base, dict) else {}
        left = {name: one for name, one in readings_in(body).items() if name != number}
        bare = {name: one for name, one in body.items() if name != READINGS}
        return {**bare, READINGS: left} if left else bare

    change = ThingChange(
        kind=TUNING, drum=desk.drum.id, based_on=based_on, same=lambda _seen, _newest: True, put=put
    )
    _need(write_thing(shop, desk.job.id, change, by=by))


def readings_in(body: Any) -> dict[str, Any]:
    """Return the readings that a document holds, by their numbers."""
    held = body.get(READINGS) if isinstance(body, dict) else None
    return dict(held) if isinstance(held, dict) else {}


def made_of(body: Any, sound: str) -> tuple[str, ...]:
    """Return the numbers of the readings that were made of a recording, by its hash.

    Examples
    --------
    >>> made_of({"readings": {"1": {"sound": "a"}, "2": {"sound": "b", "also": [{"sound": "a"}]},
    ...                       "3": {"sound": "b"}}}, "a")
    ('1', '2')
    """

    def sounds(reading: Any) -> list[Any]:
        held = reading if isinstance(reading, dict) else {}
        also = held.get("also")
        places = also if isinstance(also, list) else []
        return [one.get("sound") for one in (held, *places) if isinstance(one, dict)]

    return tuple(name for name, one in readings_in(body).items() if sound in sounds(one))


def next_number(held: dict[str, Any]) -> str:
    """Return the number of one more.

    Examples
    --------
    >>> next_number({}), next_number({"1": {}, "3": {}, "by hand": {}})
    ('1', '4')
    """
    return str(max((int(name) for name in held if name.isdecimal()), default=0) + 1)


def _need(done: object) -> None:
    if isinstance(done, Conflict):
        raise CannotDo("Somebody is writing of this drum just now: press once more.")
