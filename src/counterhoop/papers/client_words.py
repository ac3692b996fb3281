"""What a scheme means, in the client's words: cut for good, what shows, what can be undone."""

from __future__ import annotations

from collections import Counter

from counterhoop.development.cover import each_uncovered_mm2
from counterhoop.development.truing import Removal
from counterhoop.fittings.entry import Kind
from counterhoop.papers.facts import Lengths, count, labels, listed
from counterhoop.scheme.heads import heads_of
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.drum import Material
from counterhoop.shell.hole import Condition

CLOSED = (Verdict.PLUG, Verdict.PLUGGED_ALREADY)
PLUGGED_BEFORE = (Condition.DOWEL, Condition.FACE_GRAIN)
NOTHING = "nothing of the work"
SEEN_OUTSIDE = (
    Kind.LUG, Kind.LONG_LUG, Kind.BRACKET, Kind.LEG_BRACKET, Kind.SPUR, Kind.STRAINER, Kind.BUTT,
    Kind.GATE, Kind.BADGE, Kind.COVER_PLATE,
)  # fmt: skip
CUT_DOWN_MM = 5.0
"""More than this off the depth is a cut, less is truing (common practice, no source)."""
SEEN_DEPTH_MM = 0.25
"""Less than this off the depth is not said as a new depth (common practice, no source)."""
SEEN_MM2 = 1.0
"""Less than this of an old fitting's mark does not count as seen (common practice, no source)."""
UNPRICED_WORK = (
    ("stripping", frozenset({"strip a drum"})),
    ("cleaning", frozenset({"soak and clean a lug", "clean a hoop"})),
    ("tuning", frozenset({"tune a drum"})),
)
"""Work round every job, and the operations that stand for it when it is priced."""
MM2_A_CM2 = 100.0
MM2_A_SQUARE_INCH = 645.16


def cut_for_good(scheme: Scheme, *, say: Lengths) -> list[str]:
    """What is cut or glued and cannot be undone, a phrase each; nothing where nothing is."""
    layout = scheme.layout
    found = Counter(plan.verdict for plan in layout.holes)
    drilled = found[Verdict.DRILL] + found[Verdict.PLUG_AND_DRILL]
    wood = layout.drum.material is Material.WOOD
    with_wood = " with wood" if wood else ""
    said = [
        (drilled, f"{count(drilled, 'new hole')} drilled"),
        (found[Verdict.ENLARGE], f"{count(found[Verdict.ENLARGE], 'old hole')} made larger"),
        (found[Verdict.SLOT], f"{count(found[Verdict.SLOT], 'old hole')} made longer"),
        (found[Verdict.PLUG], f"{count(found[Verdict.PLUG], 'old hole')} closed{with_wood}"),
    ]
    return [phrase for number, phrase in said if number] + cut_besides_holes(scheme, say=say)


def cut_besides_holes(scheme: Scheme, *, say: Lengths) -> list[str]:
    """What else is for good: the ends, edges and rings, the finish."""
    layout = scheme.layout
    work = Counter({line.operation: line.count for line in scheme.work})
    return _off_the_depth(layout, work, say=say) + _made(work) + _new_outside(layout)


def _off_the_depth(layout: Layout, work: Counter[str], *, say: Lengths) -> list[str]:
    """What is sawn or trued off the ends, with the depth where the rule would see it."""
    before, after = layout.drum.depth_mm, layout.flat.depth_mm
    lost = before - after
    deep = f"from {say.length(layout.drum.depth_read_mm)} to {say.length(after)} deep"
    if work["cut an end off"]:
        return [f"the shell cut down {deep}" if lost >= SEEN_DEPTH_MM else "an end cut off"]
    if lost > CUT_DOWN_MM:
        return [f"the shell cut down {deep}"]
    if lost >= SEEN_DEPTH_MM:
        return [f"{_trued(layout)} trued, the shell {deep}"]
    if work["true an edge"] or layout.truing.any:
        return ["both edges trued" if work["true an edge"] > 1 else f"{_trued(layout)} trued"]
    return []


