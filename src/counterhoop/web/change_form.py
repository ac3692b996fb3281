"""The short form at the bench: what was found, where, how large, what it means."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.bench.change.found import SORTS
from counterhoop.bench.change.typed import FIELDS, LONGEST
from counterhoop.shell.hole import Origin
from counterhoop.web.look.say import capfirst

LABELS: Final[dict[str, tuple[str, str]]] = {
    "along": ("Where along", "Such as lug 4, hole 7 + 12 mm, or 412 mm on the tape."),
    "from": ("From", "Down from the batter edge, such as 0 mm."),
    "to": ("To", "Down from the batter edge, such as 60 mm."),
    "near": ("Its near side", "Down from the batter edge, such as 44 mm."),
    "dia": ("Its diameter", "Such as 6.5 mm or 1/4 in."),
    "origin": ("Who made it", ""),
    "where": ("Where", "Such as lug 4, or the strainer's top screw."),
    "size": ("How large", ""),
    "means": ("What it means", "As you would tell the client; it stands on the change note."),
}
ORIGINS: Final = (
    ("", "nobody can say"),
    (Origin.EXTRA.value, "an earlier owner: extra"),
    (Origin.FACTORY.value, "the factory"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundForm:
    """The form for one sort of thing.

    Attributes
    ----------
    sort, says : str
        Which, and what it is called.
    fields : tuple of dict
        As the macro ``p.field`` takes them, and whether a number lacks only its unit.
    photographs : tuple of str
        Those that are in the folder already, from a try that was refused.
    fault : str
        What is wrong with the whole.
    """

    sort: str
    says: str
    fields: tuple[dict[str, Any], ...]
    photographs: tuple[str, ...] = ()
    fault: str = ""


def found_form(
    sort: str, *, typed: Mapping[str, str] | None = None, faults: Mapping[str, str] | None = None,
    photographs: tuple[str, ...] = (),
) -> FoundForm | None:  # fmt: skip
    """Return the form for a sort; None for none that there is."""
    if sort not in SORTS:
        return None
    typed, faults = typed or {}, faults or {}
    fields = []
    for name in FIELDS[sort]:
        label, help_ = LABELS[name]
        kind = "note" if name == "means" else "choice" if name == "origin" else "text"
        fields.append(
            {
                "name": name, "label": label, "help": help_, "kind": kind,
                "value": typed.get(name, ""), "fault": faults.get(name, ""),
                "no_unit": faults.get(name, "").startswith("No unit: "),
                "choices": ORIGINS if name == "origin" else (),
                "more": {} if name == "origin" else {"maxlength": LONGEST}, "id": f"found-{name}",
            }
        )  # fmt: skip
    return FoundForm(
        sort=sort, says=capfirst(SORTS[sort]), fields=tuple(fields), photographs=photographs,
        fault=faults.get("sort", "") or faults.get("photograph", ""),
    )  # fmt: skip


def sorts_to_choose() -> tuple[tuple[str, str], ...]:
    """Return what can be found, as links say it."""
    return tuple((sort, capfirst(says)) for sort, says in SORTS.items())
