"""Why nothing can be read in a recording, and what to do instead."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np

from counterhoop.listen import strokes as found
from counterhoop.listen.sound import Sound
from counterhoop.listen.strokes import Stroke

AGAIN = "tap near a rod with a stick or a finger and let it die away for 2 seconds"
SILENT = f"There is silence: switch the microphone on, then {AGAIN}."
TOO_SHORT = f"The recording is shorter than half a second: {AGAIN}."
VOICE = f"This sounds like a voice: ask for quiet, then {AGAIN}."
MUSIC = f"This sounds like music or a tone that is held: switch it off, then {AGAIN}."
NOISE = f"There is steady noise and no stroke in it: find a quieter room, then {AGAIN}."
CLICK = f"There is one click and nothing that rings: {AGAIN}."
CLICKS = (
    "There are clicks and nothing that rings: take the cloth off the head that you strike, then "
    f"{AGAIN}."
)
CLIPPED = (
    "All strokes are too loud for the recorder (clipped): tap softer, or lay the phone farther "
    "away."
)
TOGETHER = "All strokes come too close together: tap, and let each one die away for 2 seconds."
TOO_SOFT = (
    "All strokes are hardly louder than the room: tap a little harder, or bring the phone nearer."
)
CUT_OFF = "The recording ends too soon after the stroke: let it run on for 2 seconds."

_SILENT_BELOW = 1e-4
_SHORTEST_S = 0.5
_SAME_TONE = 0.9
_WINDOW_S, _APART_S = 0.1, 0.1
_TONES_HZ = (150.0, 2000.0)
_LOOKED_AT = 200

_IN_WORDS = {
    found.CLIPPED: CLIPPED,
    found.FLAM: TOGETHER,
    found.TOO_CLOSE: TOGETHER,
    found.TOO_SHORT: CUT_OFF,
    found.TOO_SOFT: TOO_SOFT,
}


def refuse(sound: Sound, strokes: Sequence[Stroke]) -> str:
    """Return why nothing is read in a recording, one sentence; "" where strokes can be.

    Parameters
    ----------
    sound : Sound
        The recording.
    strokes : sequence of Stroke
        All that were found in it, dropped ones too.

    Notes
    -----
    A voice begins now and then as a stroke does: where as many beginnings do not die away as a
    drum does, the few that do are not believed.

    Examples
    --------
    >>> refuse(Sound(samples=np.zeros(44_100), rate_hz=44_100), ()).split(":")[0]
    'There is silence'
    """
    reasons = Counter(stroke.dropped for stroke in strokes)
    used, unlike = reasons.pop("", 0), reasons[found.NO_DECAY]
    if used > unlike:
        return ""
    if float(np.abs(sound.samples).max(initial=0.0)) < _SILENT_BELOW:
        return SILENT
    if sound.seconds < _SHORTEST_S:
        return TOO_SHORT
    if not strokes:
        return MUSIC if tone_held(sound) > _SAME_TONE else NOISE
    if unlike and unlike >= len(strokes) / 4:
        return MUSIC if tone_held(sound) > _SAME_TONE else VOICE
    if used:
        return ""
    commonest = reasons.most_common(1)[0][0]
    if commonest == found.NO_RING:
        return CLICK if len(strokes) == 1 else CLICKS
    return _IN_WORDS.get(commonest, NOISE)


def tone_held(sound: Sound) -> float:
    """Return how alike the spectra a tenth of a second apart are: 1 for a tone that is held.

    Notes
    -----
    Median over the louder half of the recording of the cosine between power spectra from 150
    to 2000 Hz. The harmonics of a voice move by their own width in that time, and noise is another
    one at once.
    """
    rate = sound.rate_hz
    size, apart = round(_WINDOW_S * rate), round(_APART_S * rate)
    starts = np.linspace(0, max(0, len(sound.samples) - size - apart), _LOOKED_AT).astype(int)
    if len(sound.samples) < size + apart:
        return 0.0
    hz = np.fft.rfftfreq(size, 1 / rate)
    kept = (hz >= _TONES_HZ[0]) & (hz <= _TONES_HZ[1])
    window = np.hanning(size)
    alike, loud = [], []
    for start in starts:
        one, other = (
            np.abs(np.fft.rfft(window * sound.samples[at : at + size]))[kept] ** 2
            for at in (start, start + apart)
        )
        power = float(np.linalg.norm(one) * np.linalg.norm(other))
        alike.append(float(one @ other) / (power + 1e-30))
        loud.append(power)
    return float(np.median(np.asarray(alike)[np.asarray(loud) >= np.median(loud)]))
