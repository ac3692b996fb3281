"""Make the pictures of the README and the tutorial from the demonstration's papers.

Run it after ``./run test`` has installed everything: ``.venv/bin/python docs/pictures/make.py``.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import pypdfium2
from PIL import Image, ImageOps

from counterhoop.bench.demo import open_demo
from counterhoop.bench.plan_job import plan_job
from counterhoop.bench.printing import Printing
from counterhoop.bench.write_papers import write_papers

HERE = Path(__file__).parent
DRUM = "1 small tom"


def page(path: Path, number: int, *, wide: int) -> Image.Image:
    """Render one page to a picture of a width in pixels, with a thin edge."""
    with pypdfium2.PdfDocument(path) as document:
        leaf = document[number]
        scale = wide / leaf.get_width()
        picture = leaf.render(scale=scale).to_pil().convert("RGB")
    return ImageOps.expand(picture, border=1, fill="#b9b09a")


def beside(pictures: list[Image.Image], *, gap: int = 16) -> Image.Image:
    """Lay pictures side by side."""
    width = sum(p.width for p in pictures) + gap * (len(pictures) - 1)
    whole = Image.new("RGB", (width, max(p.height for p in pictures)), "white")
    x = 0
    for picture in pictures:
        whole.paste(picture, (x, 0))
        x += picture.width + gap
    return whole


def save(picture: Image.Image, name: str) -> None:
    """Save with few colours: these are line drawings."""
    picture.quantize(64).save(HERE / name, optimize=True)


def main() -> None:
    """Write the four pictures."""
    with tempfile.TemporaryDirectory() as folder:
        to = Path(folder) / "papers"
        write_papers(plan_job(open_demo()), folder=to, printing=Printing())
        papers = to / DRUM
        names = {path.name.split(" ", 1)[1]: path for path in papers.glob("*.pdf")}
        (HERE / "shell-laid-flat.svg").write_bytes((papers / "shell laid flat.svg").read_bytes())
        save(page(names["template A4.pdf"], 1, wide=800), "template-sheet.png")
        sheets = [
            page(names["scheme sheet for the client.pdf"], 0, wide=560),
            page(names["hole list.pdf"], 0, wide=700),
            page(names["bench sheet.pdf"], 1, wide=560),
        ]
        save(beside(sheets), "papers.png")
        surveyed = [
            page(papers / "survey sheet.pdf", 0, wide=760),
            page(papers / "truing sheet.pdf", 0, wide=520),
            page(next(to.glob("wrap list *.pdf")), 0, wide=520),
        ]
        save(beside(surveyed), "readings.png")


if __name__ == "__main__":
    main()
