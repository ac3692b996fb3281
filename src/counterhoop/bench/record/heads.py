"""The heads of a drum as it goes, and what was heard of them last."""

from __future__ import annotations

from counterhoop.bench.plan_job import DrumPlan
from counterhoop.bench.tune.heads_written import head_of
from counterhoop.bench.tune.kept_reading import from_json
from counterhoop.development.flat import End
from counterhoop.errors import BadInput
from counterhoop.papers.handover_record import HeadLeft
from counterhoop.quantities.day import say_day
from counterhoop.quantities.pitch import A4_HZ
from counterhoop.quantities.print_pitch import print_cents, print_pitch
from counterhoop.shell.job import Job
from counterhoop.shell.tuning import HeadSaid, ReadingKept, Tuning

ENDS: tuple[End, ...] = ("batter", "resonant")


def heads_left(job: Job, plan: DrumPlan) -> tuple[HeadLeft, ...]:
    """Return each head of which something is written, with its pitch as it goes."""
    tuning = plan.wanted.tuning
    if tuning is None:
        return ()
    a4_hz = job.kit.a4_hz if job.kit is not None else A4_HZ
    found = [_head(tuning, end, a4_hz=a4_hz) for end in ENDS]
    return tuple(one for one in found if one is not None)


def _head(tuning: Tuning, end: End, *, a4_hz: float) -> HeadLeft | None:
    written = tuning.batter if end == "batter" else tuning.resonant
    kept = [one for one in tuning.readings if one.head == end and one.stage == "after"]
    last = max(kept, key=lambda one: one.when, default=None)
    tone = tuning.tone(end)
    if written is None and last is None and tone is None:
        return None
    pitch, says = _heard(last, a4_hz=a4_hz) if last else ("", "")
    if not pitch and tone is not None:
        pitch, says = print_pitch(tone.hz, a4_hz=a4_hz), "as it was wished; not listened to since"
    return HeadLeft(head=end, what=_what(written, end), pitch=pitch, says=says)


def _what(written: HeadSaid | None, end: End) -> str:
    if written is None:
        return "not written down"
    taken = head_of(written, end=end, diameter_m=0.3)
    if taken.head is not None and not taken.assumed:
        return taken.head.says
    return written.says or ("calf" if written.calf else "not written down")


def _heard(kept: ReadingKept, *, a4_hz: float) -> tuple[str, str]:
    try:
        heard = from_json(kept.result)
    except BadInput:
        return "", ""
    if heard.hz is None:
        return "", ""
    on = f"heard on {say_day(kept.when.date())}"
    rim = heard.rim
    if rim is not None and rim.split_cents is not None and not rim.coupled_pair:
        on += f", round the rim {print_cents(rim.split_cents)} apart"
    return print_pitch(heard.hz, a4_hz=a4_hz), on
