"""Speed of telling which thread a screw has: ten thousand readings of every sort."""

from __future__ import annotations

from _timing import Table, timed

from counterhoop.standards.threads import all_threads
from counterhoop.survey.thread_candidates import identify_thread
from counterhoop.survey.thread_next import thread_words
from counterhoop.survey.thread_reading import PitchReading, ThreadReading

TIMES = 10_000


def readings() -> list[ThreadReading]:
    """Every listed thread in turn, worn more and more, counted right and wrong, flanks or none."""
    threads, made = all_threads(), []
    for number in range(TIMES):
        thread = threads[number % len(threads)]
        over = (10, 10, 10, 9, 11)[number % 5]
        made.append(
            ThreadReading(
                outside_mm=thread.major_mm * (1.0 - 0.02 * number / TIMES),
                pitch=PitchReading(length_mm=over * thread.pitch_mm),
                angle_deg=thread.angle_deg if number % 2 else None,
            )
        )
    return made


def main() -> None:
    """Print the table."""
    made = readings()
    found = [identify_thread(reading) for reading in made]
    table = Table(f"Which thread: {TIMES} readings")
    table.row(
        f"{TIMES} identifications",
        timed(lambda: [identify_thread(reading) for reading in made], times=5),
        limit_s=1.0,
    )
    table.row(
        f"what to say of {TIMES}, the next reading with it",
        timed(lambda: [thread_words(odds) for odds in found], times=3),
        limit_s=2.0,
    )
    table.close()


if __name__ == "__main__":
    main()