def _made(work: Counter[str]) -> list[str]:
    """What is cut into the shell or glued into it besides holes."""
    said = [
        ("make an edge", "new bearing edge", "cut"),
        ("glue in a ring", "ring", "glued in"),
        ("cut a snare bed", "snare bed", "cut"),
    ]
    return [
        f"a {noun} {how}" if work[name] == 1 else f"{count(work[name], noun)} {how}"
        for name, noun, how in said
        if work[name]
    ]


def _new_outside(layout: Layout) -> list[str]:
    """The old finish, where it does not stay."""
    if layout.finish.kind == "stays":
        return []
    old = layout.drum.finish.kind
    if old != "bare":
        return [f"the old {old} taken off"]
    how = {"clear lacquer": "lacquered", "paint": "painted", "new wrap": "wrapped"}
    return [f"the bare shell {how[layout.finish.kind]}"]


def holes_added(scheme: Scheme) -> str:
    """New holes, what is closed or goes with an offcut, and the difference.

    Old holes that are enlarged or slotted are neither; one plugged by an earlier owner is no hole.
    """
    layout = scheme.layout
    found = Counter(plan.verdict for plan in layout.holes)
    drilled = found[Verdict.DRILL] + found[Verdict.PLUG_AND_DRILL]
    plugged = {h.number for h in layout.drum.holes if h.condition in PLUGGED_BEFORE}
    closed = sum(p.verdict is Verdict.PLUG and p.number not in plugged for p in layout.holes)
    there = plugged | {plan.number for plan in layout.holes}
    sawn = sum(h.number not in there for h in layout.drum.holes)
    said = [
        (drilled, count(drilled, "new hole")),
        (closed, f"{closed} closed"),
        (sawn, f"{sawn} cut away with the offcut"),
    ]
    phrases = [phrase for number, phrase in said if number]
    if not phrases:
        return "None."
    if not drilled:
        return f"None; {listed(phrases)}."
    net = drilled - closed - sawn
    if net == 0:
        return f"{', '.join(phrases)}: as many as the drum has now."
    more = "more" if net > 0 else "fewer"
    return f"{', '.join(phrases)}: {abs(net)} {more} than the drum has now."


def seen_afterwards(scheme: Scheme, *, say: Lengths) -> str:
    """What is new outside afterwards, and what shows of holes and marks beside it."""
    shows, new = what_shows(scheme, say=say), _new_to_see(scheme.layout)
    if not new:
        return shows
    if shows != NOTHING:
        return f"{listed(new)}; {shows.removeprefix('nothing: ')}"
    under = sum(p.verdict in CLOSED and p.covered for p in scheme.layout.holes)
    closed = f"{count(under, 'closed hole')} under fittings, " if under else ""
    return f"{listed(new)}; {closed}no bare plug, open hole or old mark"


def _new_to_see(layout: Layout) -> list[str]:
    """Fittings that stand where none of them stood, lugs by the head that they serve."""
    sides = {"batter": " on the batter side", "resonant": " on the resonant side"}
    new = Counter(
        f"new {f.fitting.kind}" + sides.get(f.row, "") if f.label not in layout.put_on_again
        else f"moved {f.fitting.kind}"
        for f in layout.fittings
        if f.status == "new" and f.fitting.kind in SEEN_OUTSIDE
    )  # fmt: skip
    return [_before(number, words) for words, number in new.items()]


def _before(number: int, words: str) -> str:
    noun, on, side = words.partition(" on ")
    return f"{count(number, noun)}{on}{side}"


def what_shows(scheme: Scheme, *, say: Lengths) -> str:
    """What of holes and old marks will be seen from outside afterwards."""
    layout = scheme.layout
    if layout.finish.hides_plugs:
        return "nothing: the new finish covers closed holes and old marks"
    plugs = sum(p.verdict in CLOSED and not p.covered for p in layout.holes)
    opened = sum(_open_to_see(p, layout) for p in layout.holes)
    marks = seen_marks(layout)
    wood = layout.drum.material is Material.WOOD
    said = [
        (plugs, count(plugs, "wood plug" if wood else "closed hole")),
        (opened, f"{count(opened, 'open hole')} that nothing covers"),
        (
            marks,
            "the mark of an old fitting" if marks == 1 else f"the marks of {marks} old fittings",
        ),
    ]
    phrases = [phrase for number, phrase in said if number]
    if not phrases:
        return NOTHING
    return f"{listed(phrases)}, {_area(scheme.criteria.shows_mm2, say=say)} in all"


