"""What the commands print of pitches and of what was heard."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterhoop.cli.text import wrapped
from counterhoop.heads.tension import print_tension
from counterhoop.heads.turns import in_turns
from counterhoop.quantities.print_pitch import print_pitch

if TYPE_CHECKING:
    from counterhoop.bench.tune.heard import Heard, StrokeHeard
    from counterhoop.bench.tune.kit_pitches import DrumPitches, KitPitches
    from counterhoop.heads.kit import HeadPlan
    from counterhoop.listen.advice import Advice


EACH = "Each stroke, and the lowest tone of it alone:"
GUIDES = (
    "Forces are those of an even head, and in brackets while it is tightened. Torque is a guide"
    " only: at that torque a rod pulls a third more or less. Turns are from finger-tight and a"
    " start: listen at every sixteenth from there."
)


def kit_text(kit: KitPitches) -> str:
    """The plan of a kit, drum by drum from the lowest, each head with its guides."""
    lines: list[str] = []
    for one in kit.drums:
        lines += [*_drum(one), ""]
    planned = [one.planned for one in kit.drums if one.planned is not None]
    standing = dict.fromkeys(said for one in planned for said in one.says[1:])
    closing = [*kit.refusals, *standing, *kit.says]
    if planned:
        closing.append(GUIDES)
    for said in closing:
        lines += wrapped(said, indent=0)
    return "\n".join(lines)


def _drum(one: DrumPitches) -> list[str]:
    if one.planned is None:
        return [f"{one.key}: no plan, see below"]
    mark = "  [as wished]" if one.planned.wished else ""
    lines = [f"{one.key}: {one.planned.note} struck in the middle{mark}"]
    for head in one.planned.heads:
        lines += wrapped(_head(head, one), indent=2)
    for said in one.tune.assumed:
        lines += wrapped(said, indent=2)
    return lines


def _head(head: HeadPlan, drum: DrumPitches) -> str:
    parts = [
        f"{head.note} near each rod",
        print_tension(head.n_per_m),
        f"{_tens(head.force.n)} N a rod ({_tens(head.force.most_n)})",
    ]
    if head.torque is not None:
        parts.append(f"{max(head.torque.nm, 0.1):.1f} N m")
    rods = drum.tune.rods(head.head)
    if head.start is not None and rods is not None:
        more = " or more" if head.start.at_least else ""
        parts.append(f"{in_turns(head.start.turns)}{more} on {rods.thread.designation}")
    order = "-".join(map(str, head.order))
    return f"{head.head}: {', '.join(parts)}, in the order {order}"


def _tens(force_n: float) -> int:
    return round(force_n / 10.0) * 10


def heard_text(heard: Heard) -> str:
    """What was heard: strokes one by one, what they say together, what to turn."""
    lines = [*(line for said in heard.sound_says for line in wrapped(said, indent=0))]
    lines += [EACH] if any(one.hz is not None for one in heard.strokes) else []
    lines += [line for one in heard.strokes for line in _stroke(one)]
    for place in heard.also:
        lines += ["", *wrapped(f"From another place of the phone, {place.name}:", indent=0)]
        lines += [line for said in place.sound_says for line in wrapped(said, indent=0)]
        lines += [line for one in place.strokes for line in _stroke(one)]
        lines += wrapped(f"Left out: {place.refusal}", indent=0) if place.refusal else []
    if heard.refusal:
        return "\n".join(lines)
    lines.append("")
    rim = heard.rim
    if rim is not None and rim.mean_hz is not None:
        doubt = rim.mean_doubt_hz or 0.0
        lines += wrapped(
            f"Round the rim: {print_pitch(rim.mean_hz)}"
            f"{f', give or take {doubt:.1f} Hz' if doubt >= 0.05 else ''}, by taps at"
            f" {len({tap.rod for tap in rim.taps})} rods; the reading is {rim.quality}.",
            indent=0,
        )
    elif heard.hz is not None:
        lines += wrapped(_lowest(heard), indent=0)
    said = list(rim.says) if rim is not None else []
    if heard.advice is not None:
        said += heard.order_says
        said += heard.advice.sentences
        said += [heard.advice.expected] if heard.advice.expected else []
    elif rim is not None:
        said += rim.ask
    for one in dict.fromkeys(said):
        lines += wrapped(one, indent=0)
    if heard.advice is not None:
        lines += _beside(heard.advice)
    return "\n".join(lines)


def _beside(advice: Advice) -> list[str]:
    """What is not to be done now: what waits, and what is behind it."""
    lines: list[str] = []
    for lead, *rest in filter(None, (advice.staying, advice.later)):
        lines += ["", *wrapped(lead, indent=0)]
        lines += [line for said in rest for line in wrapped(said, indent=2)]
    behind = [
        line for said in (*advice.because, *advice.unknown) for line in wrapped(said, indent=0)
    ]
    return [*lines, "", *behind] if behind else lines


def _lowest(heard: Heard) -> str:
    """Say the pitch of strokes that are read each for itself."""
    count = sum(one.hz is not None for one in heard.strokes)
    assert heard.hz is not None
    if count == 1:
        return f"Its lowest tone: {print_pitch(heard.hz)}."
    return f"The middle one of the lowest tones of {count} strokes: {print_pitch(heard.hz)}."


def _stroke(one: StrokeHeard) -> list[str]:
    at = f"{one.number:3d}  at {one.starts_s:6.2f} s"
    near = f"  rod {one.rod:2d}" if one.rod else ""
    if one.dropped:
        return wrapped(f"{at}  left out: {one.dropped}", indent=0)
    if one.hz is None:
        why = one.says[-1] if one.says else "no tone is sure."
        return wrapped(f"{at}{near}  no pitch of its own: {why}", indent=0)
    # All to one decimal: 211 beside 215.2 would look like another sort of figure.
    return [f"{at}{near}  {one.hz:.1f} Hz  {one.quality}"]
