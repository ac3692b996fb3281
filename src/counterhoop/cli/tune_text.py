"""What the commands print of pitches and of what was heard."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterhoop.cli.text import wrapped
from counterhoop.quantities.print_pitch import print_hz, print_pitch

if TYPE_CHECKING:
    from counterhoop.bench.tune.heard import Heard, StrokeHeard
    from counterhoop.bench.tune.kit_pitches import DrumPitches, KitPitches


def kit_text(kit: KitPitches) -> str:
    """The plan of a kit, drum by drum from the lowest, each head with its guides."""
    lines: list[str] = []
    for one in kit.drums:
        lines += [*_drum(one), ""]
    for said in (*kit.refusals, *kit.says):
        lines += wrapped(said, indent=0)
    return "\n".join(lines)


def _drum(one: DrumPitches) -> list[str]:
    if one.planned is None:
        return [f"{one.key}: {one.tune.what}", "  no plan: see below"]
    mark = "  [as wished]" if one.planned.wished else ""
    lines = [f"{one.key}: {one.planned.note} struck in the middle{mark}"]
    for head in one.planned.heads:
        order = "-".join(map(str, head.order))
        lines += wrapped(f"{head.head}: {' '.join(head.says)} Order of rods {order}.", indent=2)
    for said in (*one.planned.says[1:], *one.tune.assumed):
        lines += wrapped(said, indent=2)
    return lines


def heard_text(heard: Heard) -> str:
    """What was heard: strokes one by one, what they say together, what to turn."""
    lines = [*(line for said in heard.sound_says for line in wrapped(said, indent=0))]
    lines += [_stroke(one) for one in heard.strokes]
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
        lines += wrapped(f"Its lowest tone: {print_pitch(heard.hz)}.", indent=0)
    said = list(rim.says) if rim is not None else []
    if heard.advice is not None:
        said += heard.advice.sentences
        said += [heard.advice.expected] if heard.advice.expected else []
        said += heard.advice.unknown
    elif rim is not None:
        said += rim.ask
    for one in dict.fromkeys(said):
        lines += wrapped(one, indent=0)
    return "\n".join(lines)


def _stroke(one: StrokeHeard) -> str:
    at = f"{one.number:3d}  at {one.starts_s:6.2f} s"
    near = f"  rod {one.rod:2d}" if one.rod else ""
    if one.dropped:
        return f"{at}  left out: {one.dropped}"
    if one.hz is None:
        why = one.says[-1] if one.says else "no tone is sure."
        return f"{at}{near}  no pitch of its own: {why}"
    return f"{at}{near}  {print_hz(one.hz, resolution_cents=1.0)}  {one.quality}"
