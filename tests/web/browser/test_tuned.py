"""A drum tapped, recorded, listened to and kept, in a real browser.

Truth: what a person sees and presses, step by step; WCAG 2.2 as axe-core reads it; the recordings
of the worked job, with what its model put into them.
"""

from __future__ import annotations

import re

import pytest
from worked_drums import survey_of

from counterhoop.bench.demonstration.recordings import recordings

TOM = "low tom"
BEFORE, AFTER = "low-tom-rim-before.wav", "low-tom-rim-after.wav"
LONG_MS = 90_000


@pytest.fixture(scope="module")
def own(start_served):
    """A store of this module's own, with one drum: it is planned in a moment."""
    return start_served()


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """The recordings, the survey of one drum, and a text that is called a recording."""
    folder = tmp_path_factory.mktemp("recorder")
    for one in recordings():
        if one.name in (BEFORE, AFTER):
            (folder / one.name).write_bytes(one.wav)
    (folder / "survey.toml").write_bytes(survey_of(TOM))
    (folder / "notes.m4a").write_text("Lug 4 is loose.\n" * 40)
    return folder


@pytest.fixture(scope="module")
def chromium(launch, files):
    """The browser of ``open_page``: its microphone hears the first recording again and again."""
    return launch(
        *("--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"),
        f"--use-file-for-fake-audio-capture={files / BEFORE}",
    )


@pytest.fixture
def page(open_page, own):
    return open_page(own)


def sheet_of(page, files):
    """Open the drum's sheet; its folder is taken in by the first who asks."""
    page.set_default_timeout(LONG_MS)
    page.goto("/")
    folder = page.get_by_role("link", name=re.compile("Lantern Lane"))
    if not folder.count():
        taken = page.locator('form[action="/jobs/taken-in"]')
        details = page.locator("details:has(form[action='/jobs/taken-in'])")
        if details.count() and not taken.is_visible():
            details.locator("summary").first.click()
        taken.locator("input[type=file]").set_input_files(files / "survey.toml")
        taken.get_by_role("button", name="Take it in").click()
    else:
        folder.first.click()
    page.get_by_role("navigation", name="Sheets of this folder").wait_for()
    page.get_by_label("Sheets of this folder").get_by_role("link", name=TOM).click()
    page.get_by_label("Sheets of this folder").get_by_role("link", name="Tuned", exact=True).click()
    page.get_by_text("struck in the middle").first.wait_for()
    page.locator(".drum-picture svg").wait_for()


def send(page, file, *, stage):
    page.get_by_label("Recording", exact=True).set_input_files(file)
    page.get_by_label("yes, with a cloth").check()
    page.get_by_label("When", exact=True).select_option(stage)
    page.get_by_role("button", name="Listen to it").click()
    page.get_by_role("button", name="Keep this reading").wait_for()


