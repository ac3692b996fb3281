"""The sheet of who is let in, in the program as it is started for the network."""

from __future__ import annotations

import hashlib
import re
import ssl

import pytest


@pytest.fixture(scope="module")
def on_network(start_served):
    # A name is given too, so that a machine without a network can run this.
    return start_served("--lan", "--name", "bench.test")


def test_a_link_is_made_once_and_the_one_let_in_by_it_is_struck_off(
    on_network, open_page, axe, look
):
    import httpx

    page = open_page(on_network)
    page.goto("/let-in")
    axe(page)
    look(page, "let-in")
    with page.expect_navigation():
        page.get_by_role("button", name="Let a phone in").click()
    axe(page)
    look(page, "let-in-link")
    link = page.get_by_text(re.compile(r"/enter\?token=")).inner_text()
    assert page.locator("figure svg").is_visible()
    token = link.split("token=")[1]
    answer = httpx.post(
        f"{on_network.address}/enter",
        data={"token": token, "name": "phone on the bench"},
        headers={"Origin": on_network.address},
        timeout=30,
    )
    assert answer.status_code == 303
    page.goto("/let-in")
    assert "/enter?token" not in page.content()
    page.get_by_role("link", name="Who is let in").wait_for()
    row = page.get_by_role("row", name=re.compile("phone on the bench"))
    with page.expect_navigation():
        row.get_by_role("button", name="Strike off phone on the bench").click()
    assert page.get_by_role("row").count() == 2
    assert page.get_by_role("row", name=re.compile(r"window bench \(this browser\)")).is_visible()


def test_for_this_machine_only_it_says_how_a_phone_could_come_in(page, axe, look):
    page.goto("/let-in")
    assert page.get_by_text("started for this machine only").is_visible()
    assert page.get_by_role("button", name="Let a phone in").count() == 0
    axe(page)
    look(page, "let-in-alone")


def test_sealed_it_shows_what_the_phone_must_show(start_served, open_page, axe, look):
    sealed = start_served("--https", "--lan", "--name", "bench.test")
    page = open_page(sealed, ignore_https_errors=True)
    page.goto("/let-in")
    shown = page.locator(".figure").first.inner_text().split()
    host, port = sealed.address.removeprefix("https://").split(":")
    true = ssl.PEM_cert_to_DER_cert(ssl.get_server_certificate((host, int(port))))
    assert bytes.fromhex("".join(shown)) == hashlib.sha256(true).digest()
    axe(page)
    look(page, "let-in-sealed")
