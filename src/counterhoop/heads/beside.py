"""The tension of one head of a drum by how far its pitch sits from that of the other."""

from __future__ import annotations

from counterhoop.heads.air import Air
from counterhoop.heads.believed import believed
from counterhoop.heads.head import Head
from counterhoop.heads.tension import rim_hz, tension_from_pitch
from counterhoop.quantities.print_pitch import moved_hz


def tension_beside(
    n_per_m: float,
    *,
    head: Head,
    other: Head,
    cents: float,
    radius_m: float,
    depth_m: float,
    air: Air | None = None,
) -> float:
    """Return the tension of the other head so that its pitch lies so many cents above this one's.

    Parameters
    ----------
    n_per_m, head : float, Head
        This head and its tension.
    other : Head
        The one whose tension is asked for.
    cents : float
        Between their pitches near the rim, each heard with the other muted.
    radius_m, depth_m, air
        As in ``tension_from_pitch``.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> thin, thick = film_head(190.5e-6), film_head(254e-6)
    >>> round(tension_beside(2000.0, head=thick, other=thick, cents=0.0, radius_m=0.15,
    ...                      depth_m=0.2), 3)
    2000.0
    """
    believed(cents, where="cents", least=-4800.0, most=4800.0, unit="cents")
    own = rim_hz(n_per_m, radius_m=radius_m, depth_m=depth_m, head=head, air=air)
    return tension_from_pitch(
        moved_hz(own, cents=cents), radius_m=radius_m, depth_m=depth_m, head=other, air=air
    ).n_per_m
