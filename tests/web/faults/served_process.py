"""The program served in a process of its own that can be killed, and a browser's line to it.

The process is forked from one that has loaded the pages already: 200 starts in minutes.
"""

from __future__ import annotations

import multiprocessing
import os
import re
import resource
import sys
import time
from html.parser import HTMLParser
from pathlib import Path

import httpx

FORKS = multiprocessing.get_context("forkserver")
# With the pages all that the beginning of a process of these tests would load anew each time.
FORKS.set_forkserver_preload(
    ["counterhoop.cli.commands", "counterhoop.web.app", "counterhoop.web.guard.serve",
     "counterhoop.web.guard.headers_in_time", "uvicorn", "alembic", "pytest", "httpx"]
)  # fmt: skip
LINK = re.compile(r"(http://127\.0\.0\.1:\d+)/enter\?token=(\S+)")
STARTS_S = 120


def serve(words, said, most_bytes):
    """Do what the command does, its words into a file; no file larger than so many bytes."""
    with open(said, "w", buffering=1, encoding="utf-8") as out:
        os.dup2(out.fileno(), 1)
        os.dup2(out.fileno(), 2)
        sys.stdout = sys.stderr = out
        if most_bytes:
            # The signal that goes with it is ignored by Python itself.
            resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, most_bytes))
        sys.argv = ["counterhoop", "serve", "--no-browser", "--port", "0", *words]
        from counterhoop.cli import main

        main()


class Served:
    """A server, and a browser that it let in."""

    def __init__(self, data, *words, most_bytes=0):
        self._said = Path(data).parent / f"{Path(data).name} said {time.monotonic_ns()}.txt"
        self.process = FORKS.Process(
            target=serve, args=(("--data", str(data), *words), str(self._said), most_bytes)
        )
        self.process.start()
        found = self._link()
        self.browser = httpx.Client(
            base_url=found[1], headers={"Origin": found[1]}, timeout=60, trust_env=False
        )
        entered = self.browser.post("/enter", data={"token": found[2], "name": "window bench"})
        assert entered.status_code == 303, entered.text

    @property
    def said(self):
        return self._said.read_text("utf-8") if self._said.exists() else ""

    def _link(self):
        until = time.monotonic() + STARTS_S
        while not (found := LINK.search(self.said)):
            assert self.process.is_alive(), self.said
            assert time.monotonic() < until, self.said
            time.sleep(0.01)
        return found

    def kill(self):
        """End the process as a lost battery does."""
        self.process.kill()
        self.process.join()

    def stop(self):
        """End it in good order, if it still runs."""
        self.browser.close()
        if self.process.is_alive():
            self.process.terminate()
        self.process.join(30)
        if self.process.is_alive():
            self.kill()

    def form(self, page, action):
        """Return the fields of a form as the page fills it in: what a press of its button sends."""
        answer = self.browser.get(page)
        assert answer.status_code == 200, answer.text
        return fields_of(answer.text, action)


class Form(HTMLParser):
    """Reads the fields of one form."""

    def __init__(self, action):
        super().__init__()
        self._action, self._inside, self._open = action, False, None
        self.found = False
        self.fields = {}

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        if tag == "form":
            self._inside = given.get("action") == self._action and not self.found
            self.found = self.found or self._inside
        if not self._inside:
            return
        name, kind = given.get("name"), given.get("type")
        if tag == "option" and self._open and "selected" in given:
            self.fields[self._open] = given.get("value", "")
        elif tag in ("select", "textarea") and name:
            self._open, self.fields[name] = name, ""
        elif tag == "input" and name and (kind not in ("radio", "checkbox") or "checked" in given):
            self.fields[name] = given.get("value") or ""

    def handle_data(self, data):
        if self._inside and self._open and self.lasttag == "textarea":
            self.fields[self._open] += data

    def handle_endtag(self, tag):
        if tag == "form":
            self._inside = False
        if tag in ("select", "textarea"):
            self._open = None


def fields_of(text, action):
    """Return what a form of a page would send as it stands."""
    reader = Form(action)
    reader.feed(text)
    assert reader.found, f"no form is sent to {action}"
    return reader.fields
