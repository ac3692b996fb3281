"""What the shop itself says of a part beside its form: that it came later, or is another one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from counterhoop.evidence.reference import UNLISTED
from counterhoop.shell.hole import Origin

if TYPE_CHECKING:
    from counterhoop.bench.evidence.dating import Look

_CAME_LATER = r"(?:later|newer|replacement|replaced)\b"
_LATER = re.compile(rf"\b(?:{_CAME_LATER}|not its own\b)", re.IGNORECASE)
_DENIED = re.compile(rf"\b(?:no|not|never)(?:\s+\w+){{0,2}}\s+{_CAME_LATER}", re.IGNORECASE)
_FORM = re.compile(r"[,(].*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """A fitting as the survey writes it: its names, and whether it was added later."""

    label: str
    fitting: str
    later: bool

    def is_a(self, feature: str) -> bool:
        """Whether its names say that it is what this feature is seen on."""
        return any(_stands_in(feature, name) for name in (self.label, self.fitting))


def hung_on(survey: dict[str, Any]) -> tuple[Hung, ...]:
    """Return what the survey says hangs on a drum today; what is gone is left out."""
    return tuple(
        Hung(
            label=str(one.get("label") or ""), fitting=str(one.get("fitting") or ""),
            later=one.get("origin") == Origin.EXTRA.value,
        )
        for kind in ("fittings", "rows")
        for one in _tables(survey.get(kind))
        if one.get("missing") not in (True, "true", "yes")
    )  # fmt: skip


def told_later(looks: Iterable[Look], hung: Iterable[Hung]) -> dict[str, str]:
    """Return the parts that the shop calls later, each with where it says so.

    Either the sheet of facts finds the form in no row and calls it later in words, or everything
    of that name which hangs on the drum is written down as added later.
    """
    listed = tuple(hung)
    told: dict[str, str] = {}
    for look in looks:
        feature = look.asked.feature
        here = [one for one in listed if one.is_a(feature.name)]
        if look.value == UNLISTED and _LATER.search(look.says) and not _DENIED.search(look.says):
            told.setdefault(feature.part, f"“{look.says}”")
        elif here and all(one.later for one in here):
            named = here[0].label or here[0].fitting
            told.setdefault(feature.part, f"the survey has the {named} as added later")
    return told


def against_survey(looks: Iterable[Look], hung: Iterable[Hung]) -> tuple[str, ...]:
    """Return, in sentences, each form seen where the survey names a fitting by another form."""
    return tuple(_against(looks, tuple(hung)))


def _against(looks: Iterable[Look], hung: tuple[Hung, ...]) -> Iterator[str]:
    for look in looks:
        name = look.asked.feature.name
        for fitting in dict.fromkeys(one.fitting for one in hung if one.is_a(name)):
            named = [
                form.name
                for form in look.asked.values
                if _stands_in(form.family, fitting)
                and _stands_in(_FORM.sub("", form.name), fitting)
            ]
            if named and look.value != UNLISTED and look.value not in named:
                yield (
                    f"The {name} was seen as {look.value}, and the survey names {fitting}: look "
                    "again which hangs there."
                )


def _stands_in(words: str, text: str) -> bool:
    return bool(re.search(rf"\b{re.escape(words)}s?\b", text, flags=re.IGNORECASE))


def _tables(rows: Any) -> list[dict[str, Any]]:
    return [one for one in rows if isinstance(one, dict)] if isinstance(rows, list) else []
