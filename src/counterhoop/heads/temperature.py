"""How far the pitch of a head goes with the warmth of the room."""

from __future__ import annotations

from counterhoop.errors import BadInput
from counterhoop.heads.believed import believed_pull
from counterhoop.heads.head import Head
from counterhoop.heads.uneven import CENTS_PER_UNIT
from counterhoop.sources import load_table
from counterhoop.standards.film import polyester


def shell_growth_per_k(material: str) -> float:
    """Return the growth of a shell of "wood", "steel", "brass" or "aluminium" with each kelvin.

    Examples
    --------
    >>> shell_growth_per_k("steel")
    1.2e-05
    """
    table = load_table("counterhoop.heads", "shell_growth.toml")
    rows = {row.values["material"]: row.values for row in table}
    if material not in rows:
        raise BadInput("is not known", where="shell", given=material, wanted=" or ".join(rows))
    return float(rows[material]["growth"])


def drift_cents_per_k(head: Head, *, tension_n_per_m: float, shell_per_k: float) -> float:
    """Return how far the pitch goes with each kelvin of warming, in cents; down is negative.

    Parameters
    ----------
    head : Head
        Of film whose stiffness is known; calf goes with the damp of the air instead.
    tension_n_per_m, shell_per_k : float
        Tension, and growth of the shell: see ``shell_growth_per_k``.

    Raises
    ------
    BadInput
        For calf and film whose stiffness is not known.

    Notes
    -----
    ``dT / dK = Y / (1 - nu) (shell - film)``: film held in a rigid ring. The most that it can be,
    since hoop and collar give. The air, which changes too, is left out.

    Examples
    --------
    >>> from counterhoop.heads.head import film_head
    >>> wood = shell_growth_per_k("wood")
    >>> round(drift_cents_per_k(film_head(254e-6), tension_n_per_m=2500, shell_per_k=wood), 1)
    -8.3
    """
    if head.stiffness_n_per_m is None:
        raise BadInput(
            "how stiff it is is not known", where="head", given=head.says or None,
            wanted="a head of film with its thickness",
        )  # fmt: skip
    believed_pull(tension_n_per_m)
    slack = shell_per_k - polyester().expansion_per_k
    lost = head.stiffness_n_per_m / (1.0 - head.poisson) * slack
    return CENTS_PER_UNIT * lost / (2.0 * tension_n_per_m)
