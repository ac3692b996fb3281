"""What a person typed of a whole job, drum by drum."""

from __future__ import annotations

from collections.abc import Iterable


def lines_for(text: object, *, drum: str, drums: Iterable[str]) -> tuple[str, ...]:
    """Return the lines that are about a drum.

    A line that begins with a drum's name and a colon is about that drum alone; any other is about
    all of them.

    Examples
    --------
    >>> told = "Rust on every rod.\\nSmall tom: a crack by lug 4."
    >>> lines_for(told, drum="small tom", drums=["small tom", "old snare"])
    ('Rust on every rod.', 'a crack by lug 4.')
    >>> lines_for(told, drum="old snare", drums=["small tom", "old snare"])
    ('Rust on every rod.',)
    """
    names = {name.casefold() for name in drums}
    found = []
    for line in text.splitlines() if isinstance(text, str) else ():
        before, colon, after = line.partition(":")
        named = before.strip().casefold() if colon else ""
        if named in names and named != drum.casefold():
            continue
        said = after.strip() if named == drum.casefold() else line.strip()
        if said:
            found.append(said)
    return tuple(found)
