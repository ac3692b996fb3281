"""What is wrong, said at the field where it can be put right."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import cast

from pydantic import ValidationError

from counterhoop.errors import BadInput
from counterhoop.fittings.check_entry import check_entry
from counterhoop.fittings.explain import complaints
from counterhoop.fittings.kinds import AnyEntry
from counterhoop.fittings.make_entry import make_entry
from counterhoop.fittings.read_book import MODELS
from counterhoop.shell.survey_file.faults import faults_of
from counterhoop.shell.survey_file.lines import path_of
from counterhoop.web.forms.fields import Field, Form, Group, Item
from counterhoop.web.forms.shapes import Table
from counterhoop.web.forms.things import THINGS, Thing

ENDS = ("batter", "resonant")


def faults_in(thing: str, item: object) -> tuple[BadInput, ...]:
    """Return what the thing's own model says against an item; more shows on the whole drum.

    Returns
    -------
    tuple of BadInput
        Their ``where`` is a path within the item.

    Examples
    --------
    >>> print(faults_in("ring", {"end": "batter", "wide": "25", "thick": "5 mm"})[0])
    wide: no unit: found '25', wanted "25 mm" or "25 in", whichever the rule was marked in
    """
    what = THINGS[thing]
    if what.document == "book":
        return _of_entry(item if isinstance(item, dict) else {})
    raw = {"item": item}
    try:
        what.wrapper.model_validate(raw)
    except ValidationError as error:
        said = faults_of(error, raw=raw, model=what.wrapper)
        return tuple(fault for fault in faults_under(said, "item") if _owned(what, fault.where))
    return ()


def _of_entry(item: dict[str, object]) -> tuple[BadInput, ...]:
    kind = item.get("kind")
    model = MODELS.get(kind) if isinstance(kind, str) else None
    if model is None:
        wanted = ", ".join(MODELS)
        return (
            BadInput("it does not say what kind it is", where="kind", given=kind, wanted=wanted),
        )
    try:
        written = model.model_validate(item)
    except ValidationError as error:
        return faults_under(complaints(error, model=model, where="item"), "item")
    try:
        check_entry(make_entry(cast(AnyEntry, written)), where="item")
    except BadInput as fault:
        return faults_under((fault,), "item")
    return ()


def _owned(what: Thing, where: str) -> bool:
    """Tell whether a fault is this thing's; a name that is not known at all is the long form's."""
    first = re.split(r"[.\[]", where, maxsplit=1)[0]
    if first in {name.split(".")[0] for name in what.only} or not what.only:
        return True
    known = {part.name for part in what.shape.parts} if isinstance(what.shape, Table) else set()
    return not what.short and first not in known


def faults_under(faults: Iterable[BadInput], place: str) -> tuple[BadInput, ...]:
    """Return the faults at a place or below it, their ``where`` from there on.

    Parameters
    ----------
    faults : iterable of BadInput
        As a whole file or drum tells them.
    place : str
        A path as it is said, "drums.small tom.holes[3]".

    Examples
    --------
    >>> far = BadInput("too far", where="drums.small tom.holes[3].near")
    >>> faults_under([far], "drums.small tom.holes[3]")[0].where
    'near'
    """
    found = []
    for fault in faults:
        rest = _below(fault.where, place)
        if rest is not None:
            found.append(
                BadInput(
                    fault.what,
                    where=rest,
                    given=fault.given,
                    wanted=fault.wanted,
                    step=fault.step,
                )
            )
    return tuple(found)


def _below(where: str, place: str) -> str | None:
    if where == place or not place:
        return where if not place else ""
    if where.startswith(place) and where[len(place)] in ".[":
        return where[len(place) :].removeprefix(".")
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where a fault lies.

    Attributes
    ----------
    thing : str
        Whose form it is.
    at : int or str or None
        Which of a list, from 0; which end; the name; nothing where there is one only.
    where : str
        The path within that thing.
    """

    thing: str
    at: int | str | None
    where: str


def spot_in_drum(where: str) -> Spot:
    """Return the form that a path in a drum's own table belongs to.

    Examples
    --------
    >>> spot_in_drum("rows[1].near[2]")
    Spot(thing='row', at=0, where='near[2]')
    >>> spot_in_drum("wall")
    Spot(thing='shell', at=None, where='wall')
    """
    inner = _below(where, "tuning")
    if inner is not None:
        return _found(inner, documents=("tuning",)) or Spot(thing="heads", at=None, where=inner)
    found = _found(where, documents=("survey", "wish"))
    return found or Spot(thing="shell", at=None, where=where)


