"""Whether a head goes on, in the words of the bench."""

from __future__ import annotations

from counterhoop.quantities.print_length import CALIPER_MM, print_mm
from counterhoop.survey.head_fit import Clearance, Fit, HeadFit

WOULD_TELL = "Diameters at four places within the top 20 mm would tell."
BY_HAND = "The last word is the head itself, tried by hand."
VERBS = {
    Fit.FLOATS: "floats",
    Fit.SNUG: "sits snug",
    Fit.TIGHT: "is tight",
    Fit.DOES_NOT_GO: "does not go on",
}


def room_words(clear_mm: float) -> str:
    """Say a clearance on the diameter.

    Examples
    --------
    >>> room_words(1.24), room_words(-0.62)
    ('1.2 mm of room on the diameter', '0.6 mm too small on the diameter')
    >>> room_words(-0.03)
    'no room on the diameter'
    """
    shown = print_mm(abs(clear_mm), resolution_mm=CALIPER_MM)
    if shown == print_mm(0.0, resolution_mm=CALIPER_MM):
        return "no room on the diameter"
    return f"{shown} {'too small' if clear_mm < 0.0 else 'of room'} on the diameter"


def fit_words(fit: HeadFit) -> tuple[str, ...]:
    """Say the whole answer, a sentence each; it ends with the head itself, tried by hand."""
    says = []
    if fit.as_it_stands is None:
        says.append(f"How it stands is not known: only a tape was read. {WOULD_TELL}")
    else:
        says.append(_sentence("As it stands", fit.as_it_stands))
    says.append(_sentence("Eased round", fit.eased_round))
    if not fit.round_enough:
        says.append(round_words(fit))
    if fit.rim_clear_mm is not None and fit.rim_clear_mm < 0.0:
        says.append(rim_words(fit))
    return (*says, BY_HAND)


def round_words(fit: HeadFit) -> str:
    """Say how round a snug head wants the shell.

    Raises
    ------
    ValueError
        When no diameters were read.
    """
    if fit.uneven_mm is None:
        raise ValueError("no diameters were read")
    uneven, half = (
        print_mm(mm, resolution_mm=CALIPER_MM) for mm in (fit.uneven_mm, fit.known.clear_mm / 2.0)
    )
    return (
        f"With the finish and the girth counted in it is {uneven} out of round; so snug it must be"
        f" within {half}."
    )


def rim_words(fit: HeadFit) -> str:
    """Say by how much the counterhoop is too small."""
    short = print_mm(abs(fit.rim_clear_mm or 0.0), resolution_mm=CALIPER_MM)
    return f"The counterhoop is {short} too small for the head's rim."


def _sentence(name: str, clearance: Clearance) -> str:
    doubt = print_mm(clearance.doubt_mm, resolution_mm=CALIPER_MM)
    close = " Too close to call: measure again." if clearance.too_close else ""
    room = room_words(clearance.clear_mm)
    return f"{name} the head {VERBS[clearance.fit]}, {room}, give or take {doubt}.{close}"
