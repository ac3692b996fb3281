"""What was heard as a page draws it: flat strips at one scale, what rings, how it dies."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from counterhoop.bench.tune.heard import Heard
from counterhoop.papers.rim_strip import WIDE_MM, draw_rim, reach_of
from counterhoop.papers.screen.play import to_screen
from counterhoop.papers.sound_plots import draw_fade, draw_spectrum
from counterhoop.papers.tuned_sheet import SoundShown

NARROW_MM = 95.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A reading drawn.

    Attributes
    ----------
    title : str
    wide, narrow : Markup
        The same for a wide screen and for a phone held upright.
    """

    title: str
    wide: Markup
    narrow: Markup


def strips(
    readings: Sequence[tuple[str, Heard]], *, ident: str, turns: bool = False
) -> list[Strip]:
    """Draw readings that were taken round the rim, all at the scale of the widest.

    Parameters
    ----------
    readings : sequence of (str, Heard)
        Each with its heading; those that were not taken round the rim are passed over.
    ident : str
        Before every id; unique on the page.
    turns : bool
        Whether the rods to turn are marked.
    """
    drawn = [(title, one, one.rim) for title, one in readings if one.rim is not None]
    reach = reach_of([rim for _, _, rim in drawn])

    def play(title: str, heard: Heard, *, at: int, narrow: bool) -> Markup:
        assert heard.rim is not None
        name = f"{ident}-{at}{'-narrow' if narrow else ''}"
        advice = heard.advice
        drawing = draw_rim(
            heard.rim,
            rods=[(rod.number, rod.along_deg) for rod in heard.rods],
            pattern=advice.pattern if turns and advice is not None else (),
            heading=title,
            even_cents=heard.even_enough_cents,
            reach_cents=reach,
            key=at == len(drawn) - 1,
            name=name,
            wide_mm=NARROW_MM if narrow else WIDE_MM,
        )
        return Markup(to_screen(drawing, ident=name))

    return [
        Strip(
            title=title,
            wide=play(title, heard, at=at, narrow=False),
            narrow=play(title, heard, at=at, narrow=True),
        )
        for at, (title, heard, _) in enumerate(drawn)
    ]


def plots_of(sound: SoundShown) -> list[tuple[str, Markup]]:
    """Return what rings with the model's modes beneath, and how it dies, each with its caption."""
    plots = []
    if sound.spectrum_db:
        rings = draw_spectrum(
            sound.spectrum_db, from_hz=sound.from_hz, step_hz=sound.step_hz, partials=sound.tones,
            modes=sound.modes,
        )  # fmt: skip
        plots.append((rings.title, Markup(to_screen(rings, ident="rings"))))
    if sound.fade_db and sound.hz is not None and sound.decay_per_s:
        dies = draw_fade(
            sound.fade_db, step_s=sound.fade_step_s, hz=sound.hz, decay_per_s=sound.decay_per_s,
            wide_mm=WIDE_MM,
        )  # fmt: skip
        plots.append((dies.title, Markup(to_screen(dies, ident="dies"))))
    return plots
