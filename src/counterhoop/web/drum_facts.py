"""The sheet of what a drum is: plain facts, and forms of the features that can be dated."""

from __future__ import annotations

from typing import Any, Final

from counterhoop.bench.evidence.drum_features import (
    MAKER,
    SERIAL,
    AskedFeature,
    Known,
    asked_features,
    known_of,
)
from counterhoop.bench.evidence.own_reference import reference_of
from counterhoop.bench.folders.album import photographs_of
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import FACTS
from counterhoop.bench.workshop import Workshop
from counterhoop.evidence.reference import Reference
from counterhoop.web.album_words import of_drum
from counterhoop.web.folder_index import drum_address
from counterhoop.web.look.say import capfirst
from counterhoop.web.plain_sheet import Group, Part, Question
from counterhoop.web.plain_write import Sheet

HOW_SURE: Final = (("", ""), ("seen", "seen"), ("told", "told"), ("guessed", "guessed"))
SAYS: Final = "What is seen"
PLAIN: Final = {
    MAKER: ("Maker", "Whose it is said to be"),
    "badge": ("Badge", SAYS),
    "plies": ("Plies and rings", SAYS),
    "lug_casting": ("Lug castings", SAYS),
    "strainer": ("Strainer", SAYS),
    "vent": ("Vent", SAYS),
    "finish": ("Finish", SAYS),
    "stamps": ("Stamps and labels", SAYS),
    SERIAL: ("Serial number", "As it is written"),
    "history": ("Its history", "What is known"),
}
"""What is asked of every drum, by the name under which it is kept."""


def facts_sheet(shop: Workshop, job: KeptJob, drum: KeptDrum) -> Sheet:
    """Return the sheet of a drum's facts, asking for what the workshop's reference can date."""
    address = drum_address(job, drum)
    reference = reference_of(shop)
    taken = [(one.id, one.shows) for one in of_drum(photographs_of(shop, job), drum)]
    parts = facts_parts(
        drum.kept(FACTS).table, reference, known_of(drum, reference), photographs=taken
    )
    return Sheet(
        ident="facts", job=job.id, drum=drum.id, kind=FACTS, parts=parts,
        action=f"{address}/facts", back=f"{address}#facts",
    )  # fmt: skip


def facts_parts(
    table: dict[str, Any], reference: Reference, known: Known, *,
    photographs: list[tuple[str, str]],
) -> tuple[Part, ...]:  # fmt: skip
    """Return what is asked of a drum, everything once.

    Parameters
    ----------
    table : dict
        The facts as they are kept: an answer that the reference no longer has stays a choice.
    photographs : list of (str, str)
        Those of the drum, each with what it shows.
    """
    dated = {one.key: one for one in asked_features(reference, known)}

    def group(key: str, label: str, says: str) -> Group:
        held = table.get(key)
        held = held if isinstance(held, dict) else {}
        return Group(
            name=key, label=label,
            of=(
                *(_whose(reference, known, held) if key == MAKER else ()),
                *_form(dated.get(key), held),
                Question(name="says", label="In your own words" if key in dated else says),
                Question(name="sure", label="How sure", kind="choice", choices=HOW_SURE),
                Question(name="who", label="Who says so, or what shows it"),
                *_shown(photographs, held),
            ),
        )  # fmt: skip

    plain = [group(key, label, says) for key, (label, says) in PLAIN.items()]
    more = [
        group(key, capfirst(one.feature.name), SAYS)
        for key, one in dated.items()
        if key not in PLAIN
    ]
    return (*plain[:-2], *more, *plain[-2:])


def _whose(reference: Reference, known: Known, held: dict[str, Any]) -> tuple[Question, ...]:
    lines = [one.name for one in reference.lines if one.family == known.family]
    by_words = f"{known.family}, by the words beneath" if known.family_by else "not said"
    asked = Question(
        name="family", label="Family in the reference", kind="choice",
        choices=_still((("", by_words), *((one, one) for one in reference.families)),
                       held.get("family")),
        help="Whose dated features it is held against.",
    )  # fmt: skip
    if len(lines) < 2 and not held.get("line"):
        return (asked,)
    line = Question(
        name="line",
        label="Line",
        kind="choice",
        choices=_still((("", "not known"), *((one, one) for one in lines)), held.get("line")),
    )
    return (asked, line)


def _form(one: AskedFeature | None, held: dict[str, Any]) -> tuple[Question, ...]:
    """Ask for the form; one that was answered stays, whatever the reference dates by now."""
    if one is None and not held.get("value"):
        return ()
    choices = one.choices if one else (("", "not looked at"),)
    return (
        Question(
            name="value", label="Which of these", kind="choice",
            choices=_still(choices, held.get("value")), help=capfirst(one.years) if one else "",
        ),
    )  # fmt: skip


def _shown(photographs: list[tuple[str, str]], held: dict[str, Any]) -> tuple[Question, ...]:
    if not photographs and not held.get("photograph"):
        return ()
    choices = (("", ""), *((ident, f"photograph: {shows}") for ident, shows in photographs))
    return (
        Question(
            name="photograph", label="The photograph that shows it", kind="choice",
            choices=_still(choices, held.get("photograph")),
        ),
    )  # fmt: skip


def _still(choices: tuple[tuple[str, str], ...], held: Any) -> tuple[tuple[str, str], ...]:
    """Return choices with what was answered before, were it no longer there."""
    known = [value for value, _ in choices]
    if not isinstance(held, str) or held in known:
        return choices
    return (*choices, (held, f"{held} (no longer there)"))
