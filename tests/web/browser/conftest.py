"""A real server, a real browser, and what no page may do: complain, call elsewhere, overflow.

All tests that drive a browser live in this folder. Chromium is started for each module and not for
the whole run: while it runs, its event loop holds the thread, and others could not use theirs.
"""

from __future__ import annotations

import os
import re
import shutil
import ssl
import subprocess
import sys
import threading
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from counterhoop.web.guard.cookie import cookie_name
from counterhoop.web.guard.door import Door
from counterhoop.web.guard.pairing import PairedInMemory, let_in
from counterhoop.web.guard.serve import guarded_server, take_port
from counterhoop.web.guard.stack import Settings

# This folder's own modules; the worked job's drums, the bench that is planned in a hurry; the
# invented shells that papers are tried on.
TESTS = Path(__file__).parents[2]
sys.path[:0] = [
    str(Path(__file__).parent),
    *(str(TESTS / "web" / room) for room in ("bench", "date")),
    str(TESTS / "bench" / "promise"),
    str(TESTS / "papers"),
]

WIDE = {"width": 1280, "height": 900}
NARROW = {"width": 360, "height": 740}
LIGHTS = {"day": "light", "night": "dark"}
FLAGS = [
    *("--no-sandbox", "--disable-background-networking", "--disable-component-update"),
    *("--disable-sync", "--no-first-run"),
    # Whatever a page names, only this machine can be found.
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
AXE = """async tags => {
  const found = await axe.run(document, {runOnly: {type: 'tag', values: tags}});
  return found.violations.flatMap(rule =>
    rule.nodes.map(node => rule.id + ': ' + node.html.slice(0, 160) + ' | ' + node.failureSummary));
}"""
TOO_SMALL = """() => [...document.querySelectorAll(
    'button, summary, select, textarea, nav a, label.tick, input:not([type=hidden])')]
  .filter(one => !one.matches('[type=checkbox], [type=radio], .skip'))
  .filter(one => one.checkVisibility())
  .filter(one => one.getBoundingClientRect().height < 43.9)
  .map(one => one.outerHTML.slice(0, 120))"""
OVERHANG = """() => [...document.querySelectorAll('body *')]
  .filter(one => one.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map(one => one.outerHTML.slice(0, 100)).slice(0, 5)"""


@dataclass
class Served:
    """A server that runs: its address, where it keeps things, and the cookie that lets one in."""

    address: str
    cookie: dict
    data: Path | None = None
    process: subprocess.Popen | None = None
    # The settings of the guard, when the server runs in this process.
    settings: Settings | None = None


@dataclass
class Watch:
    """What a page said and asked for; a test fails when any of it was not allowed."""

    host: str
    said: list[str] = field(default_factory=list)
    # Chromium says so where a key was quicker than the focus that the page asks for: no fault.
    allowed: list[str] = field(default_factory=lambda: ["Autofocus processing was blocked"])

    def allow(self, pattern):
        """Let messages pass in which a pattern is found, such as "404" for a page that is gone."""
        self.allowed.append(pattern)

    def follow(self, page):
        page.on("console", lambda message: self.said.append(f"{message.type}: {message.text}"))
        page.on("pageerror", lambda fault: self.said.append(f"error: {fault}"))
        page.on("request", self._asked)

    def _asked(self, request):
        parts = urlsplit(request.url)
        if parts.scheme not in ("data", "blob") and parts.netloc != self.host:
            self.said.append(f"asked elsewhere: {request.url}")

    def complaints(self):
        return [
            line
            for line in self.said
            if not any(re.search(pattern, line) for pattern in self.allowed)
        ]


def cookie_for(address, value, *, name):
    secure = address.startswith("https:")
    return {
        "name": name,
        "value": value,
        "url": address,
        "httpOnly": True,
        "sameSite": "Strict",
        "secure": secure,
    }


# --- servers -----------------------------------------------------------------------------------


@pytest.fixture(scope="session")
def start_served(tmp_path_factory):
    """Start the program itself: a process of its own, a data folder of its own, a free port."""
    running = []

    def start(*words, data=None):
        data = data or tmp_path_factory.mktemp("data")
        begin = "from counterhoop.cli import main; main()"
        command = [sys.executable, "-c", begin, "serve", "--no-browser", "--port", "0"]
        process = subprocess.Popen(
            [*command, "--data", str(data), *words],
            stdout=subprocess.PIPE,
            stderr=(data / "stderr.txt").open("w"),
            text=True,
        )
        running.append(process)
        return enter(process, data)

    yield start
    for process in running:
        process.terminate()
    for process in running:
        process.wait(timeout=90)
        process.stdout.close()


def enter(process, data):
    """Read the printed link, go in by it once, and keep the cookie."""
    import httpx

    link = None
    for line in process.stdout:
        link = re.search(r"(https?://127\.0\.0\.1:\d+)/enter\?token=(\S+)", line)
        if link:
            break
    assert link, (data / "stderr.txt").read_text()
    address, token = link.groups()
    answer = httpx.post(
        f"{address}/enter",
        data={"token": token, "name": "window bench"},
        headers={"Origin": address},
        timeout=60,
        verify=ssl.create_default_context(cafile=data / "https.pem")
        if "https" in address
        else True,
    )
    assert answer.status_code == 303, answer.text
    ((name, value),) = answer.cookies.items()
    return Served(
        address=address,
        cookie=cookie_for(address, value, name=name),
        data=data,
        process=process,
    )


@pytest.fixture(scope="session")
def served(start_served):
    """The program, started once for all tests of this run that do not mind each other's jobs."""
    return start_served()


@pytest.fixture
def app_on():
    """Serve any app behind the guard, in this process: for specimens and planted mistakes."""
    running = []

    def serve(app):
        listening = take_port("127.0.0.1", 0)
        settings = Settings(door=Door(port=listening.getsockname()[1]), paired=PairedInMemory())
        server = guarded_server(app, settings=settings)
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        running.append((server, thread, listening))
        secret = let_in(settings.paired, name="window bench", kind="browser", now=datetime.now(UTC))
        address = settings.door.address()
        cookie = cookie_for(address, secret, name=cookie_name(settings.door))
        return Served(address=address, cookie=cookie, settings=settings)

    yield serve
    for server, _, _ in running:
        server.should_exit = True
    for _, thread, listening in running:
        thread.join(timeout=10)
        listening.close()


# --- browsers ----------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def launch():
    """Start Debian's Chromium with more flags, or skip and say how to get it."""
    path = shutil.which("chromium") or shutil.which("chromium-browser")
    if path is None:
        words = "no chromium here: apt-get install chromium"
        if os.environ.get("CI"):
            pytest.fail(words)
        pytest.skip(words)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        started = []

        def start(*flags):
            started.append(play.chromium.launch(executable_path=path, args=[*FLAGS, *flags]))
            return started[-1]

        yield start
        for browser in started:
            browser.close()


@pytest.fixture(scope="module")
def chromium(launch):
    """The browser of ``open_page``."""
    return launch()


@pytest.fixture
def open_page(chromium):
    """Open pages of a server; at the end none of them may have complained or called elsewhere.

    The page has ``watch``: ``page.watch.allow("404")`` where a complaint is what is tested.
    """
    opened = []

    def start(served, *, size=WIDE, let_in=True, **settings):
        context = chromium.new_context(base_url=served.address, viewport=size, **settings)
        context.set_default_timeout(15_000)
        if let_in:
            context.add_cookies([served.cookie])
        page = context.new_page()
        page.watch = Watch(host=urlsplit(served.address).netloc)
        page.watch.follow(page)
        opened.append((context, page.watch))
        return page

    yield start
    for context, _ in opened:
        context.close()
    assert [line for _, watch in opened for line in watch.complaints()] == []


@pytest.fixture
def page(open_page, served):
    """A page of a browser that was let in, as wide as a laptop."""
    return open_page(served)


@pytest.fixture
def phone(open_page, served):
    """A page as narrow as a small phone, touched and not clicked."""
    return open_page(served, size=NARROW, has_touch=True, is_mobile=True, device_scale_factor=2)


@pytest.fixture
def stranger(open_page, served):
    """A page of a browser that was not let in."""
    return open_page(served, let_in=False)


# --- what is asked of every page ---------------------------------------------------------------


@pytest.fixture(scope="session")
def axe_script():
    import axe_playwright_python

    return (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text("utf-8")


@pytest.fixture
def axe(axe_script):
    """Assert that axe-core finds nothing against a page, by day and by night."""

    def check(page):
        # Sent by the debugging line, which the policy of the page does not bind.
        page.evaluate(axe_script)
        for light, scheme in LIGHTS.items():
            page.emulate_media(color_scheme=scheme)
            assert page.evaluate(AXE, WCAG) == [], light
        page.emulate_media(color_scheme="light")

    return check


@pytest.fixture
def fits():
    """Assert that a page scrolls only downward, and that thumbs hit what is to be pressed."""

    def check(page):
        wide = page.evaluate("document.documentElement.scrollWidth")
        room = page.evaluate("document.documentElement.clientWidth")
        assert wide <= room, page.evaluate(OVERHANG)
        assert page.evaluate(TOO_SMALL) == []

    return check


@pytest.fixture(scope="session")
def wanted_pictures():
    """Return the folder that $COUNTERHOOP_PICTURES names, or nothing: a picture proves nothing."""
    return os.environ.get("COUNTERHOOP_PICTURES")


@pytest.fixture(scope="session")
def pictures(wanted_pictures, tmp_path_factory):
    """Return the folder for what is looked at: the named one, or one that is thrown away."""
    folder = Path(wanted_pictures) if wanted_pictures else tmp_path_factory.mktemp("pictures")
    folder.mkdir(parents=True, exist_ok=True)
    return folder


@pytest.fixture
def look(wanted_pictures, pictures, fits):
    """See that a page fits, narrow and wide; if asked for, take its picture by day and night."""

    def take(page, name):
        before = page.viewport_size
        for size in (NARROW, WIDE):
            page.set_viewport_size(size)
            fits(page)
            for light, scheme in LIGHTS.items() if wanted_pictures else ():
                page.emulate_media(color_scheme=scheme)
                path = pictures / f"{name}-{size['width']}-{light}.png"
                page.screenshot(path=path, full_page=True)
        page.emulate_media(color_scheme="light")
        page.set_viewport_size(before)

    return take
