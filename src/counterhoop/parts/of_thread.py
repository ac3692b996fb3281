"""What a thread measures, from its name."""

from __future__ import annotations

from functools import lru_cache

from counterhoop.errors import BadInput
from counterhoop.parts.dimension import STEPS, Dimension, Measured, read_measured
from counterhoop.standards.threads import find_thread


@lru_cache(maxsize=256)
def of_thread(name: str) -> tuple[Measured, ...]:
    """Return the pitch of a thread and what it measures across when new.

    Parameters
    ----------
    name : str
        ``12-24``, ``M6``; for what is no thread of the table there is nothing.

    Examples
    --------
    >>> [(one.dimension.value, str(one), one.written) for one in of_thread("12-24")]
    [('pitch', '1.06 mm', '24 tpi'), ('thread across', '5.48 mm', '12-24')]
    >>> of_thread("24 tpi")
    ()
    """
    try:
        thread = find_thread(name)
    except BadInput:
        return ()
    per_inch = thread.threads_per_inch
    pitch = f"{per_inch} tpi" if per_inch else f"{thread.pitch_mm:g} mm"
    across = Measured(
        dimension=Dimension.MAJOR, value=thread.major_mm, doubt=STEPS["thread gauge"], written=name
    )
    return read_measured(Dimension.PITCH, pitch), across


def is_named(one: Measured) -> bool:
    """Tell whether a reading is a thread's name: what a new one measures, without any wear."""
    return one.dimension is Dimension.MAJOR and bool(one.written and of_thread(one.written))
