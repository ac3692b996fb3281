"""What is asked of a drum that is offered: what a listing says besides the record, its parcel."""

from __future__ import annotations

from typing import Final

from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import LISTING
from counterhoop.web.folder_index import drum_address
from counterhoop.web.plain_sheet import Part, Question
from counterhoop.web.plain_write import Sheet

BESIDES: Final[tuple[Part, ...]] = (
    Question(
        name="asked", label="What is asked for it", help="On the printed sheet, as you type it."
    ),
    Question(name="faults", label="Wrong with it, besides", kind="note", help="One to a line."),
    Question(name="comes_with", label="Comes with it, besides", kind="note", help="One to a line."),
    Question(
        name="not_known", label="What you could not find out", kind="note", help="One to a line."
    ),
)
NITRATE: Final = (
    ("", "maybe: nobody has shown that it is not"),
    ("no", "no, that is known"),
    ("yes", "yes"),
)
PARCEL: Final[tuple[Part, ...]] = (
    Question(
        name="timbers", label="What the shell is made of", kind="note",
        help="One timber to a line, as near as you can tell.",
    ),
    Question(
        name="ornaments", label="Inlay, ivory, pearl, horn", kind="note",
        help="One to a line; of what it is made.",
    ),
    Question(name="skins", label="Heads of skin", kind="note", help="Of which animal."),
    Question(
        name="nitrate", label="Celluloid in wrap, knobs or inlay", kind="choice", choices=NITRATE,
        help="Never find out with a flame.",
    ),
    Question(name="bare", label="A bare shell or loose parts, not a drum to play", kind="yes"),
    Question(name="parcel", label="The parcel, packed", help="Such as 52 x 52 x 32 cm."),
    Question(name="weight", label="Its weight, packed", help="Such as 6.4 kg."),
    Question(
        name="carrier", label="Which carrier", help="And of which day its paper is: limits change."
    ),
    Question(name="longest", label="It takes, at the longest", help="Such as 100 cm."),
    Question(
        name="length_and_girth", label="It takes, length and girth together",
        help="Once round the two shorter sides, and the long one. Such as 300 cm.",
    ),
    Question(name="heaviest", label="It takes, at the heaviest", help="Such as 20 kg."),
)  # fmt: skip


def besides_of(job: KeptJob, drum: KeptDrum) -> Sheet:
    """Return the sheet of what a listing says besides the record."""
    return _sheet(job, drum, "besides", BESIDES)


def parcel_of(job: KeptJob, drum: KeptDrum) -> Sheet:
    """Return the sheet of what is asked before it is posted."""
    return _sheet(job, drum, "parcel", PARCEL)


def _sheet(job: KeptJob, drum: KeptDrum, ident: str, parts: tuple[Part, ...]) -> Sheet:
    address = f"{drum_address(job, drum)}/listing"
    return Sheet(
        ident=ident, job=job.id, drum=drum.id, kind=LISTING, parts=parts,
        action=f"{address}/{ident}", back=f"{address}#{ident}",
    )  # fmt: skip
