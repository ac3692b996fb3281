"""What an invented workshop takes in and hands over; ``text`` stands wherever people type."""

from __future__ import annotations

from example_letters import head_of, photograph_of

from counterhoop.papers.booking_in import BookingIn, DrumIn, Item
from counterhoop.papers.handover_record import HandedOver, HeadLeft, Pair, PartDone
from counterhoop.papers.letter_head import LetterHead
from counterhoop.quantities.money import Money

VIEWS = (
    *(f"outside, {side}" for side in ("front", "right", "back", "left")),
    *(f"inside, {side}" for side in ("front", "right", "back", "left")),
    "batter edge",
    "resonant edge",
)


def booking_of(text: str = "as it came", *, head: LetterHead | None = None) -> BookingIn:
    """A snare that is photographed all round but for one edge, and a tom that is not yet."""
    views = {view: photograph_of(f"the snare, {view}") for view in VIEWS}
    snare = DrumIn(
        drum="old snare", what="14 dia x 5 1/2 deep snare, lacquered",
        came=(
            Item(what="flanged hoop", count=2, says="rusted, one bent"),
            Item(what="roller strainer", whose="the client's brother", says=text),
        ),
        missing=(Item(what="lever strainer", says="the workshop looks, the client says yes"),),
        apart={"woodworm": "none seen", "mould": "a little by the vent: kept in a bag"},
        photographs={
            **views, "resonant edge": None,
            "stamp inside": photograph_of("a stamp", wide=160, high=240),
        },
    )  # fmt: skip
    tom = DrumIn(drum="small tom", what=text, photographs=dict.fromkeys(VIEWS))
    return BookingIn(
        head=head or head_of(), drums=(snare, tom),
        owner="the Hallmere Silver Band", proof="letter of its secretary", wanted=text,
        value=Money(minor=145000, currency="GBP"), insured_here="the workshop",
        uncollected="After three months' notice the workshop may ask for storage.",
    )  # fmt: skip


def handed_over(text: str = "as it goes", *, head: LetterHead | None = None) -> HandedOver:
    """Everything that a record can say of a small tom."""
    pairs = tuple(
        Pair(
            place=view, found=photograph_of(f"{view}, as found"),
            left=None if view == "outside, left" else photograph_of(f"{view}, as left", tint=40),
        )
        for view in VIEWS
    )  # fmt: skip
    return HandedOver(
        head=head or head_of(), drum="small tom", what=f"12 dia x 8 deep tom, {text}",
        sure=(("Made between 1957 and 1963", "likely"), ("The wrap is its first", "could be")),
        found=("A crack inside, from the resonant edge to its ring.", text),
        story=("Thirteen holes of two later brackets closed.", text), pairs=pairs,
        edges=(("batter edge", "As found 0.5 mm out of flat; now flat to 0.1 mm."),),
        parts=(PartDone(part="badge grommet", done="replaced", says="the old one is in the bag"),),
        bag=("Five short lugs with ten screws.", text),
        heads=(HeadLeft(head="batter", what="single film, coated", pitch="about C3", says=text),),
        not_known=("Who drilled the three holes below the badge.",),
        care=("Keep it from damp and from heaters.",),
        cautions=("Its wrap may be cellulose nitrate: no flame, keep it cool and aired.",),
        warranty="We put right what we did, for two years.",
    )  # fmt: skip
