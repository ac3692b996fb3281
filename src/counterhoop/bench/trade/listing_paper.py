"""Ask for the sheet of a drum that is offered: it is set beside the pages."""

from __future__ import annotations

from counterhoop.bench.folders.album import photographs_of
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.kinds import LISTING
from counterhoop.bench.folders.source import workshop_printing
from counterhoop.bench.long_work.answers import Answer
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.listing_task import make_listing
from counterhoop.bench.long_work.record_tasks import Shown
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.paper_names import plain_name
from counterhoop.bench.price.papers import NO_NAME
from counterhoop.bench.price.terms import terms_of
from counterhoop.bench.record.sides import sides_of
from counterhoop.bench.workshop import Workshop
from counterhoop.job.trade.listing import Listing
from counterhoop.papers.listing_sheet import MOST_PHOTOGRAPHS, ListingSheet
from counterhoop.store.enclosures.keep import place_of

NOTHING = JobSource(tables_json=b"")


def ask_listing(shop: Workshop, job: KeptJob, drum: KeptDrum, told: Listing) -> Answer[Paper]:
    """Ask for the sheet of a drum that is offered.

    Parameters
    ----------
    told : Listing
        Of this drum.
    """
    terms = terms_of(shop)
    sheet = ListingSheet(
        listing=told, on=shop.now().astimezone().date(), shop=terms.shop or NO_NAME,
        shop_lines=terms.shop_lines, asked=asked_for(drum),
    )  # fmt: skip
    name = f"for sale - {plain_name(drum.name)}.pdf"
    arguments = (name, sheet, shown_on(shop, job, drum), workshop_printing(shop).paper)
    return shop.works.ask(
        Asked(line="papers", task=make_listing, source=NOTHING, arguments=arguments)
    )


def asked_for(drum: KeptDrum) -> str:
    """Return what is asked for a drum, as typed; nothing while nobody has said."""
    typed = drum.kept(LISTING).table.get("asked")
    return " ".join(typed.split()) if isinstance(typed, str) else ""


def shown_on(shop: Workshop, job: KeptJob, drum: KeptDrum) -> tuple[Shown, ...]:
    """Return the photographs that a buyer is shown: the first two places of the drum.

    Once it was photographed as it goes, what it looked like before is no picture of it.
    """
    sides = sides_of(photographs_of(shop, job), drum)
    after = [(one.place, one.after) for one in sides if one.after]
    before = [(f"{one.place}, as it came", one.before) for one in sides if one.before]
    return tuple(
        Shown(file=str(place_of(shop.store.address.files, one.lies.file.sha256)), shows=says)
        for says, one in (after or before)[:MOST_PHOTOGRAPHS]
    )
