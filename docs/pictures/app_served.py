"""The program, the browser and the files of the pictures."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from PIL import Image, ImageColor, ImageOps
from playwright.sync_api import Browser, Page, expect, sync_playwright

HERE = Path(__file__).parent
WIDE, TALL = 1280, 900
PATIENCE_MS = 120_000
COLOURS = 48
# The day's paper and inks, as static/paper.css has them.
GROUND, FOLDER = "#f6f2e7", "#eae2ce"
INKS = ("#22303a", "#2b5c86", "#a5452c", "#5d7040")
FLAGS = [
    *("--no-sandbox", "--disable-background-networking", "--disable-component-update"),
    *("--disable-sync", "--no-first-run", "--hide-scrollbars"),
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]


@contextmanager
def served(data: Path) -> Iterator[str]:
    """Run the program itself on an empty store; give the link that it prints."""
    begin = "from counterhoop.cli import main; main()"
    command = [sys.executable, "-c", begin, "serve", "--no-browser", "--port", "0"]
    with subprocess.Popen(
        [*command, "--data", str(data)], stdout=subprocess.PIPE, text=True
    ) as program:
        assert program.stdout is not None
        try:
            lines = (re.search(r"http://\S+/enter\?token=\S+", line) for line in program.stdout)
            link = next((found[0] for found in lines if found), "")
            if not link:
                raise RuntimeError("the program ended before it printed a link")
            yield link
        finally:
            program.terminate()


def chromium_path() -> str | None:
    """Return where Chromium lies, if it is there."""
    return shutil.which("chromium") or shutil.which("chromium-browser")


@contextmanager
def browser() -> Iterator[Browser]:
    """Run Chromium without a window."""
    with sync_playwright() as play:
        one = play.chromium.launch(executable_path=chromium_path(), args=FLAGS)
        yield one
        one.close()


@contextmanager
def laptop(link: str) -> Iterator[Page]:
    """Open a page as wide as a laptop, with the paper of day."""
    with browser() as one:
        page = one.new_page(
            base_url=link.split("/enter")[0], viewport={"width": WIDE, "height": TALL},
            color_scheme="light", locale="en-GB",
        )  # fmt: skip
        page.set_default_timeout(30_000)
        expect.set_options(timeout=30_000)
        try:
            yield page
        finally:
            expect.set_options(timeout=5_000)


def keep(name: str, png: bytes) -> None:
    """Save a picture with few colours and a thin edge: these are line drawings."""
    picture = Image.open(io.BytesIO(png)).convert("RGB")
    framed = ImageOps.expand(picture, border=1, fill="#b9b09a")
    few = framed.quantize(palette=palette_of(framed), dither=Image.Dither.NONE)
    few.save(HERE / name, optimize=True)
    print(f"{name}: {(HERE / name).stat().st_size / 1000:.0f} kB")


def palette_of(picture: Image.Image) -> Image.Image:
    """Return what the page is mostly made of, and each ink from full to faint.

    Counting alone would leave out the small marks of what is cut and what is kept.
    """
    common = picture.quantize(COLOURS, dither=Image.Dither.NONE).getpalette() or []
    ground = ImageColor.getrgb(GROUND)
    faint = [
        round(ink * (1 - share) + under * share)
        for colour in INKS
        for share in (0.0, 0.25, 0.5, 0.75)
        for ink, under in zip(ImageColor.getrgb(colour), ground, strict=True)
    ]
    grounds = [part for colour in (GROUND, FOLDER) for part in ImageColor.getrgb(colour)]
    palette = Image.new("P", (1, 1))
    palette.putpalette([*grounds, *faint, *common])
    return palette
