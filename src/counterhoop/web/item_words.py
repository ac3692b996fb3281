"""What is written of a thing, as one short line."""

from __future__ import annotations

from typing import Any, Final

from counterhoop.web.forms import THINGS
from counterhoop.web.place_words import counted, value_words

# What a line says of each thing, in this order; ``{}`` is what was typed.
SAYS: Final[dict[str, tuple[tuple[str, str], ...]]] = {
    "shell": (
        ("kind", "{}"), ("size", "called {}"), ("circumference", "{} round"),
        ("depth", "{} deep"), ("wall", "{} wall"), ("plies", "{} plies"), ("wood", "{}"),
    ),
    "air of the drum": (("temperature", "{}"), ("humidity", "{}")),
    "finish": (
        ("kind", "{}"), ("thickness", "{} thick"), ("nitrate", "nitrate: {}"), ("says", "{}"),
    ),
    "seam": (("along", "at {}"), ("overlap", "{} wide"), ("from", "from {}"), ("to", "to {}")),
    "ring": (("end", "{}"), ("wide", "{} down from the edge"), ("thick", "{} thick")),
    "row": (
        ("head", "{}"), ("lugs", "{} lugs"), ("fitting", "{}"), ("first", "the first at {}"),
        ("near", "near sides {} from the {edge} edge"), ("hole", "{} dia"), ("origin", "{}"),
    ),
    "fitting": (("label", "{}"), ("fitting", "{}"), ("along", "at {}"), ("origin", "{}")),
    "hole": (
        ("near", "near side {} from the {edge} edge"), ("along", "at {}"), ("dia", "{} dia"),
        ("purpose", "{}"), ("origin", "{}"), ("condition", "{}"),
    ),
    "mark": (("kind", "{}"), ("of", "of the {}"), ("along", "at {}"), ("down", "{} down")),
    "line": (("kind", "{}"), ("along", "at {}"), ("says", "{}")),
    "inside": (("what", "{}"), ("along", "at {}"), ("near", "near side {}")),
    "hoops": (("batter", "batter: {}"), ("resonant", "resonant: {}")),
    "edge": (
        ("gaps", "feelers {}"), ("heights", "heights {}"), ("profile.cut", "{}"), ("says", "{}"),
    ),
    "round": (("across", "across {}"), ("dial", "dial {}"), ("radii", "radii {}")),
    "fit": (("collar", "collar {}"), ("rim", "rim {}"), ("hoop", "hoop {}"), ("says", "{}")),
    "bed": (("along", "at {}"), ("wide", "{} wide"), ("deep", "{} deep")),
    "thread": (("of", "{}"), ("outside", "{} over the crests"), ("over", "{}"), ("pitch", "{}")),
    "wish": (
        ("want", "{}"), ("lug", "{}"), ("fitting", "{}"), ("fittings", "{}"), ("label", "{}"),
        ("along", "at {}"), ("depth", "{} deep"),
    ),
    "finish plan": (
        ("kind", "{}"), ("wrap", "{}"), ("thickness", "{} thick"),
        ("true_batter", "batter edge: {}"), ("true_resonant", "resonant edge: {}"),
    ),
    "heads": (
        ("batter.film", "batter head {}"), ("batter.films", "batter head {}"),
        ("batter.weight", "batter head of {}"), ("batter.says", "{}"),
        ("resonant.film", "the other head {}"), ("resonant.films", "the other head {}"),
        ("resonant.weight", "the other head of {}"), ("resonant.says", "{}"),
        ("most_per_rod", "at most {} a rod"), ("rod", "rods {}"),
        ("pitch.batter", "to sound {}"), ("pitch.resonant", "the other {}"),
    ),
    "kit": (
        ("lowest.pitch", "lowest {}"), ("lowest.drum", "the {}"), ("highest.pitch", "highest {}"),
        ("highest.drum", "the {}"), ("bottom", "bottom heads {}"), ("heard", "heard {}"),
        ("a4", "A at {}"),
    ),
    "turns": (
        ("head", "{} head"), ("from", "from {}"), ("to", "to {}"), ("turns", "by {} of a turn"),
    ),
    "heights": (("head", "{} head"), ("stage", "{}"), ("at", "{}")),
    "wrap": (
        ("length", "{} long"), ("width", "{} wide"), ("thickness", "{} thick"),
        ("overlap", "overlap {}"), ("glue", "{} glue"), ("price", "{} a sheet"),
    ),
}  # fmt: skip


def item_words(thing: str, item: Any) -> str:
    """Return what is written of a thing in one line, as typed.

    Examples
    --------
    >>> item_words("hole", {"along": "lug 2 + 42 mm", "near": "44 mm", "dia": "8 mm"})
    'near side 44 mm from the batter edge, at lug 2 + 42 mm, 8 mm dia'
    >>> item_words("row", {"head": "resonant", "near": ["38 mm", "68 mm"]})
    'resonant, near sides 38 mm, 68 mm from the batter edge'
    """
    held = item if isinstance(item, dict) else {}
    edge = value_words(held.get("from_edge", "batter"))
    parts = []
    if held.get("there") is False:
        parts.append("never cut")
    for name, says in SAYS[thing]:
        value = _at(held, name)
        if value not in (None, "", [], {}):
            parts.append(says.replace("{edge}", edge).replace("{}", value_words(value)))
    holes = held.get("holes")
    if isinstance(holes, list) and holes:
        parts.append(f"{len(holes)} hole{'s' if len(holes) != 1 else ''}")
    if held.get("missing") is True:
        parts.append("missing")
    return ", ".join(parts) or ("nothing is written yet" if not held else value_words(held))


def item_name(thing: str, at: int | str | None) -> str:
    """Return how a thing is spoken of among its like.

    Examples
    --------
    >>> item_name("row", 0), item_name("edge", "batter"), item_name("shell", None)
    ('Row 1', 'Batter edge', 'Shell')
    """
    one = THINGS[thing].one.removeprefix("the ")
    match at:
        case int():
            said = counted(THINGS[thing], at)
        case str():
            said = f"{at} {'end, how round' if thing == 'round' else one}"
        case _:
            said = one
    return said[:1].upper() + said[1:]


def _at(held: dict[str, Any], name: str) -> Any:
    here: Any = held
    for step in name.split("."):
        here = here.get(step) if isinstance(here, dict) else None
    return here
