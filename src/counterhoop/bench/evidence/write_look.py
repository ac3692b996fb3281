"""Write one look at a drum down: which form of a feature somebody saw."""

from __future__ import annotations

from typing import Any

from counterhoop.bench.folders.kinds import FACTS
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.workshop import Workshop
from counterhoop.store.save import Conflict, Saved


def write_look(
    shop: Workshop, job_id: str, drum_id: str, key: str, *, value: str, sure: str, based_on: int,
    by: str,
) -> Saved | Conflict:  # fmt: skip
    """Write which form of a feature was seen, and how sure; what else is said of it stays.

    Parameters
    ----------
    key : str
        The feature as the sheet of facts keeps it.
    value : str
        A form, "none of these" or "cannot tell"; nothing takes the answer back.
    """
    told = {word: text for word, text in (("value", value), ("sure", sure)) if text and value}

    def put(_seen: Any, base: Any) -> Any:
        body = base if isinstance(base, dict) else {}
        rest = {word: text for word, text in _held(body, key).items() if word not in _WORDS}
        return {**body, key: rest | told}

    change = ThingChange(
        kind=FACTS, drum=drum_id, based_on=based_on, put=put,
        same=lambda seen, newest: _held(seen, key) == _held(newest, key),
    )  # fmt: skip
    return write_thing(shop, job_id, change, by=by)


_WORDS = ("value", "sure")


def _held(body: Any, key: str) -> dict[str, Any]:
    held = body.get(key) if isinstance(body, dict) else None
    return held if isinstance(held, dict) else {}
