"""The workshop's own sheets in a real browser: an own lug, the rules, the printer, a backup.

Truth: what a person sees and types, step by step; WCAG 2.2 as axe-core reads it.
"""

from __future__ import annotations

import re
import subprocess
import sys

import pytest


@pytest.mark.parametrize(
    "path",
    [
        "/workshop",
        "/workshop/fittings",
        "/workshop/fittings?find=lug",
        "/workshop/fittings/entry?name=Corvane+round+lug",
        "/workshop/fittings/entry?name=Corvane+lever+strainer",
        "/workshop/fittings/entry?name=rod+12-24+x+42+mm",
        "/workshop/fittings/own/new",
        "/workshop/fittings/own/new?like=Corvane+round+lug&over=yes",
        "/workshop/rules",
        "/workshop/printer",
        "/workshop/safe",
    ],
)
def test_the_sheets_keep_to_wcag_and_fit(page, axe, look, path):
    page.goto(path)
    axe(page)
    look(page, "own" + re.sub(r"\W+", "-", path.removeprefix("/workshop"))[:30])


def test_an_own_lug_is_typed_drawn_and_then_offered(page, served):
    page.goto("/workshop/fittings/own/new")
    page.get_by_label("What it is").select_option("lug")
    with page.expect_navigation():
        page.get_by_role("button", name="Next: its measures").click()
    page.wait_for_url("**/workshop/fittings/own/*")
    base = page.get_by_role("group", name="Base")
    base.get_by_label("Shape").select_option("rounded")
    page.get_by_text("Kept ").first.wait_for()
    base.get_by_label("Width").fill("22 mm")
    base.get_by_label("Height").fill("56 mm")
    base.get_by_label("Radius of its corners").fill("11 mm")
    for number, down in ((1, "-21 mm"), (2, "21 mm")):
        hole = page.get_by_role("group", name=f"Hole {number}" if number == 1 else "One more hole")
        hole.get_by_label("Down", exact=True).fill(down)
        hole.get_by_label("Hole in the shell").fill("6 mm")
        hole.get_by_label("Screw through it").fill("4.8 mm")
        hole.get_by_label("Screw through it").press("Tab")
        page.get_by_role("group", name="One more hole").get_by_label("Down", exact=True).wait_for()
        page.wait_for_function(
            "n => document.querySelectorAll('#entry-fields legend').length >= n + 3", arg=number
        )
    for label, value in (
        ("Where the figures come from", "measured, caliper, two of them"),
        ("Stands out by", "21 mm"),
        ("Thread of the rods", "12-24"),
        ("Shell to the middle of the rod", "10 mm"),
        ("Free depth in the lug", "28 mm"),
        ("Lug mouth", "-28 mm"),
        ("Name", "Quennick pin lug"),
    ):
        page.get_by_label(label, exact=True).fill(value)
    page.get_by_label("Name", exact=True).press("Tab")
    page.locator("#entry-drawn svg").wait_for()
    with page.expect_navigation():
        page.get_by_role("button", name="Write it down").click()
    assert page.get_by_role("heading", name="Quennick pin lug").is_visible()
    assert "22.0 wide x 56.0 tall mm" in page.locator("main").inner_text()
    # Offered where the lug of a row is chosen.
    page.goto("/drums/new")
    assert page.locator('datalist option[value="Quennick pin lug"]').count() >= 1


def test_a_limit_is_changed_by_keyboard_and_marked(page):
    page.watch.allow("422")
    page.goto("/workshop/rules")
    page.locator("#nest summary").focus()
    page.keyboard.press("Enter")
    field = page.locator("#nest").get_by_label("Yours")
    field.fill("7")
    with page.expect_navigation():
        field.press("Enter")
    fault = page.locator("#nest .fault")
    assert fault.inner_text() == "7 what: mm or in?"
    field = page.locator("#nest").get_by_label("Yours")
    assert field.input_value() == "7"
    field.fill("7 mm")
    with page.expect_navigation():
        field.press("Enter")
    assert "yours" in page.locator("#nest summary").inner_text()


def test_a_backup_made_on_the_page_is_brought_back_by_the_command(
    start_served, open_page, axe, look, tmp_path
):
    here = start_served()
    page = open_page(here)
    page.goto("/workshop/safe")
    with page.expect_navigation():
        page.get_by_role("button", name="Make a backup now").click()
    page.get_by_text("The backup is made").wait_for()
    axe(page)
    look(page, "own-safe-made")
    with page.expect_download() as loaded:
        page.locator(".copies a").first.click()
    archive = tmp_path / "carried.zip"
    loaded.value.save_as(archive)
    back = tmp_path / "back"
    begin = "from counterhoop.cli import main; main()"
    done = subprocess.run(
        [sys.executable, "-c", begin, "restore", str(archive), "--data", str(back)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert (back / "counterhoop.sqlite3").is_file()


def test_a_program_is_let_in_with_a_token_shown_once(start_served, open_page, axe, look):
    import httpx

    here = start_served()
    page = open_page(here)
    page.goto("/let-in")
    page.get_by_label("What it is called", exact=False).fill("label printer")
    with page.expect_navigation():
        page.get_by_role("button", name="Let a program in").click()
    token = page.get_by_label("Token").inner_text().strip()
    axe(page)
    look(page, "own-let-in-program")
    bearer = {"Authorization": f"Bearer {token}"}
    assert httpx.get(f"{here.address}/api/jobs").status_code == 401
    answer = httpx.get(f"{here.address}/api/jobs", headers=bearer)
    assert (answer.status_code, answer.json()["count"]) == (200, 0)
    made = httpx.post(f"{here.address}/api/jobs", json={"job": {"number": "1"}}, headers=bearer)
    assert made.status_code == 201
    wrong = {"Authorization": f"Bearer {token[:-1]}x"}
    assert httpx.get(f"{here.address}/api/jobs", headers=wrong).status_code == 401
    page.goto("/let-in")
    assert token not in page.content()
    with page.expect_navigation():
        page.get_by_role("button", name="Strike off label printer").click()
    assert httpx.get(f"{here.address}/api/jobs", headers=bearer).status_code in (401, 429)