def test_taps_before_and_after_are_kept_and_set_side_by_side(page, files, axe, look):
    sheet_of(page, files)
    axe(page)
    look(page, "tuned")
    page.watch.allow("422")
    page.get_by_label("Recording", exact=True).set_input_files(files / "notes.m4a")
    page.get_by_label("First tap near rod").fill("1")
    page.get_by_label("yes, with a cloth").check()
    page.get_by_role("button", name="Listen to it").click()
    page.get_by_role("alert").wait_for()
    assert (
        "this is no recording: choose a sound file or a film"
        in page.get_by_role("alert").inner_text()
    )
    assert page.get_by_label("First tap near rod").input_value() == "1"
    assert page.get_by_role("button", name="Record here").is_visible()

    send(page, files / BEFORE, stage="before")
    rods = page.get_by_label(re.compile(r"Stroke \d is"))

    def values():
        return [rods.nth(at).input_value() for at in range(rods.count())]

    # As put in: eight rods in order, rod 5 twice, and the first time it was struck too hard.
    in_order = ["1", "2", "3", "4", "5", "6", "7", "8"]
    assert values() == in_order
    page.get_by_label("Stroke 1 is").select_option("2")
    page.get_by_label("The strokes after the first that you change follow in order").check()
    page.get_by_role("button", name="Read it again so").click()
    page.get_by_role("link", name="Take them in order again").wait_for()
    page.get_by_role("button", name="Keep this reading").wait_for()
    assert values() == [*in_order[1:], "1"]
    page.get_by_role("link", name="Take them in order again").click()
    page.locator("#strip-1 svg").wait_for()
    assert values() == in_order
    assert page.get_by_text("too loud for the recorder").is_visible()
    assert page.locator("#strip-1 svg").is_visible()
    assert not page.locator("#strip-narrow-1").is_visible()
    axe(page)
    look(page, "tuned-sound")
    # The last stroke left out by hand: the reading goes on without it.
    rods.last.select_option("0")
    page.get_by_role("button", name="Read it again so").click()
    page.get_by_text("Left out by hand.").wait_for()
    page.get_by_label("A word beside it").fill("quiet room")
    page.get_by_role("button", name="Keep this reading").click()
    page.get_by_role("heading", name="Before and after").wait_for()
    assert page.get_by_text("Quiet room.").is_visible()
    # What comes next is no longer the first.
    assert page.get_by_label("When", exact=True).input_value() == "between"

    send(page, files / AFTER, stage="after")
    page.get_by_role("button", name="Keep this reading").click()
    page.get_by_text("2 readings").wait_for()
    assert page.locator("#strip-1 svg").is_visible()
    assert page.locator("#strip-2 svg").is_visible()
    axe(page)
    look(page, "tuned-both")
    page.get_by_role("button", name="Undo the last step").click()
    page.get_by_text("1 reading", exact=True).wait_for()


def test_taps_are_recorded_in_the_page_with_a_live_level(page, files):
    sheet_of(page, files)
    assert not page.get_by_text("This page cannot listen here").is_visible()
    page.get_by_role("button", name="Record here").click()
    level = page.get_by_role("progressbar", name="Level")
    level.wait_for()
    page.wait_for_function("() => document.querySelector('[data-part=level]').value > 0.2")
    says = page.locator("[data-part=says]")
    page.wait_for_function(
        "() => /^Level: .+/.test(document.querySelector('[data-part=says]').textContent)"
    )
    # Three taps and more; the microphone hears the worked job's recording.
    page.wait_for_timeout(8_000)
    page.get_by_role("button", name="Stop recording").click()
    page.get_by_role("button", name="Record anew").wait_for()
    assert re.match(r"Recorded \d+ s, and chosen below", says.inner_text())
    assert page.evaluate("document.getElementById('recording-file').files[0].size") > 10_000
    page.get_by_label("yes, with a cloth").check()
    page.get_by_role("button", name="Listen to it").click()
    page.get_by_role("heading", name="Strokes").wait_for()
    page.get_by_label(re.compile(r"Stroke \d is")).first.wait_for()
    assert page.get_by_label(re.compile(r"Stroke \d is")).count() >= 3


def test_a_scheme_is_heard_and_the_kit_has_its_pitches(page, files, axe, look):
    sheet_of(page, files)
    page.get_by_role("link", name="Hear it").click()
    sound = page.locator("audio").first
    sound.wait_for()
    sound.evaluate("one => one.play()")
    page.wait_for_function("() => document.querySelector('audio').currentTime > 0.3")
    assert sound.evaluate("one => one.duration") == pytest.approx(2.5, abs=0.1)
    axe(page)
    look(page, "tuned-hear")
    page.get_by_role("link", name="The kit tuned").click()
    page.get_by_text("struck in the middle").first.wait_for()
    axe(page)
    look(page, "tuned-kit")


def test_where_no_page_may_listen_a_file_is_asked_for(open_page, own, files):
    page = open_page(own)
    page.add_init_script("Object.defineProperty(navigator, 'mediaDevices', {value: undefined})")
    sheet_of(page, files)
    assert page.get_by_text("This page cannot listen here").is_visible()
    assert not page.get_by_role("button", name="Record here").is_visible()