def spot_of(where: str, *, drum: str = "", names: Iterable[str] = ()) -> Spot | None:
    """Return the form that a path in the whole file belongs to.

    Parameters
    ----------
    where : str
        As faults say it: "drums.small tom.rows[1].near[2]", "job.date", "approval[1].when".
    drum : str
        Name of the drum; a path of another drum has no form here.
    names : iterable of str
        Names of the job's wraps, which may hold any sign.

    Examples
    --------
    >>> spot_of("drums.small tom.wall", drum="small tom")
    Spot(thing='shell', at=None, where='wall')
    """
    inner = _below(where, path_of(("drums", drum))) if drum else None
    if inner is not None:
        return spot_in_drum(inner)
    wished = _below(where, "kit")
    if wished is not None:
        return Spot(thing="kit", at=None, where=wished)
    return _found(where, documents=("job", "approval"), names=names)


def _found(where: str, *, documents: tuple[str, ...], names: Iterable[str] = ()) -> Spot | None:
    for thing in THINGS.values():
        if thing.document not in documents or thing.lies == "fields":
            continue
        rest = _below(where, thing.place or thing.document)
        if rest is not None and (found := _spot(thing, rest, names=names)):
            return found
    return None


def _spot(thing: Thing, rest: str, *, names: Iterable[str]) -> Spot | None:
    match thing.lies:
        case "list":
            found = re.match(r"\[(\d+)\]\.?", rest)
            if not found:
                return None
            return Spot(thing=thing.name, at=int(found[1]) - 1, where=rest[found.end() :])
        case "ends":
            for end in ENDS:
                if (below := _below(rest, end)) is not None:
                    return Spot(thing=thing.name, at=end, where=below)
            return None
        case "named":
            for name in sorted(names, key=len, reverse=True):
                if (below := _below(rest, path_of((name,)))) is not None:
                    return Spot(thing=thing.name, at=name, where=below)
            return None
    return Spot(thing=thing.name, at=None, where=rest)


def with_faults(
    form: Form, faults: Iterable[BadInput], *, offers: tuple[tuple[str, tuple[str, ...]], ...] = ()
) -> Form:
    """Return the form with each fault at its field, or at what is nearest above it."""
    places = {one.said for one in _every((*form.parts, *form.more)) if one.said}
    at: dict[str, list[str]] = {}
    for fault in faults:
        at.setdefault(_nearest(fault.where, places), []).append(fault_words(fault))
    return replace(
        form,
        parts=tuple(_marked(one, at) for one in form.parts),
        more=tuple(_marked(one, at) for one in form.more),
        # Whatever found no place among the fields is said over all of them.
        faults=tuple(words for said in at.values() for words in said),
        offers=offers,
    )


def units_wanted(fault: BadInput) -> tuple[str, ...]:
    """Return the units that a bare number lacks, as they may be written behind it.

    Examples
    --------
    >>> units_wanted(BadInput("no unit", given="8", wanted='"8 mm" or "8 in", as the rule'))
    ('mm', 'in')
    """
    if fault.what != "no unit" or not isinstance(fault.given, str):
        return ()
    return tuple(re.findall(rf'"{re.escape(fault.given)} ([^"]+)"', fault.wanted))


def fault_words(fault: BadInput) -> str:
    """Return what is said of a fault at its field: a bare number is asked for its unit.

    Examples
    --------
    >>> fault_words(BadInput("no unit", where="web", given="9", wanted='"9 mm" or "9 in"'))
    '9 what: mm or in?'
    >>> fault_words(BadInput("no unit", given="8", wanted='"8 cents"'))
    '8 what? Write "8 cents"'
    """
    units = units_wanted(fault)
    if len(units) == 1:
        return f'{fault.given} what? Write "{fault.given} {units[0]}"'
    if units:
        return f"{fault.given} what: {', '.join(units[:-1])} or {units[-1]}?"
    line = str(BadInput(fault.what, given=fault.given, wanted=fault.wanted, step=fault.step))
    return line[:1].upper() + line[1:]


def _nearest(where: str, places: set[str]) -> str:
    while where and where not in places:
        cut = max(where.rfind("."), where.rfind("["))
        where = where[:cut] if cut > 0 else ""
    return where


def _every(items: Iterable[Item]) -> Iterable[Item]:
    for one in items:
        yield one
        if isinstance(one, Group):
            yield from _every((*one.parts, *one.more))


def _marked(item: Item, at: dict[str, list[str]]) -> Item:
    if isinstance(item, Field):
        # Taken out as it is said: a group and its one field may share a place.
        said = at.pop(item.said, ()) if item.said else ()
        return replace(item, faults=tuple(said)) if said else item
    parts = tuple(_marked(one, at) for one in item.parts)
    more = tuple(_marked(one, at) for one in item.more)
    said = at.pop(item.said, ()) if item.said else ()
    return replace(item, parts=parts, more=more, faults=tuple(said))
