"""A price page as a browser without a script reads it and sends its forms."""

from __future__ import annotations

import datetime as dt
import html
import re
from dataclasses import dataclass
from typing import Any

from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.kinds import QUOTE
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.price.job_quote import JobQuote, quote_of_job

TODAY = dt.datetime.now(dt.UTC).date().isoformat()


@dataclass
class PriceSheet:
    """The page of one job."""

    job: Any

    @property
    def address(self) -> str:
        return f"/jobs/{self.job.id}/price"

    @property
    def drum(self) -> Any:
        return self.job.kept.drums[0]

    @property
    def number(self) -> int:
        """The revision of the quote."""
        return int(self.job.kept.kept(QUOTE).number)

    @property
    def unpriced(self) -> list[str]:
        """Keys of the two heads, as the quote names them."""
        return [f"{self.drum.id}/head: {end}" for end in ("batter", "resonant")]

    def key(self, work: str) -> str:
        return f"{self.drum.id}/work: {work}"

    def look(self) -> str:
        answer = self.job.ask.get(self.address)
        assert answer.status_code == 200, answer.text
        return str(answer.text)

    def send(self, where: str, **fields: Any) -> Any:
        return self.job.ask.post(
            f"{self.address}/{where}", data={"based_on": self.number, **fields}
        )

    def kept(self, where: str, **fields: Any) -> None:
        answer = self.send(where, **fields)
        assert answer.status_code == 303, words(answer.text)

    def hand_out(self, *, day: str, to: str = "Tobin Ashgrove") -> None:
        self.kept("offer", seen=self.face(), day=day, to=to, at="offer")

    def face(self) -> str:
        """What stands large."""
        found = re.search(r'<p class="face">([^<]+?)(?: <span|<)', sheet_of(self.look(), "price"))
        assert found
        return found[1]

    def quote(self) -> JobQuote:
        """The quote as the bench makes it, beside the page."""
        source = to_plan(self.job.kept, shop=drawer(self.job.shop)).source
        assert source is not None
        answer = self.job.shop.works.plan(source)
        assert isinstance(answer, Done)
        return quote_of_job(self.job.shop, self.job.kept, answer.value)


def words(text: str) -> str:
    """Return what a page says, tags off."""
    said = re.sub(r"<[^>]+>", " ", text.partition("<main")[2] or text)
    return " ".join(html.unescape(said).split())


def sheet_of(text: str, ident: str) -> str:
    """Return one sheet of a page."""
    return text.partition(f'<section class="sheet" id="{ident}"')[2].partition(
        '<section class="sheet"'
    )[0]
