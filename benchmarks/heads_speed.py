"""Speed of what heads and air come to."""

from __future__ import annotations

from _timing import Table, timed

from counterhoop.heads import ends, exterior, shapes
from counterhoop.heads.head import film_head
from counterhoop.heads.headed_shell import HeadedShell
from counterhoop.heads.kit import KitDrum, PitchWish, WishedPitch
from counterhoop.heads.kit_plan import kit_plan
from counterhoop.heads.modes import batter_lug_mode, lowest, modes
from counterhoop.standards.threads import find_thread

INCH_M = 0.0254
MANY = 64


def tom(*, open_end: bool = False) -> HeadedShell:
    """Return a floor tom of 16 by 16 in."""
    return HeadedShell(
        radius_m=8 * INCH_M,
        depth_m=16 * INCH_M,
        batter=film_head(254e-6),
        batter_n_per_m=2300.0,
        resonant=None if open_end else film_head(190.5e-6),
        resonant_n_per_m=None if open_end else 2000.0,
    )


def forget() -> None:
    """Drop what is kept from drum to drum, so that the first one is measured."""
    for room in (shapes, exterior, ends):
        for kept in vars(room).values():
            if hasattr(kept, "cache_clear"):
                kept.cache_clear()


def first(drum: HeadedShell) -> None:
    forget()
    many(drum)


def many(drum: HeadedShell) -> None:
    """Find at least 64 modes."""
    found = modes(drum, up_to_hz=1000.0, around=10)
    assert len(found) >= MANY, len(found)


KIT = tuple(
    KitDrum(
        name=f"{across} by {deep}",
        radius_m=across / 2 * INCH_M,
        depth_m=deep * INCH_M,
        batter=film_head(254e-6),
        resonant=film_head(190.5e-6),
        rods=rods,
        thread=find_thread("12-24"),
        most_per_rod_n=600.0,
    )
    for across, deep, rods in (
        *((8, 7, 5), (10, 8, 6), (12, 8, 6)),
        *((13, 9, 6), (14, 14, 8), (16, 16, 8)),
    )
)
WISH = PitchWish(
    lowest=WishedPitch(hz=82.0),
    highest=WishedPitch(hz=220.0),
    as_heard=(WishedPitch(hz=140.0, drum="12 by 8"),),
    bottom_cents=300.0,
)


def first_kit() -> None:
    forget()
    kit(WISH)


def kit(wish: PitchWish) -> None:
    """Plan six drums."""
    plan = kit_plan(KIT, wish)
    assert len(plan.drums) == len(KIT), plan.refusal


def main() -> None:
    """Print the table."""
    two, single = tom(), tom(open_end=True)
    table = Table(f"Modes of a 16 by 16 in tom up to 1 kHz, {MANY} or more, air included")
    lowest(two, 0)
    table.row("two heads, the first drum", timed(lambda: first(two), times=5), limit_s=0.5)
    table.row("two heads", timed(lambda: many(two), times=10), limit_s=0.5)
    table.row("two heads: (0,1) and (1,1) alone", timed(lambda: named(two), times=20), limit_s=0.05)
    table.row("one head: (0,1) and (1,1)", timed(lambda: named(single), times=20), limit_s=0.05)
    table.row("a plan for six drums, the first kit", timed(first_kit, times=3), limit_s=3.0)
    table.row("a plan for six drums", timed(lambda: kit(WISH), times=5), limit_s=3.0)
    table.row("the same, nothing wished", timed(lambda: kit(PitchWish()), times=5), limit_s=3.0)
    table.close()


def named(drum: HeadedShell) -> None:
    lowest(drum, 0)
    batter_lug_mode(drum)


if __name__ == "__main__":
    main()
