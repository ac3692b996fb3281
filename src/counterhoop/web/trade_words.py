"""What is asked of a sale, of a drum for sale and of the ways to sell it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from counterhoop.errors import BadInput
from counterhoop.web.forms import fault_words
from counterhoop.web.plain_sheet import Asked, Kind

KINDS: Final = (*("snare drum", "tom", "floor tom", "bass drum", "marching snare drum", "drum"),)
KIND_CHOICES: Final = (("", "not said"), *((kind, kind) for kind in KINDS))


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field: what it is called, and one sentence of help at most."""

    name: str
    label: str
    help: str = ""
    kind: Kind = "text"
    choices: tuple[tuple[str, str], ...] = ()


SOLD: Final = (
    Field(name="what", label="What you call it", help="So that you know it again in a list."),
    Field(name="price", label="The buyer paid", help="Without fees and postage, such as 240."),
    Field(name="sold_on", label="Sold on", help="Year first, such as 2026-11-02."),
    Field(name="days", label="Days on the shelf", help="From the day that you offered it."),
    Field(name="fees", label="Fees", help="What it cost you to sell it."),
    Field(name="postage", label="Postage", help="What it cost you to send it, packing included."),
)
DRUM: Final = (
    Field(name="size", label="Size", help="In inches, such as 14 dia x 6.5 deep."),
    Field(name="kind", label="Kind", kind="choice", choices=KIND_CHOICES),
    Field(name="line", label="Line", help="As you would say it: Corvane Tarnbeck."),
    Field(name="made", label="Made", help="1964, or 1962 to 1966."),
    Field(name="finish", label="Finish", help="In your usual words: white pearl wrap."),
    Field(
        name="condition", label="Wrong with it",
        help="Commas between: edge chipped, wrap shrunk. “none” if you looked.",
    ),
    Field(name="complete", label="How much of it is there", help="all, or such as 90 %."),
    Field(name="extra_holes", label="Extra holes", help="A number, or none."),
    Field(
        name="changed", label="Parts that are not its own",
        help="Commas between: strainer, batter hoop. “none” if you looked.",
    ),
)  # fmt: skip
BUYING: Final = (
    Field(name="wage", label="What an hour is to bring you", help="Empty: your hour's price."),
    Field(name="paid", label="Asked or paid for it", help="Empty: nothing yet."),
    Field(name="premium", label="On top of that price", help="Such as 25 %, at a sale by bids."),
    Field(name="fetching", label="Fetching it", help="The journey, or its postage to you."),
    Field(
        name="sure", label="How sure the wage is to be",
        help="Such as 80 %. Empty: on average over many drums.",
    ),
)  # fmt: skip
SELLING: Final = (
    Field(name="weeks", label="Weeks on offer", help="Empty: 13."),
    Field(name="fee", label="Fee of selling", help="Of the price, such as 10 %."),
    Field(
        name="unsold", label="What has not sold by then goes for",
        help="Of its price. Empty: 50 %, a guess.",
    ),
    Field(
        name="share", label="Your share if you sell it for its owner",
        help="Of the price, such as 30 %.",
    ),
)  # fmt: skip
_PRICE = "Empty: what your own sales say."
_SELLS = "In hundredths, such as 70 %. Empty: what your own sales say."
_WORK = "One piece of work a line: 8 x refit a lug. With a time behind it, anything: letters; 1 h."
WHOLE: Final = (
    Field(name="whole_price", label="Whole as it is, it brings", help=_PRICE),
    Field(name="whole_sells", label="It sells in time", help=_SELLS),
    Field(name="whole_postage", label="Sending it"),
    Field(name="whole_work", label="Work before it goes", kind="note", help=_WORK),
)
PARTED: Final = (
    Field(
        name="parts", label="Parts, and what one brings", kind="note",
        help="One sort a line, the price of one behind it, its chance too if you know it: "
        "8 x lug; 9; 80 %",
    ),
    Field(name="parts_sells", label="A part sells in time", help="Empty: 50 %, a guess."),
    Field(name="parts_postage", label="Sending one part"),
    Field(name="parts_work", label="Work to part it out", kind="note", help=_WORK),
)  # fmt: skip
RESTORED: Final = (
    Field(name="restored_price", label="Restored it brings", help=_PRICE),
    Field(name="restored_sells", label="It sells in time", help=_SELLS),
    Field(name="restored_postage", label="Sending it"),
    Field(name="restored_costs", label="Parts and materials for it"),
    Field(name="restored_days", label="Days until it is done", help="In whole days."),
    Field(name="restored_work", label="Work on it", kind="note", help=_WORK),
)
GROUPS: Final = (
    ("Buying it", BUYING),
    ("Selling, whichever way", SELLING),
    ("Whole as it is", WHOLE),
    ("Parted out", PARTED),
    ("Restored", RESTORED),
)


def asked_fields(
    fields: tuple[Field, ...], typed: Mapping[str, Any], faults: Mapping[str, BadInput]
) -> tuple[Asked, ...]:
    """Return fields with what is typed in them, faults beside."""
    return tuple(_asked(one, typed, faults) for one in fields)


def _asked(one: Field, typed: Mapping[str, Any], faults: Mapping[str, BadInput]) -> Asked:
    value = str(typed.get(one.name) or "")
    choices = one.choices
    if choices and value not in dict(choices):
        # Typed by hand or by a command: it stays what it is.
        choices = (*choices, (value, value))
    fault = faults.get(one.name)
    return Asked(
        name=one.name, id=f"f-{one.name}", label=one.label, help=one.help, kind=one.kind,
        choices=choices, value=value, fault=said_fault(fault) if fault else "",
    )  # fmt: skip


def said_fault(fault: BadInput) -> str:
    """Return a fault in a sentence, without the name of its field, which stands above it."""
    line = fault_words(fault)
    return line if line[-1:] in ".?!" else f"{line}."
