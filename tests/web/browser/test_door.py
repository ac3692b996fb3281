"""The program as a person meets it first: the link, the press, a page that is not there."""

from __future__ import annotations


def test_the_link_shows_a_form_that_keeps_to_wcag(served, stranger, axe, look):
    stranger.goto("/enter?token=used-up")
    axe(stranger)
    look(stranger, "enter")


def test_a_code_that_is_not_good_is_said_and_nobody_is_in(served, stranger):
    stranger.watch.allow("403|401")
    stranger.goto("/enter?token=used-up")
    with stranger.expect_navigation() as done:
        stranger.get_by_role("button", name="Let this browser in").click()
    assert done.value.status == 403
    assert "not good" in stranger.locator("body").inner_text()
    assert stranger.goto("/none").status == 401


def test_a_page_that_is_not_there_says_so_in_our_look(page, axe, look):
    page.watch.allow("404")
    assert page.goto("/no/such/page").status == 404
    assert page.get_by_role("heading", level=1).inner_text() == "That is not here"
    assert "window bench" in page.locator("footer").inner_text()
    axe(page)
    look(page, "not-here")


def test_a_choice_made_on_one_page_holds_on_the_next(page):
    page.watch.allow("404")
    page.goto("/no/such/page?drum=small%20tom")
    with page.expect_navigation():
        page.get_by_role("button", name="night").click()
    assert page.url.endswith("/no/such/page?drum=small%20tom")
    page.goto("/another")
    assert page.evaluate("document.documentElement.dataset.light") == "night"


def test_what_a_page_is_made_of_weighs_little_and_is_fetched_once(page):
    """The limit is the design's own: 300 KB for a page with all that it needs."""
    page.watch.allow("404")
    sizes, asked = {}, []
    page.on("response", lambda answer: sizes.setdefault(answer.url, len(answer.body())))
    page.goto("/no/such/page", wait_until="networkidle")
    page.evaluate("document.fonts.ready.then(() => true)")
    assert sum(sizes.values()) < 300_000, sizes
    assert sum(".woff2" in url for url in sizes) == 2
    page.on("request", lambda request: asked.append(request))
    page.goto("/another", wait_until="networkidle")
    fetched = [
        one.url
        for one in asked
        if (answer := one.response())
        and not one.url.endswith("/another")
        and not answer.from_service_worker
        and one.sizes()["responseBodySize"] > 0
    ]
    assert fetched == []
