"""Photographs of a folder with what they show: which drum, from where, before or after."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import PHOTOGRAPHS
from counterhoop.bench.folders.photographs import PICTURES, lying_in
from counterhoop.bench.folders.views import WANTED, View, view_says
from counterhoop.bench.folders.write_thing import ThingChange, write_thing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.body import Json
from counterhoop.store.enclosures.enclose import Enclosure
from counterhoop.store.save import Conflict, Saved

LONGEST_CAPTION = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class Photograph:
    """One photograph of a folder.

    Attributes
    ----------
    lies : Enclosure
        The file.
    drum : KeptDrum or None
        The drum that it shows; None for the job as a whole.
    view : str
        One of ``views.VIEWS``; empty while nobody has said.
    after : bool
        Whether it was taken when the work was done.
    says : str
        A caption.
    """

    lies: Enclosure
    drum: KeptDrum | None
    view: str = ""
    after: bool = False
    says: str = ""

    @property
    def id(self) -> str:
        """Its name for programs."""
        return self.lies.id

    @property
    def shows(self) -> str:
        """What it shows, in a few words."""
        parts = [self.drum.name if self.drum else "", view_says(self.view)]
        said = ", ".join(part for part in parts if part) or "not said yet what it shows"
        return f"{said}, after the work" if self.after else said


def photographs_of(
    shop: Workshop, job: KeptJob, *, with_hidden: bool = False
) -> tuple[Photograph, ...]:
    """Return the photographs of a folder, in the order in which they were put in."""
    told = job.kept(PHOTOGRAPHS).table
    drums = {drum.id: drum for drum in (*job.drums, *job.hidden_drums)}
    made = []
    for one in lying_in(shop, job.id, with_hidden=with_hidden):
        if one.file.media_type not in PICTURES:
            continue
        words = told.get(one.id)
        words = words if isinstance(words, dict) else {}
        drum = drums.get(str(words.get("drum", one.drum)))
        made.append(
            Photograph(
                lies=one,
                drum=drum,
                view=_text(words.get("view")),
                after=words.get("after") is True,
                says=_text(words.get("says")),
            )
        )
    return tuple(made)


def photograph(shop: Workshop, job: KeptJob, photograph_id: str) -> Photograph:
    """Return one photograph, put away or not.

    Raises
    ------
    BadInput
        When there is none of that name in the folder.
    """
    for one in photographs_of(shop, job, with_hidden=True):
        if one.id == photograph_id:
            return one
    raise BadInput("no such photograph in this job", where="photograph", given=photograph_id)


def missing_views(
    found: Iterable[Photograph], drum: KeptDrum, *, after: bool = False
) -> tuple[View, ...]:
    """Return the views of a drum that nobody has photographed yet.

    Afterwards only those are wanted that were taken before: the same places show what was done.
    """
    own = [one for one in found if one.drum is not None and one.drum.id == drum.id]
    before = {one.view for one in own if not one.after}
    there = {one.view for one in own if one.after is after}
    wanted = [view for view in WANTED if not after or view.name in before]
    return tuple(view for view in wanted if view.name not in there)


def words_of(*, view: str = "", drum: str = "", after: bool = False, says: str = "") -> Json:
    """Return what is kept of a photograph beside its file."""
    words: dict[str, Json] = {"view": view, "drum": drum, "says": says[:LONGEST_CAPTION]}
    kept = {name: value for name, value in words.items() if value or name == "drum"}
    return kept | ({"after": True} if after else {})


def tell_photographs(
    shop: Workshop, job_id: str, told: Mapping[str, Json], *, based_on: int, by: str
) -> Saved | Conflict:
    """Write down what photographs show; what others said of other photographs stays.

    Parameters
    ----------
    told : mapping of str to Json
        ``words_of`` by the photograph's name for programs.
    based_on : int
        The revision that the writer saw.
    """

    def same(seen: Any, newest: Any) -> bool:
        return all(_table(seen).get(name) == _table(newest).get(name) for name in told)

    def put(_seen: Any, base: Any) -> Any:
        return {**_table(base), **told}

    change = ThingChange(kind=PHOTOGRAPHS, drum="", based_on=based_on, same=same, put=put)
    return write_thing(shop, job_id, change, by=by)


def _table(body: Any) -> dict[str, Any]:
    return body if isinstance(body, dict) else {}


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""
