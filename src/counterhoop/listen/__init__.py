"""From a recording to strokes, partials, a pitch round the rim and advice."""
