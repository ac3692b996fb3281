"""Stamps, bodies, photographs and a filled store for the tests."""

from __future__ import annotations

import datetime as dt
import io
import wave
from pathlib import Path
from typing import Any

from PIL import Image
from sqlalchemy import Connection, select

from counterhoop.quantities.length import parse_length
from counterhoop.store.as_found import correct, settle_as_found
from counterhoop.store.body import Json, hash_of, write_body
from counterhoop.store.drum_tab import DrumTab, write_tabs
from counterhoop.store.enclosures.enclose import enclose
from counterhoop.store.enclosures.keep import keep_file
from counterhoop.store.hide import Thing, bring_back, hide
from counterhoop.store.job_folder import open_job
from counterhoop.store.revision import Revision
from counterhoop.store.save import Conflict, Saved, save
from counterhoop.store.stamp import Stamp
from counterhoop.store.store import Store
from counterhoop.store.tables import METADATA
from counterhoop.store.undo import choose_revision

START = dt.datetime(2026, 3, 4, 9, 0, tzinfo=dt.UTC)
SURVEY = b'# as read at the bench\r\nname = "small tom"\ndepth = "5 1/2 in"\n'


def stamp(minutes: int = 0, bench: str = "window bench") -> Stamp:
    return Stamp(when=START + dt.timedelta(minutes=minutes), bench=bench)


def saved(outcome: Saved | Conflict) -> Revision:
    assert isinstance(outcome, Saved), outcome
    return outcome.revision


def conflict(outcome: Saved | Conflict) -> Conflict:
    assert isinstance(outcome, Conflict), outcome
    return outcome


def rows_of(store: Store) -> dict[str, list[tuple[Any, ...]]]:
    """Return every row of every table, sorted."""
    with store.reading() as connection:
        return {
            table.name: sorted((tuple(row) for row in connection.execute(select(table))), key=repr)
            for table in METADATA.sorted_tables
        }


def files_of(folder: Path) -> dict[str, bytes]:
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in folder.rglob("*")
        if file.is_file()
    }


def photograph(
    kind: str = "JPEG", *, with_position: bool = True, shade: int = 90, more: bytes = b""
) -> bytes:
    """Return a small photograph that tells where it was taken."""
    import pillow_heif

    pillow_heif.register_heif_opener()
    notes = Image.Exif()
    notes[0x010F] = "Invented Camera"
    notes[0x0112] = 6
    notes.get_ifd(0x8769)[0x9003] = "2026:03:04 10:00:00"
    if with_position:
        notes.get_ifd(0x8825).update(
            {1: "N", 2: (51.0, 30.0, 27.25), 3: "W", 4: (0.0, 7.0, 40.5), 29: "2026:03:04"}
        )
    picture = Image.linear_gradient("L").resize((64, 48)).convert("RGB")
    picture.paste((shade, 40, 40), (8, 8, 24, 24))
    out = io.BytesIO()
    picture.save(out, kind, exif=notes.tobytes())
    return out.getvalue() + more


def sound(seconds: float = 0.05) -> bytes:
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(8000)
        file.writeframes(bytes(2 * int(8000 * seconds)))
    return out.getvalue()


def note_in_first_shape(connection: Connection, text: str, *, times: int = 1) -> None:
    """Write a note as the first Counterhoop did: no later one saves into a store of its shape."""
    connection.exec_driver_sql(
        f"INSERT INTO document (id, kind, name, head) VALUES ('d', 'notes', '', {times})"
    )
    body = write_body(text)
    for number in range(1, times + 1):
        connection.exec_driver_sql(
            "INSERT INTO revision (document_id, number, made_at, bench, based_on, body, sha256)"
            f" VALUES ('d', {number}, '{stamp().written}', 'phone', {number - 1},"
            f" '{body}', '{hash_of(body, None)}')"
        )


def fill(store: Store) -> str:
    """Put something of everything into a store and return the job's name."""
    pictures = [keep_file(store, [photograph(kind)]) for kind in ("JPEG", "PNG", "HEIF")]
    pictures.append(keep_file(store, [sound()]))
    with store.writing() as w:
        job = open_job(w, title="Corvane kit, ½ done – “quick”", stamp=stamp())
        other = open_job(w, title="Hallmere snare", stamp=stamp(1, "phone"))
        length = parse_length
        tabs = [
            DrumTab(name="small tom", diameter=length("12 in"), depth=length("5 1/2 in")),
            DrumTab(name="bass", diameter=length("559 mm"), depth=length("14 1/64 in")),
        ]
        write_tabs(w, job_id=job, tabs=tabs)
        body: Json = {"name": "small tom", "depth": "5 1/2 in", "holes": [1, 2.5, None, True]}
        survey = saved(
            save(
                w, job_id=job, kind="survey", body=body, based_on=0, stamp=stamp(2), original=SURVEY
            )
        )
        settle_as_found(w, document_id=survey.document_id, number=1)
        correct(
            w,
            document_id=survey.document_id,
            pointer="/depth",
            new="5 9/16 in",
            why="read off the wrong edge of the rule",
            based_on=1,
            stamp=stamp(3),
        )
        for turn, text in enumerate(["lugs off", "lugs off, \udc80 odd \x00 signs", "é"]):
            save(w, job_id=job, kind="notes", body=text, based_on=turn, stamp=stamp(4 + turn))
        notes = saved(
            save(w, job_id=job, kind="notes", body="third", based_on=3, stamp=stamp(8, "phone"))
        )
        choose_revision(
            w, document_id=notes.document_id, number=1, based_on=4, stamp=stamp(9)
        )  # fmt: skip
        save(
            w, job_id=None, kind="shop rules", body={"flat": 0.1}, based_on=0, stamp=stamp(10),
            original=b"flat = '0.1 mm'\n\xff",
        )  # fmt: skip
        names = ("../../front\x00.jpg", "=1+1.png", "badge.heic", "tap.wav")
        enclosed = [
            enclose(w, job_id=job, drum="bass", file=file, name_given=name, stamp=stamp(11))
            for file, name in zip(pictures, names, strict=True)
        ]
        hide(w, thing=Thing.ENCLOSURE, thing_id=enclosed[1], stamp=stamp(12))
        hide(w, thing=Thing.JOB, thing_id=other, stamp=stamp(13))
        bring_back(w, thing=Thing.JOB, thing_id=other, stamp=stamp(14, "phone"))
        hide(w, thing=Thing.JOB, thing_id=other, stamp=stamp(15))
    return job
