"""The order of work of the trade, kept to what a scheme needs."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from counterhoop.development.shape import Round
from counterhoop.development.truing import Removal
from counterhoop.fittings.entry import Kind
from counterhoop.papers.facts import Lengths, holes_said, labels, listed
from counterhoop.papers.truing_words import says_truing
from counterhoop.quantities.angle import print_deg
from counterhoop.scheme.heads import heads_of
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.price import BY_KIND
from counterhoop.scheme.verdict import HolePlan, Verdict
from counterhoop.shell.drum import Material
from counterhoop.shell.shop_rules import ShopFigures
from counterhoop.sources import load_table

PACKAGE = "counterhoop.papers"
LUGS = (Kind.LUG, Kind.LONG_LUG)
LOOSE = frozenset({"lifted ply", "crack"})
"""Lines of a survey that are glued, one place each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """One operation of a step: how often, how long; ``priced`` where the scheme's price has it."""

    operation: str
    times: int
    minutes: float
    cure_hours: float
    priced: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the work.

    Attributes
    ----------
    key : str
        Which sort of step; cautions go by it.
    heading, says : str
        What is done, and how; ``says`` is empty where advice for wood does not apply.
    lines : tuple of str
        What exactly on this drum: holes by number and size, fittings by name.
    done : tuple of Done
        Operations with their minutes.
    """

    key: str
    heading: str
    says: str
    lines: tuple[str, ...]
    done: tuple[Done, ...]

    @property
    def minutes(self) -> float:
        """Minutes in the scheme's price."""
        return sum(d.minutes for d in self.done if d.priced)

    @property
    def unpriced_minutes(self) -> float:
        """Usual minutes of work that the scheme's price leaves out."""
        return sum(d.minutes for d in self.done if not d.priced)

    @property
    def cure_hours(self) -> float:
        """Hours to leave it alone afterwards."""
        return max((d.cure_hours for d in self.done), default=0.0)


def needs_of(scheme: Scheme) -> frozenset[str]:
    """Return what holds of a scheme, in the words that the tables use under "when"."""
    return frozenset(word for word, holds in asked_of(scheme).items() if holds)


def asked_of(scheme: Scheme) -> dict[str, bool]:
    """Return every word that the tables may use under "when", and whether it holds."""
    layout = scheme.layout
    drum, finish = layout.drum, layout.finish
    verdicts = {plan.verdict for plan in layout.holes}
    work = {line.operation for line in scheme.work}
    lines = {line.kind for line in drum.lines}
    wood = drum.material is Material.WOOD
    read = [drum.readings.at(head.head) for head in heads_of(layout)]
    return {
        "always": True,
        "wood": wood,
        "not wood": not wood,
        "plugs": Verdict.PLUG in verdicts,
        "drills": any(v.drills for v in verdicts),
        "enlarges": bool(verdicts & {Verdict.ENLARGE, Verdict.SLOT}),
        "cuts": any(v.cuts for v in verdicts),
        "shortens": "cut an end off" in work,
        "trues": "true an edge" in work,
        "edges": layout.truing.any or bool(work & {"true an edge", "make an edge"}),
        "beds": "cut a snare bed" in work,
        "both edges": _edges(scheme) > 1,
        "loose plies": "glue a lifted ply" in work or bool(lines & LOOSE),
        "ring": "glue in a ring" in work,
        "takes wrap off": "take a wrap off" in work
        or (finish.kind != "stays" and drum.finish.kind == "wrap"),
        "old wrap": drum.finish.kind == "wrap",
        "wrapped": finish.kind == "new wrap"
        or (finish.kind == "stays" and drum.finish.kind == "wrap"),
        "old paint": drum.finish.kind in ("paint", "lacquer"),
        "new wrap": finish.kind == "new wrap",
        "under wrap": finish.kind == "new wrap"
        and bool(verdicts & {Verdict.KEEP, Verdict.LEAVE_OPEN} or any(v.cuts for v in verdicts)),
        "finished": finish.kind in ("clear lacquer", "paint"),
        "stays": finish.kind == "stays",
        "round unread": any(end.across is None and end.radii is None for end in read),
        "flat unread": wood and any(end.edge is None for end in read),
    }


def _looks(layout: Layout) -> str:
    """How a bare plug is made to look, by what is outside afterwards."""
    if layout.finish.hides_plugs:
        return "dead flush, or they print through the new finish"
    old = layout.drum.finish.kind
    if layout.finish.kind == "stays" and old in ("wrap", "paint"):
        return f"tone or patch it to the {old}"
    return "match the grain"


