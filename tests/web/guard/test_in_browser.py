"""The rules against a real browser: what it sends on behalf of a foreign page is what counts.

Foreign names are made to resolve to this machine by the browser's own resolver rules, so that no
request leaves it. Chromium runs for this module only: its loop holds the thread while it does.
"""

from __future__ import annotations

import http.server
import os
import shutil
import threading
import time

import pytest

from counterhoop.web.guard.cookie import cookie_name

REBOUND, LAN_NAME = "rebound.test", "bench.test"
FLAGS = [
    *("--no-sandbox", "--disable-background-networking", "--disable-component-update"),
    *("--disable-sync", "--no-first-run"),
    # Not every browser asks before a page calls into a local network: here none may help us.
    "--disable-features=LocalNetworkAccessChecks,BlockInsecurePrivateNetworkRequests",
    "--host-resolver-rules="
    f"MAP {REBOUND} 127.0.0.1, MAP {LAN_NAME} 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]
# What a foreign page can do without asking: read, write as a form does, load, frame.
TRIES = """async base => {
  const told = {};
  const asked = async (name, path, settings) => {
    try {
      const answer = await fetch(base + path, {credentials: 'include', ...settings});
      told[name] = [answer.type, answer.status, await answer.text()];
    } catch (fault) { told[name] = ['refused', 0, '']; }
  };
  const body = () => new URLSearchParams({text: 'planted'});
  await asked('read', '/', {});
  await asked('read unasked', '/', {mode: 'no-cors'});
  await asked('write', '/notes', {method: 'POST', body: body()});
  await asked('write unasked', '/notes', {method: 'POST', mode: 'no-cors', body: body()});
  await asked('delete', '/notes', {method: 'DELETE'});
  const framed = document.createElement('iframe');
  framed.src = base + '/';
  document.body.append(framed);
  await new Promise(done => { framed.onload = done; setTimeout(done, 2000); });
  try { told.framed = framed.contentDocument.body.innerText; } catch (fault) { told.framed = ''; }
  const style = document.createElement('link');
  Object.assign(style, {rel: 'stylesheet', href: base + '/static/paper.css'});
  const loaded = new Promise(done => {
    style.onload = () => done(true);
    style.onerror = () => done(false);
  });
  document.head.append(style);
  told.styled = await loaded;
  return told;
}"""
FORM = """base => {
  const form = document.createElement('form');
  Object.assign(form, {method: 'post', action: base + '/notes'});
  const field = document.createElement('input');
  Object.assign(field, {name: 'text', value: 'planted'});
  form.append(field);
  document.body.append(form);
  form.submit();
}"""


@pytest.fixture(scope="module")
def chromium():
    path = shutil.which("chromium") or shutil.which("chromium-browser")
    if path is None:
        words = "no chromium here: apt-get install chromium"
        if os.environ.get("CI"):
            pytest.fail(words)
        pytest.skip(words)
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def browse(chromium):
    """Open pages in a browser that was let in at a door, under one of its names."""
    opened = []

    def start(door, *, name="127.0.0.1"):
        context = chromium.new_context(ignore_https_errors=True)
        context.set_default_timeout(15_000)
        context.add_cookies(
            [
                {
                    "name": cookie_name(door.settings.door),
                    "value": door.pair().split("=", 1)[1],
                    "url": door.settings.door.address(name),
                    "httpOnly": True,
                    "sameSite": "Strict",
                    "secure": door.settings.door.scheme == "https",
                }
            ]
        )
        opened.append(context)
        return context.new_page()

    yield start
    for context in opened:
        context.close()


@pytest.fixture
def elsewhere():
    """Another program on this machine: its pages lie on the same host, at another port."""

    class Empty(http.server.BaseHTTPRequestHandler):
        def do_GET(self):
            self.send_response(200)
            self.send_header("Content-Type", "text/html")
            self.end_headers()
            self.wfile.write(b"<!doctype html><title>elsewhere</title><body></body>")

        def log_message(self, *_):
            pass

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Empty)
    serving = threading.Thread(target=server.serve_forever, daemon=True)
    serving.start()
    yield server.server_port
    server.shutdown()
    serving.join()
    server.server_close()


def planted(page, address):
    """Show a page of an attacker's at an address whose other pages come from whoever answers."""
    page.route(
        f"{address}/attack",
        lambda route: route.fulfill(
            content_type="text/html", body="<!doctype html><title>attack</title><body></body>"
        ),
    )
    page.goto(f"{address}/attack")


def test_a_rebound_name_reads_and_writes_nothing(open_door, browse):
    """The page and we are one origin to the browser; the cookie is there too, to leave the name."""
    door = open_door()
    address = f"http://{REBOUND}:{door.port}"
    page = browse(door)
    page.context.add_cookies(
        [
            {
                "name": cookie_name(door.settings.door),
                "value": door.pair().split("=", 1)[1],
                "url": address,
            }
        ]
    )
    planted(page, address)
    told = page.evaluate(TRIES, "")
    for name in ("read", "read unasked", "write", "write unasked", "delete"):
        kind, status, text = told[name]
        assert (kind, status) == ("basic", 421)
        assert "the first page" not in text
    assert "the first page" not in told["framed"]
    assert told["styled"] is False
    with page.expect_navigation() as done:
        page.evaluate(FORM, "")
    assert done.value.status == 421
    assert (door.reached, door.notes) == ([], [])


