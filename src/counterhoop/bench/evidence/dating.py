"""When a drum was made, by what its sheet of facts says and what the workshop knows of the time."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from counterhoop.bench.evidence.drum_features import (
    CANNOT_TELL,
    SERIAL,
    AskedFeature,
    Known,
    asked_features,
    known_of,
)
from counterhoop.bench.evidence.own_reference import reference_of
from counterhoop.bench.evidence.told_later import against_survey, hung_on, told_later
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import FACTS, SURVEY
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.evidence.dated import Dated, dated
from counterhoop.evidence.ground import ground_of
from counterhoop.evidence.originality import PartOrigin
from counterhoop.evidence.reference import UNLISTED, Reference
from counterhoop.evidence.seen import HOW_SURE, Seen

__all__ = ["Dating", "Look", "dating_of", "reference_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """One feature as somebody saw it.

    Attributes
    ----------
    asked : AskedFeature
        The feature with its forms.
    value : str
        One of the forms, or "none of these".
    says, sure, who, photograph : str
        As the sheet of facts has them.
    right : float
        How often such a look is right.
    """

    asked: AskedFeature
    value: str
    says: str
    sure: str
    who: str
    photograph: str
    right: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Dating:
    """A drum dated.

    Attributes
    ----------
    known : Known
        Family, line and size that it is dated by.
    looks : tuple of Look
        What was reckoned with.
    asked : tuple of AskedFeature
        Everything that could be looked at.
    left_out : tuple of str
        What stands on the sheet and cannot be reckoned with, each with the reason.
    found : Dated
        What it comes to.
    told : mapping of str to str
        Parts that the shop itself calls later, each with where it says so: nothing is reckoned
        from that.
    remarks : tuple of str
        Where what was seen and the survey name different things.
    """

    known: Known
    looks: tuple[Look, ...]
    asked: tuple[AskedFeature, ...]
    left_out: tuple[str, ...]
    found: Dated
    told: Mapping[str, str]
    remarks: tuple[str, ...]

    def word_of(self, one: PartOrigin) -> str:
        """Return what a part is; the shop's own word goes before what was worked out."""
        return "later, says the shop" if one.part in self.told else one.word


def dating_of(shop: Workshop, job: KeptJob, drum: KeptDrum) -> Dating | None:
    """Return when a drum was made, as far as its sheet of facts tells.

    Returns
    -------
    Dating or None
        None while nobody has said whose it is, or the reference has nothing of that family.

    Raises
    ------
    BadInput
        When the reference cannot be laid out for it: its line begins after today, or too many
        forms follow one another while their years are hardly known.
    """
    reference = reference_of(shop)
    known = known_of(drum, reference)
    if not known.family:
        return None
    asked = asked_features(reference, known)
    facts = drum.kept(FACTS).table
    looks, unsure, left_out = looks_in(facts, asked)
    seen = tuple(
        Seen(feature=one.asked.feature.name, value=one.value, sure=one.right) for one in looks
    )
    dating = _dating(reference, replace(known, family_by=""), shop.now().year)
    found, fault = dating(seen, _serial(facts))
    left_out += (f"The serial number is left out: {fault}",) if fault else ()
    rest = tuple(one for one in found.next_features if one.feature not in unsure)
    hung = hung_on(drum.kept(SURVEY).table)
    return Dating(
        known=known, looks=looks, asked=asked, left_out=left_out,
        found=replace(found, next_features=rest), told=told_later(looks, hung),
        remarks=against_survey(looks, hung),
    )  # fmt: skip


def looks_in(
    facts: dict[str, Any], asked: Iterable[AskedFeature]
) -> tuple[tuple[Look, ...], set[str], tuple[str, ...]]:
    """Return what the sheet of facts says of dated features.

    Returns
    -------
    looks, unsure, left_out
        What can be reckoned with; features of which nobody could tell; answers that the reference
        no longer has, in sentences.
    """
    looks, unsure, left_out = [], set(), []
    for one in asked:
        held = facts.get(one.key)
        told = {word: v.strip() for word, v in held.items() if isinstance(v, str)} if isinstance(
            held, dict
        ) else {}  # fmt: skip
        value = told.get("value", "")
        if value == CANNOT_TELL:
            unsure.add(one.feature.name)
        elif value and value not in (UNLISTED, *(form.name for form in one.values)):
            left_out.append(
                f"The {one.feature.name} is left out: no “{value}” of such a drum in the reference."
            )
        elif value:
            sure = told.get("sure", "")
            looks.append(
                Look(
                    asked=one, value=value, says=told.get("says", ""), sure=sure,
                    who=told.get("who", ""), photograph=told.get("photograph", ""),
                    right=HOW_SURE.get(sure, HOW_SURE["told"]),
                )
            )  # fmt: skip
    return tuple(looks), unsure, tuple(left_out)


def _serial(facts: dict[str, Any]) -> str:
    held = facts.get(SERIAL)
    says = held.get("says") if isinstance(held, dict) else None
    return says.strip() if isinstance(says, str) else ""


@lru_cache(maxsize=6)
def _dating(
    reference: Reference, known: Known, looked_at: int
) -> Callable[[tuple[Seen, ...], str], tuple[Dated, str]]:
    """Lay the reference out for drums of one sort; what was seen of the last few is remembered."""
    ground = ground_of(
        reference, family=known.family, line=known.line, diameter_mm=known.diameter_mm,
        looked_at=looked_at,
    )  # fmt: skip

    @lru_cache(maxsize=32)
    def found(seen: tuple[Seen, ...], serial: str) -> tuple[Dated, str]:
        try:
            return dated(seen, ground, serial=serial), ""
        except BadInput as fault:
            if not serial:
                raise
            return dated(seen, ground), str(fault)

    return found
