"""How a template is used: the words on its first sheet."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from counterhoop.development.surface import Surface
from counterhoop.fittings.entry import Kind
from counterhoop.papers.drawing.view import LEAST_SWING_MM
from counterhoop.papers.tiles import Tiling
from counterhoop.scheme.layout import Layout
from counterhoop.scheme.verdict import HolePlan, Verdict

STAYING = (Verdict.KEEP, Verdict.LEAVE_OPEN)
SEEN = (Verdict.ENLARGE, Verdict.SLOT)
MOST_TRIED = 40


def in_place(layout: Layout) -> tuple[tuple[int, ...], str]:
    """Name the old holes that tell whether the template lies where it should.

    Returns
    -------
    numbers, sentence
        Three holes that stay, as far apart round the shell as there are; holes that are enlarged
        or slotted serve too, by their old outline. Without any, the datum and plugs must do.
    """
    surface = layout.flat.surface
    staying = [plan for plan in layout.holes if plan.verdict in STAYING and plan.old is not None]
    if len(staying) < 3:
        staying += [p for p in layout.holes if p.verdict in SEEN and p.old is not None]
    chosen = far_apart(staying, surface=surface)
    numbers = tuple(sorted(plan.number for plan in chosen))
    if len(numbers) >= 3:
        named = f"{', '.join(str(n) for n in numbers[:-1])} and {numbers[-1]}"
        covered = (
            " The new wrap covers them: push a pin out through their middles from inside."
            if layout.finish.kind == "new wrap"
            else ""
        )
        return numbers, (
            f"Drill only when the three named marks, {named}, fall on their holes within 0.5 mm."
            f"{covered}"
        )
    plugged = [plan for plan in layout.holes if plan.verdict is Verdict.PLUG]
    more = far_apart(plugged, surface=surface)[: 3 - len(numbers)]
    also = ", ".join(str(plan.number) for plan in sorted(more, key=lambda p: p.number))
    start = ""
    if numbers:
        start = (
            f"Only {'hole' if len(numbers) == 1 else 'holes'} "
            f"{' and '.join(str(n) for n in numbers)} can tell whether the template lies right. "
        )
    elif layout.drum.holes:
        start = "No hole stays. "
    rest = "Lay the 0 line on the datum, carried over the edge with a square"
    if also:
        rest += f"; the old holes or plugs at {also} must lie under their marks"
    return numbers, f"{start}{rest}. Drill only when all agree within 0.5 mm."


def far_apart(plans: Sequence[HolePlan], *, surface: Surface) -> tuple[HolePlan, ...]:
    """Up to three holes whose least distance from each other along the shell is greatest."""
    some = sorted(plans, key=lambda p: (p.place.along_deg, p.place.down_mm))
    if len(some) > MOST_TRIED:
        some = [some[i * len(some) // MOST_TRIED] for i in range(MOST_TRIED)]
    if len(some) <= 3:
        return tuple(some)

    def spread(three: tuple[HolePlan, ...]) -> float:
        return min(
            abs(surface.apart_mm(a.place.along_deg, b.place.along_deg))
            for a, b in combinations(three, 2)
        )

    return max(combinations(some, 3), key=spread)


def joining_steps(tiling: Tiling) -> tuple[str, ...]:
    """How sheets become one strip."""
    first = (
        'Print at "actual size", 100 %. Lay a steel rule on both check bars of every sheet: '
        "100 mm, to half a millimetre over all sheets. If one is off, print the check sheet."
    )
    if len(tiling.tiles) == 1:
        return (first, closing_sentence(tiling))
    along = (
        "Cut each sheet along its left line, lay it over the sheet before it, its edge on the "
        "thin line through the circles, half circles making whole ones; tape."
    )
    steps = [first, along]
    if tiling.rows > 1:
        steps.append(
            "Make each line of sheets first. Then cut the lower lines of sheets along their upper "
            "line and lay them on in the same way."
        )
    steps.append(
        "Each sheet prints its distance from the datum at both its edges: check them with one "
        "long rule laid from 0, so that small errors are seen and not added up."
    )
    return (*steps, closing_sentence(tiling))


def closing_sentence(tiling: Tiling) -> str:
    """The length that must come out before anything is drilled."""
    return (
        "From the left edge of the first sheet to the closing line the strip must measure "
        f"{tiling.closing_mm:.1f} mm; round the shell the two must meet."
    )


def shell_steps(layout: Layout, *, registration: str) -> tuple[str, ...]:
    """What is done at the shell, in order."""
    kinds = {plan.fitting.kind for plan in layout.standing}
    lugs = bool(kinds & {Kind.LUG, Kind.LONG_LUG})
    staying = {plan.fitting.kind for plan in layout.fittings if plan.status == "stays"}
    out = [word for word, kind in OBSTACLES if kind in staying]
    if any(p.verdict is Verdict.LEAVE_OPEN for p in layout.holes) and "vent" not in out:
        out.append("vent")
    steps = [
        "Cut along the batter edge line. Printed side out, batter edge toward the plate: stand "
        "the shell's batter edge on the flat plate and wrap the paper round it, its cut edge "
        "touching the plate all round. Heights count from the plate, not from the visible skin.",
    ]
    if out:
        steps.append(
            f"Cut openings for what stays on the shell ({words_and(out)}), so that the paper "
            "lies flat on the skin."
        )
    steps.append(
        "Turn the strip until the 0 line lies on the datum, and close it: the closing line "
        "meets the strip's left edge. " + registration
    )
    if layout.flat.swings_mm()[1] > LEAST_SWING_MM:
        steps.append(
            "The edges are not parallel, so the resonant edge's line waves: turned right, it "
            "follows the shell's edge all round."
        )
    if lugs:
        steps.append(
            "Put the hoop on: each ear must stand over its row line. If one does not, stop "
            "and measure again."
        )
    steps += [
        "Mark every centre through the paper with a sharp point.",
        "Pilot 2 to 3 mm, square to the skin, with a block shaped to the bore held hard inside. "
        "Then open up to size, still on the block.",
    ]
    if lugs:
        steps.append(
            "Drill one lug first. Offer up lug, hoop and rod. Only when the rod turns in freely "
            "drill the rest."
        )
    return tuple(steps)


OBSTACLES = (
    ("badge", Kind.BADGE),
    ("vent", Kind.VENT),
    ("bracket", Kind.BRACKET),
    ("strainer", Kind.STRAINER),
    ("butt", Kind.BUTT),
)


def words_and(words: Sequence[str]) -> str:
    """Join words as one says them.

    Examples
    --------
    >>> words_and(["badge", "vent", "bracket"])
    'badge, vent and bracket'
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