def test_the_same_page_would_get_through_a_door_that_knew_the_name(open_door, browse):
    """The try itself can succeed: only the Host line stands between."""
    door = open_door(names=(REBOUND,))
    page = browse(door, name=REBOUND)
    planted(page, f"http://{REBOUND}:{door.port}")
    told = page.evaluate(TRIES, "")
    assert told["read"][1:] == [200, "the first page"]
    assert told["write"][1:] == [200, "the first page"]
    assert told["styled"] is True
    assert door.notes == ["planted", "planted"]


@pytest.mark.parametrize("sealed", [False, True])
def test_a_program_on_another_port_reads_and_writes_nothing(open_door, browse, elsewhere, sealed):
    """To browsers it is the same site, so that even strict cookies go along (RFC 6265bis, 5.2)."""
    door = open_door(https=sealed)
    page = browse(door)
    page.goto(f"http://127.0.0.1:{elsewhere}/")
    told = page.evaluate(TRIES, door.origin)
    assert told["read"][0] == told["write"][0] == told["delete"][0] == "refused"
    assert "the first page" not in str(told)
    assert told["styled"] is False
    with page.expect_navigation() as done:
        page.evaluate(FORM, door.origin)
    assert done.value.status in (401, 403)
    assert door.notes == []
    assert {method for method, _ in door.reached} <= {"GET"}


def test_another_name_of_this_machine_is_cross_site_and_gets_nothing(open_door, browse, elsewhere):
    door = open_door()
    page = browse(door)
    page.goto(f"http://{REBOUND}:{elsewhere}/")
    told = page.evaluate(TRIES, door.origin)
    assert "the first page" not in str(told)
    assert told["styled"] is False
    with page.expect_navigation() as done:
        page.evaluate(FORM, door.origin)
    assert done.value.status == 403
    assert door.notes == []
    assert ("GET", "/") not in door.reached


@pytest.mark.parametrize("sealed", [False, True])
@pytest.mark.parametrize("name", ["127.0.0.1", LAN_NAME])
def test_our_own_pages_write_under_each_name_sealed_or_not(open_door, browse, sealed, name):
    """Over plain http a name of the network sends no Sec-Fetch-Site: there the Origin decides."""
    door = open_door(names=(LAN_NAME,), https=sealed)
    page = browse(door, name=name)
    sent = []
    page.on("request", lambda request: sent.append(request.all_headers()))
    page.goto(door.settings.door.address(name) + "/")
    with page.expect_navigation() as done:
        page.evaluate(FORM, "")
    assert (done.value.status, page.inner_text("body")) == (200, "the first page")
    assert door.notes == ["planted"]
    trusted = sealed or name == "127.0.0.1"
    assert all(("sec-fetch-site" in headers) is trusted for headers in sent if ":" not in headers)


@pytest.mark.parametrize("sealed", [False, True])
def test_only_sealed_pages_give_a_phone_its_microphone(open_door, browse, sealed):
    door = open_door(names=(LAN_NAME,), https=sealed)
    page = browse(door, name=LAN_NAME)
    page.goto(door.settings.door.address(LAN_NAME) + "/")
    assert page.evaluate("isSecureContext && !!navigator.mediaDevices") is sealed
    allowed = "document.featurePolicy.allowsFeature('microphone')"
    assert page.evaluate(allowed) is True


def test_no_script_in_a_page_runs_whoever_wrote_it(open_door, browse):
    door = open_door()
    page = browse(door)
    page.goto(f"{door.origin}/")
    said = []
    page.on("console", lambda message: said.append(message.text))
    page.evaluate(
        """() => {
          const script = document.createElement('script');
          script.textContent = "document.title = 'taken'";
          const picture = document.createElement('img');
          picture.setAttribute('onerror', "document.title = 'taken'");
          picture.src = '/none.png';
          document.body.append(script, picture);
          return new Promise(done => picture.addEventListener('error', () => setTimeout(done, 50)));
        }"""
    )
    assert page.title() != "taken"
    assert any("Content Security Policy" in line for line in said)


def test_the_stream_of_a_struck_off_browser_closes_for_good(open_door, browse):
    door = open_door()
    page = browse(door)
    page.goto(f"{door.origin}/")
    page.evaluate(
        """() => {
          window.stream = new EventSource('/stream?every_s=3600');
          return new Promise(done => window.stream.addEventListener('first', done));
        }"""
    )
    assert page.evaluate("window.stream.readyState") == 1
    door.settings.paired.strike_off(1)
    # The browser asks again after a while, is told 401, and gives up.
    deadline = time.monotonic() + 15
    while page.evaluate("window.stream.readyState") != 2:
        assert time.monotonic() < deadline
        page.wait_for_timeout(100)
    assert page.goto(f"{door.origin}/").status == 401


def test_the_way_in_by_the_link_works_in_a_browser_and_leaves_no_code_behind(open_door, chromium):
    for sealed in (False, True):
        door = open_door(https=sealed)
        token = door.settings.links.make(now=door.clock.now())
        context = chromium.new_context(ignore_https_errors=True)
        page = context.new_page()
        page.goto(f"{door.origin}/enter?token={token}")
        page.get_by_label("What shall this phone or computer be called?").fill("bench phone")
        with page.expect_navigation():
            page.get_by_role("button", name="Let this browser in").click()
        assert page.url == f"{door.origin}/"
        assert page.inner_text("body") == "the first page"
        (cookie,) = context.cookies()
        assert (cookie["httpOnly"], cookie["sameSite"], cookie["secure"]) == (
            True,
            "Strict",
            sealed,
        )
        assert page.evaluate("document.cookie") == ""
        context.close()
