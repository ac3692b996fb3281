"""What the tests of a folder do again and again."""

from __future__ import annotations

import io
from importlib.resources import files

from PIL import Image

from counterhoop.bench.folders.folder import kept_job

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
PART = {"HX-Request": "true"}


def drum_of(shop, job):
    return kept_job(shop, job).drums[0].id


def jpeg(side=60):
    out = io.BytesIO()
    Image.new("RGB", (side, side // 2), "white").save(out, "JPEG")
    return out.getvalue()


def put_in(ask, job, *named, **fields):
    sent = [("files", (name, content)) for name, content in named]
    return ask.post(f"/jobs/{job}/photographs", files=sent, data=fields)
