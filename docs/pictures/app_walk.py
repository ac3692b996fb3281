"""A person at the laptop who walks through the pages, and what is noted on the way."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from app_pace import Pace
from playwright.sync_api import Error, Locator, Page

WIDE, TALL = 1280, 900
TRIES = 5
NARROW = {"width": 360, "height": 740}
# All that stands on a page in words, and nothing that is folded away; labels of buttons that bear
# a mark and no word are read out by the machine that needs them.
WORDS = """() => [document.body.innerText, ...[...document.querySelectorAll('button[aria-label]')]
  .filter(one => one.checkVisibility()).map(one => one.ariaLabel)].join('\\n')"""
Took = Callable[[str, bytes], None]


@dataclass
class Step:
    """What was seen, typed and taken in one step, and when it was over."""

    name: str
    seen: list[str] = field(default_factory=list)
    typed: list[str] = field(default_factory=list)
    pictures: list[str] = field(default_factory=list)
    until_s: float = 0.0

    @property
    def words(self) -> str:
        """All that was seen, its blanks made even."""
        return " ".join(" ".join(self.seen).split())


@dataclass
class Walk:
    """A person at the laptop: types, presses, reads; what is done is noted step by step."""

    page: Page
    took: Took | None = None
    pace: Pace = field(default_factory=Pace)
    steps: list[Step] = field(default_factory=list)

    def see(self) -> None:
        """Note the words that stand on the page now."""
        for _ in range(TRIES):
            try:
                self.steps[-1].seen.append(self.page.evaluate(WORDS))
            except Error as gone:
                # A page that waited for long work loads itself again when that is done.
                if "navigation" not in gone.message:
                    raise
                self.page.wait_for_load_state()
            else:
                return
        raise RuntimeError("the page goes on loading itself again")

    def read(self, place: str | Locator) -> None:
        """Read a part of the page."""
        found = self.page.locator(place) if isinstance(place, str) else place
        self.pace.read(found.first.inner_text())

    def type(self, label: str, words: str, *, within: str = "main", measured: bool = False) -> None:
        """Type into a field, or take a choice, by its label."""
        one = self.page.locator(within).get_by_label(label, exact=True).first
        if one.evaluate("one => one.localName") == "select":
            one.select_option(words)
        else:
            one.fill(words)
        self.steps[-1].typed.append(words)
        self.pace.type(words, measured=measured)
        self.see()

    def press(self, name: str, *, role: Any = "button", within: str = "body") -> None:
        """Press a button, follow a link or unfold a line, by what stands on it."""
        self.see()
        inside = self.page.locator(within)
        if role == "line":
            one = inside.locator("summary", has_text=re.compile(rf"^\s*{re.escape(name)}\b"))
        else:
            one = inside.get_by_role(role, name=name, exact=True)
        one.first.click()
        self.pace.press()
        self.page.wait_for_load_state()

    def picture(self, name: str, at: str | Locator, *, tall: int = TALL, above: int = 0) -> None:
        """Take the window's picture with a place at its head, as tall as matters."""
        self.see()
        self.steps[-1].pictures.append(f"app-{name}.png")
        if self.took is None:
            return
        place = self.page.locator(at) if isinstance(at, str) else at
        size = self.page.viewport_size or {"width": WIDE, "height": TALL}
        self.page.set_viewport_size({**size, "height": tall})
        place.first.evaluate("one => one.scrollIntoView({block: 'start', behavior: 'instant'})")
        self.page.evaluate("by => scrollBy({top: -by, behavior: 'instant'})", above)
        # What was just pressed keeps no ring about it.
        self.page.evaluate("document.activeElement.blur()")
        self.page.wait_for_timeout(400)
        self.took(f"app-{name}.png", self.page.screenshot())
        self.page.set_viewport_size(size)