def order_of_work(scheme: Scheme, *, figures: ShopFigures, say: Lengths) -> tuple[Step, ...]:
    """Return the steps that a scheme needs, in the order of the trade.

    Every operation of the scheme is in exactly one step; operations without a step stand at the
    end under their own name, so that no priced minute is lost.
    """
    needs = needs_of(scheme)
    left = {line.operation: line for line in scheme.work}
    steps = []
    for row in load_table(PACKAGE, "order_of_work.toml"):
        values = row.values
        if not needs.issuperset(values["when"]) or needs & set(values.get("unless", ())):
            continue
        done = []
        for name in values["operations"]:
            line = left.pop(name, None)
            if line is not None:
                done.append(
                    Done(
                        operation=name,
                        times=line.count,
                        minutes=line.minutes,
                        cure_hours=line.cure_hours,
                        priced=True,
                    )
                )
            if (times := _usual(name, scheme) - (line.count if line else 0)) > 0:
                done.append(_unpriced(name, times, figures))
        advice = bool(not values.get("wood_only") or "wood" in needs)
        steps.append(
            Step(
                key=values["key"],
                heading=values["heading"],
                says=values["says"] if advice else "",
                lines=tuple(_lines(values["key"], scheme, say=say)),
                done=tuple(done),
            )
        )
    steps += [
        Step(
            key="other",
            heading=line.operation.capitalize(),
            says="",
            lines=(),
            done=(
                Done(
                    operation=line.operation,
                    times=line.count,
                    minutes=line.minutes,
                    cure_hours=line.cure_hours,
                    priced=True,
                ),
            ),
        )
        for line in left.values()
    ]
    return tuple(steps)


def not_checked(scheme: Scheme) -> tuple[str, ...]:
    """Return what nobody has looked at yet, one sentence each."""
    needs = needs_of(scheme)
    rows = load_table(PACKAGE, "not_checked.toml")
    return tuple(r.values["says"] for r in rows if needs.issuperset(r.values["when"]))


def by_size(plans: Iterable[HolePlan], *, say: Lengths, plug: bool = False) -> list[str]:
    """Return lines such as "6.5 dia: holes 2, 4", small sizes first."""
    groups: dict[str, list[HolePlan]] = defaultdict(list)
    for plan in sorted(plans, key=lambda p: (_diameter(p, plug=plug), p.number)):
        groups[_size(plan, say=say, plug=plug)].append(plan)
    return [f"{size}: {holes_said(found)}" for size, found in groups.items()]


def _lines(key: str, scheme: Scheme, *, say: Lengths) -> list[str]:
    layout = scheme.layout
    match key:
        case "strip":
            return _strip_lines(scheme)
        case "glue":
            return [
                f"{line.kind.capitalize()} at {print_deg(line.along_deg)} along,"
                f" {say.length(line.from_mm)} to {say.length(line.to_mm)} down, as found."
                for line in layout.drum.lines
                if line.kind in LOOSE
            ]
        case "plug":
            plugs = [p for p in layout.holes if p.verdict is Verdict.PLUG]
            lines = [f"{line}." for line in by_size(plugs, say=say, plug=True)]
            bare = [p for p in plugs if not p.covered]
            if bare and "wood" in needs_of(scheme):
                lines.append(f"Nothing covers {holes_said(bare)}: {_looks(layout)}.")
            return lines
        case "cut" | "edge":
            again = key == "edge" and "shortens" in needs_of(scheme)
            return [] if again else says_truing(scheme, say=say)
        case "wrap":
            by = "Cut, seam and times by the wrap list." if layout.finish.wrap else ""
            return [by or "Choose where the seam goes before the first cut."]
        case "drill":
            return _drill_lines(layout, say=say)
        case "fit":
            return _fit_lines(scheme)
        case "build up":
            new = [f"{h.hoop.name} on the {h.head} side" for h in layout.hoops if h.new]
            return [f"New: {listed(new)}."] if new else []
        case "hand over":
            wrap = needs_of(scheme) & {"takes wrap off", "new wrap"}
            return ["An offcut of the wrap goes with the drum."] if wrap else []
    return []


def _strip_lines(scheme: Scheme) -> list[str]:
    again = scheme.layout.put_on_again
    goes = [f.label for f in scheme.layout.fittings if f.status == "goes"]
    off = [label for label in goes if label not in again]
    moved = [label for label in goes if label in again]
    lines = [f"Not going back on: {labels(off)}."] if off else []
    return [*lines, f"Going back on elsewhere: {labels(moved)}."] if moved else lines


