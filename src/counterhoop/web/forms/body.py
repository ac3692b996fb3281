"""Where a thing stands in the body of its document, and the body with it written anew."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, TypeAlias

from counterhoop.web.forms.faults_at import ENDS
from counterhoop.web.forms.shapes import Table
from counterhoop.web.forms.things import THINGS, Thing

Body: TypeAlias = Any
"""What a document holds: tables, lists, texts, numbers, yes and no."""
At: TypeAlias = int | str | None


def item_at(thing: str, body: Body, at: At = None) -> Body:
    """Return a thing as it stands in a document's body; an empty table where it does not.

    Parameters
    ----------
    thing : str
        A name of ``THINGS``.
    body : table or list
        Of the document that the thing stands in.
    at : int or str or None
        Which of a list, from 0; which end; which name; nothing where there is one only.

    Examples
    --------
    >>> item_at("ring", {"rings": [{"end": "batter"}, {"end": "resonant"}]}, 1)
    {'end': 'resonant'}
    """
    what = THINGS[thing]
    match what.lies:
        case "fields":
            return _fields(what, body)
        case "list":
            held = _listed(what, body)
            return held[at] if isinstance(at, int) and 0 <= at < len(held) else {}
        case "ends" | "named":
            return _tabled(_tabled(body).get(what.place)).get(str(at), {})
    return _tabled(body).get(what.place, {})


def with_item(thing: str, body: Body, item: Body, at: At = None) -> Body:
    """Return the body with a thing written into it; the body that is given stays as it is.

    One more is added to a list when ``at`` is its length, unless the item is empty. An empty
    item takes a table away; of a list it leaves an empty one, until it is taken out.

    Examples
    --------
    >>> with_item("ring", {"wall": "5 mm"}, {"end": "batter"}, 0)
    {'wall': '5 mm', 'rings': [{'end': 'batter'}]}
    """
    what = THINGS[thing]
    match what.lies:
        case "fields":
            return _merged(_without_fields(what, body), item)
        case "list":
            held = list(_listed(what, body))
            place = at if isinstance(at, int) and 0 <= at < len(held) else len(held)
            if place < len(held):
                held[place] = item
            elif item:
                held.append(item)
            return _put(what, body, held)
        case "ends" | "named":
            inner = dict(_tabled(_tabled(body).get(what.place)))
            inner[str(at)] = item
            return _put(what, body, {name: one for name, one in inner.items() if one})
    return _put(what, body, item)


def without_item(thing: str, body: Body, at: At = None) -> Body:
    """Return the body without a thing; the body that is given stays as it is.

    Examples
    --------
    >>> without_item("ring", {"wall": "5 mm", "rings": [{"end": "batter"}]}, 0)
    {'wall': '5 mm'}
    """
    what = THINGS[thing]
    if what.lies == "list":
        held = [one for place, one in enumerate(_listed(what, body)) if place != at]
        return _put(what, body, held)
    return with_item(thing, body, {}, at)


def spots_in(document: str, body: Body) -> list[tuple[str, At]]:
    """Return every thing that stands in a document, in the order of the work.

    Examples
    --------
    >>> spots_in("survey", {"wall": "5 mm", "edges": {"batter": {}}, "holes": [{}, {}]})
    [('shell', None), ('hole', 0), ('hole', 1), ('edge', 'batter')]
    """
    return [
        (thing.name, at)
        for thing in THINGS.values()
        if thing.document == document and not thing.short
        for at in _spots(thing, body)
    ]


def _spots(thing: Thing, body: Body) -> Iterator[At]:
    match thing.lies:
        case "fields":
            yield None
        case "list":
            yield from range(len(_listed(thing, body)))
        case "ends":
            held = _tabled(_tabled(body).get(thing.place))
            yield from (end for end in ENDS if end in held)
        case "named":
            yield from _tabled(_tabled(body).get(thing.place))
        case "table" if thing.place in _tabled(body):
            yield None


def _tabled(value: Body) -> Mapping[str, Any]:
    return value if isinstance(value, dict) else {}


def _listed(what: Thing, body: Body) -> list[Any]:
    held = _tabled(body).get(what.place) if what.place else body
    if isinstance(held, list):
        return held
    # One wish may stand without its list.
    return [held] if what.place and isinstance(held, dict) else []


def _put(what: Thing, body: Body, held: Body) -> Body:
    if not what.place:
        return held
    new = {name: value for name, value in _tabled(body).items() if name != what.place}
    return {**new, what.place: held} if held else new


def _strange(what: Thing, body: Mapping[str, Any]) -> set[str]:
    """Return names that no field of the body has; the long form of the fields shows them."""
    known = {part.name for part in what.shape.parts} if isinstance(what.shape, Table) else set()
    return set() if what.short else set(body) - known


def _fields(what: Thing, body: Body) -> dict[str, Any]:
    found: dict[str, Any] = {}
    held = _tabled(body)
    for name in (*what.only, *_strange(what, held)):
        first, *rest = name.split(".") if name in what.only else [name]
        if first not in held:
            continue
        if not rest:
            found[first] = held[first]
        elif isinstance(held[first], list) and held[first]:
            # Only the first of a list ever has fields in another form.
            inner = _tabled(held[first][0])
            if rest[1] in inner:
                found.setdefault(first, [{}])[0][rest[1]] = inner[rest[1]]
    return found


def _without_fields(what: Thing, body: Body) -> dict[str, Any]:
    held = dict(_tabled(body))
    strange = _strange(what, held)
    for name in (*what.only, *strange):
        first, *rest = name.split(".") if name in what.only else [name]
        if not rest:
            held.pop(first, None)
        elif isinstance(held.get(first), list) and held[first]:
            inner = {k: v for k, v in _tabled(held[first][0]).items() if k != rest[1]}
            held[first] = [inner, *held[first][1:]]
    return held


def _merged(body: dict[str, Any], item: Mapping[str, Any]) -> dict[str, Any]:
    new = dict(body)
    for name, value in item.items():
        old = new.get(name)
        if isinstance(old, list) and isinstance(value, list) and old and value:
            new[name] = [{**_tabled(old[0]), **_tabled(value[0])}, *old[1:]]
        else:
            new[name] = value
    return new
