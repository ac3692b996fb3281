"""The process that plans is killed while a page waits for it: said, and tried again at a press."""

from __future__ import annotations

import re
import threading
import time
from importlib.resources import files
from pathlib import Path

SEVEN = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
PATIENCE_S = 240
NOT_BEGUN = ("Gets ready", "Waits its turn")


def planners(pid):
    """Return the processes that a server has started for long work, by the kernel's own list."""
    found = []
    for process in Path("/proc").iterdir():
        try:
            parent = int((process / "stat").read_text().rpartition(")")[2].split()[1])
            command = (process / "cmdline").read_text()
        except (OSError, ValueError, IndexError):
            continue
        if parent == pid and "spawn_main" in command:
            found.append(int(process.name))
    return found


def until(asked, held):
    """Ask again and again until the answer is as wanted, and return it."""
    end = time.monotonic() + PATIENCE_S
    while not held(answer := asked()):
        assert time.monotonic() < end, answer
        time.sleep(0.02)
    return answer


def test_a_planner_that_is_killed_is_said_and_begun_again(start, tmp_path, kill):
    server = start(tmp_path / "data")
    sent = server.browser.post("/jobs/taken-in", files={"files": ("survey.toml", SEVEN)})
    job = sent.headers["location"]
    drum = re.search(rf"{job}/drums/\w+", server.browser.get(job).text)[0]

    def page():
        return server.browser.get(f"{drum}/schemes").text

    def under_way(text):
        return "/events" in text and not any(words in text for words in NOT_BEGUN)

    waiting = until(page, under_way)
    work = re.search(r"/work/(\w+)/events", waiting)[0]
    told = []

    def listen():
        with server.browser.stream("GET", work, timeout=PATIENCE_S) as lines:
            told.extend(lines.iter_lines())

    listener = threading.Thread(target=listen)
    listener.start()
    for pid in planners(server.process.pid):
        kill(pid)
    # The page that waits is told that there is an answer, and loads itself again.
    listener.join(PATIENCE_S)
    assert "event: done" in told
    died = until(page, lambda text: "/events" not in text)
    assert "Cut off half way" in died
    assert "What you wrote is kept" in died
    # Looking again does not begin it by itself: it may have been the reason.
    assert "Cut off half way" in page()
    again = re.search(r'action="(/work/\w+/again)"', died)[1]
    assert server.browser.post(again, data={"back": f"{drum}/schemes"}).status_code == 303
    planned = until(page, lambda text: "/events" not in text)
    assert "Cut off half way" not in planned
    assert "Scheme 1" in planned or "scheme-1" in planned