def seen_marks(layout: Layout) -> int:
    """How many marks of old fittings are not wholly covered."""
    covers = tuple((f.outline, f.place) for f in layout.standing if f.outline is not None)
    marks = tuple((mark.outline, mark.place) for mark in layout.marks)
    seen = each_uncovered_mm2(marks, covers, surface=layout.flat.surface)
    return sum(mm2 > SEEN_MM2 for mm2 in seen)


def hidden(scheme: Scheme) -> str:
    """What is there and is not seen."""
    under = sum(
        p.covered and p.verdict not in (Verdict.KEEP, Verdict.LEAVE_OPEN)
        for p in scheme.layout.holes
    )
    inside = sum(p.verdict in CLOSED for p in scheme.layout.holes)
    said = []
    if under:
        lie = "lies" if under == 1 else "lie"
        said.append(f"{count(under, 'cut or closed hole')} {lie} under fittings.")
    if inside:
        can = "The closed hole can" if inside == 1 else f"The {inside} closed holes can"
        said.append(f"{can} be found inside the shell.")
    return " ".join(said) or "Nothing."


def can_be_undone(scheme: Scheme) -> list[str]:
    """What is only bolted on or taken off, a sentence each."""
    layout = scheme.layout
    new = Counter(f.fitting.name for f in layout.fittings if f.status == "new")
    goes = [f for f in layout.fittings if f.status == "goes"]
    off = Counter(f.fitting.name for f in goes)
    left = [f"{off[name] - new[name]} x {name}" for name in off if 0 < new[name] < off[name]]
    bag = [labels((f.label for f in goes if not new[f.fitting.name]), numbered=False), *left]
    each_off = listed([words for words in bag if words])
    new.update(h.hoop.name for h in layout.hoops if h.new)
    said = []
    if new:
        each = listed([f"{number} x {name}" for name, number in new.items()])
        said.append(f"Bolted on, and comes off again: {each}.")
    if each_off:
        said.append(f"Comes off, stays yours and goes with the drum in a bag: {each_off}.")
    return said


def in_a_line(scheme: Scheme, *, say: Lengths) -> str:
    """The scheme in one sentence, for those that are compared."""
    cut = listed(cut_for_good(scheme, say=say)) or "nothing cut"
    return f"{_sentence(cut)} Seen afterwards: {seen_afterwards(scheme, say=say)}."


def not_in_the_price(scheme: Scheme) -> str:
    """What a drum needs besides, and no line of the price holds."""
    layout = scheme.layout
    priced = {line.operation for line in scheme.work}
    without = []
    if layout.finish.kind == "new wrap":
        without.append("the new wrap itself")
    bare = [head for head in heads_of(layout) if head.hoop is None]
    if any(lug.status == "new" for head in bare for lug in head.lugs):
        without.append("hoops and rods, which are not chosen yet")
    without.append("heads, screws and washers")
    work = [word for word, names in UNPRICED_WORK if not priced & names]
    return f"Not in this price: {'; '.join([*without, *([listed(work)] if work else [])])}."


def _trued(layout: Layout) -> str:
    both = Removal() not in (layout.truing.batter, layout.truing.resonant)
    return "both edges" if both else "one edge"


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def _open_to_see(plan: HolePlan, layout: Layout) -> bool:
    if plan.verdict is not Verdict.LEAVE_OPEN or plan.covered:
        return False
    purpose = next((h.purpose for h in layout.drum.holes if h.number == plan.number), "")
    return "vent" not in f"{purpose} {plan.serves}".casefold()


def _area(mm2: float, *, say: Lengths) -> str:
    if say.units == "in":
        size, unit = mm2 / MM2_A_SQUARE_INCH, "square inch"
    else:
        size, unit = mm2 / MM2_A_CM2, "square centimetre"
    if size < 1.0:
        return f"less than one {unit}"
    whole = round(size)
    return (
        f"about {count(whole, unit) if unit.endswith('e') or whole == 1 else f'{whole} {unit}es'}"
    )
