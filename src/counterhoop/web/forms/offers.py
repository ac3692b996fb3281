"""Names to choose from while one types: of the fittings book, the drum and the job."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from counterhoop.fittings.book import Book
from counterhoop.fittings.entry import Kind
from counterhoop.shell.operations import operations
from counterhoop.shell.survey_file.resolve_shop import HOUR, rule_names

_PURPOSES: Final = ("vent", "damper", "bracket", "strainer", "butt", "badge", "leg", "spur")
_THREADS: Final = ("batter rods", "resonant rods", "lug screws", "bracket screws")
_OF_ROWS: Final = (Kind.LUG, Kind.LONG_LUG)
_OFF_THE_SHELL: Final = (
    *(Kind.HOOP, Kind.ROD, Kind.T_ROD, Kind.CLAW, Kind.LEG, Kind.GATE, Kind.WIRES),
    *(Kind.WASHER, Kind.GASKET, Kind.LUG_SPRING, Kind.SCREW),
)


def offers_of(
    book: Book,
    *,
    survey: Mapping[str, Any] | None = None,
    job: Mapping[str, Any] | None = None,
) -> dict[str, tuple[str, ...]]:
    """Return every list of names that forms offer.

    Parameters
    ----------
    book : Book
        Of the job.
    survey, job : Mapping
        Bodies of these documents, as kept: the drum's own fittings by their labels, the job's
        drums and wraps.

    Returns
    -------
    dict of str to tuple of str
        By the list's name; whatever is typed may still be something else.
    """

    def of(*kinds: Kind) -> tuple[str, ...]:
        return tuple(entry.name for entry in book.of_kind(*kinds))

    everything = tuple(entry.name for entry in book)
    steps = tuple(one.name for one in operations())
    mounted = tuple(kind for kind in Kind if kind not in (*_OF_ROWS, *_OFF_THE_SHELL))
    return {
        "lugs": of(*_OF_ROWS),
        "long lugs": of(Kind.LONG_LUG),
        "fittings": of(*mounted),
        "hoops": of(Kind.HOOP),
        "plates": of(Kind.COVER_PLATE),
        "strainers": of(Kind.STRAINER),
        "butts": of(Kind.BUTT),
        "gaskets": of(Kind.GASKET),
        "labels": _texts((survey or {}).get("fittings"), "label"),
        "drums": _texts((job or {}).get("drums"), "name"),
        "wraps": _names((job or {}).get("wraps")),
        "purposes": _PURPOSES,
        "threads": _THREADS,
        "parts": everything,
        "priced": (HOUR, *everything),
        "operations": steps,
        "rules": tuple(rule_names()),
    }


def _texts(held: object, name: str) -> tuple[str, ...]:
    tables = held if isinstance(held, list) else []
    found = [one.get(name) for one in tables if isinstance(one, dict)]
    return tuple(text for text in found if isinstance(text, str) and text)


def _names(held: object) -> tuple[str, ...]:
    return tuple(str(name) for name in held) if isinstance(held, dict) else ()