def _edges(scheme: Scheme) -> int:
    """How many ends are worked on: those that lose something, or as many as are counted."""
    truing = scheme.layout.truing
    ends = sum(removal != Removal() for removal in (truing.batter, truing.resonant))
    counts = [w.count for w in scheme.work if w.operation in ("true an edge", "make an edge")]
    return max([ends, *counts])


def _drill_lines(layout: Layout, *, say: Lengths) -> list[str]:
    holes = layout.holes
    lines = []
    if layout.finish.kind == "new wrap":
        under = [p for p in holes if p.verdict in (Verdict.KEEP, Verdict.LEAVE_OPEN)]
        lines += [
            f"Open through the wrap, as in the wood, {line}." for line in by_size(under, say=say)
        ]
    fresh = [p for p in holes if p.verdict is Verdict.DRILL]
    lines += [f"Drill {line}." for line in by_size(fresh, say=say)]
    through = [p for p in holes if p.verdict is Verdict.PLUG_AND_DRILL]
    lines += [f"Through the cured plugs, last: {line}." for line in by_size(through, say=say)]
    wider = [p for p in holes if p.verdict is Verdict.ENLARGE]
    lines += [f"Enlarge to {line}." for line in by_size(wider, say=say)]
    slots = [p for p in holes if p.verdict is Verdict.SLOT]
    lines += [f"File to {line}." for line in by_size(slots, say=say)]
    washers = [p for p in holes if p.backing_washer_mm is not None]
    if washers:
        lines.append(f"Backing washers inside: {holes_said(washers)}.")
    return lines


def _fit_lines(scheme: Scheme) -> list[str]:
    layout = scheme.layout
    again = layout.put_on_again
    placed = [f for f in layout.fittings if f.status == "new"]
    new = Counter(f.fitting.name for f in placed if f.label not in again)
    moved = [f.label for f in placed if f.label in again]
    back = [f.label for f in layout.fittings if f.status == "stays"]
    lines = [f"New: {listed([f'{n} {name}' for name, n in new.items()])}."] if new else []
    lines += [f"The drum's own, in new holes: {labels(moved)}."] if moved else []
    return [*lines, f"Back in their own holes: {labels(back)}."] if back else lines


def _usual(operation: str, scheme: Scheme) -> int:
    """How often work is usual that no scheme is priced with."""
    layout = scheme.layout
    again = layout.put_on_again
    back = [f.fitting.kind for f in layout.standing if f.status == "stays"]
    # What was bought new is fitted, not soaked.
    came = [f.fitting.kind for f in layout.standing if f.status == "stays" or f.label in again]
    wood = layout.drum.material is Material.WOOD
    return {
        "photograph and book in": 1,
        "survey a drum": 1,
        "strip a drum": 1,
        "glue a lifted ply": sum(line.kind in LOOSE for line in layout.drum.lines) if wood else 0,
        "soak and clean a lug": sum(kind in LUGS for kind in came),
        "clean a hoop": sum(not hoop.new for hoop in layout.hoops),
        "refit a lug": sum(kind in LUGS for kind in back),
        "refit a fitting": sum(kind in BY_KIND and kind not in LUGS for kind in back),
        "put on hoop and head": len(layout.hoops),
        "tune a drum": 1,
        "pack a drum": 1,
    }.get(operation, 0)


def _unpriced(name: str, times: int, figures: ShopFigures) -> Done:
    return Done(
        operation=name,
        times=times,
        minutes=times * dict(figures.minutes).get(name, 0.0),
        cure_hours=dict(figures.cure_hours).get(name, 0.0),
        priced=False,
    )


def _size(plan: HolePlan, *, say: Lengths, plug: bool) -> str:
    if plug and plan.plug_mm is not None:
        return f"Plug {say.diameter(plan.plug_mm)}"
    shape = plan.old if plug else plan.new
    size, beside = say.size(shape)
    said = f"{size} ({beside})" if beside else size
    if not plug:
        return said
    return f"Plug {said}" if isinstance(shape, Round) else f"Patch for {said}"


def _diameter(plan: HolePlan, *, plug: bool) -> float:
    if plug and plan.plug_mm is not None:
        return plan.plug_mm
    shape = plan.old if plug else plan.new
    return 0.0 if shape is None else max(shape.size_mm)


def counted(step: Step) -> list[str]:
    """Say what is done how often: "14 x plug a hole"."""
    return [f"{d.times} x {d.operation}" for d in step.done]
