"""The command that opens the workshop, as a process of its own and as a person stops it."""

from __future__ import annotations

import os
import re
import signal
import socket
import subprocess
import sys
import threading
import time

import pytest

from counterhoop.cli.serve import has_screen, opening_a_browser

BEGIN = "from counterhoop.cli import main; main()"


@pytest.fixture
def start(tmp_path):
    running = []

    def serve(*words, data=tmp_path / "data"):
        process = subprocess.Popen(
            [sys.executable, "-c", BEGIN, "serve", "--no-browser", "--data", str(data), *words],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        running.append(process)
        return process

    yield serve
    for process in running:
        process.kill()
        process.wait()
        process.stdout.close()
        process.stderr.close()


def port_of(process):
    for line in process.stdout:
        found = re.search(r"http://127\.0\.0\.1:(\d+)/enter\?token=", line)
        if found:
            return int(found[1])
    pytest.fail(process.stderr.read())


def get(port, path="/none"):
    """Return the code of an answer, asked for over a plain socket."""
    with socket.create_connection(("127.0.0.1", port), timeout=90) as talk:
        talk.sendall(f"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n\r\n".encode())
        return int(talk.recv(12).split()[1])


def children(process):
    """Return the ids of what a process has started, by the kernel's own list."""
    listed = subprocess.run(
        ["ps", "-o", "pid=", "--ppid", str(process.pid)],
        capture_output=True,
        text=True,
        check=False,
    )
    return [int(one) for one in listed.stdout.split()]


@pytest.mark.parametrize("word", [signal.SIGINT, signal.SIGTERM])
def test_it_starts_answers_and_stops_in_good_order(word, start, tmp_path):
    process = start("--port", "0")
    assert get(port_of(process)) == 401
    workers = children(process)
    process.send_signal(word)
    _, errors = process.communicate(timeout=90)
    assert process.returncode == 0
    assert errors == ""
    assert (tmp_path / "data" / "counterhoop.sqlite3").is_file()
    for worker in workers:
        gone = time.monotonic() + 10
        while is_running(worker):
            assert time.monotonic() < gone, "a worker was left behind"
            time.sleep(0.05)


def is_running(number):
    try:
        os.kill(number, 0)
    except ProcessLookupError:
        return False
    return True


def test_a_second_one_at_the_same_port_says_so_in_one_line(start):
    first = start("--port", "0")
    port = port_of(first)
    second = start("--port", str(port))
    _, errors = second.communicate(timeout=90)
    assert second.returncode == 2
    assert len(errors.strip().splitlines()) == 1
    assert f"port {port}" in errors
    assert "--port" in errors
    assert get(port) == 401


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--store", "other://x"), "not a database"),
        (("--name", "*"), "not the name of a machine"),
        (("--port", "99999"), "65535"),
    ],
)
def test_a_slip_is_one_line(words, says, start):
    process = start("--port", "0", *words)
    _, errors = process.communicate(timeout=90)
    assert process.returncode == 2
    assert says in errors
    assert "Traceback" not in errors


def test_the_browser_is_opened_once_at_the_first_link(monkeypatch):
    opened, printed, done = [], [], threading.Event()

    def opens(link):
        opened.append(link)
        done.set()

    monkeypatch.setattr("webbrowser.open", opens)
    say = opening_a_browser(printed.append)
    say("At http://127.0.0.1:8377/\n  http://127.0.0.1:8377/enter?token=a-b_c\nFor a phone: 2")
    assert done.wait(10)
    assert opened == ["http://127.0.0.1:8377/enter?token=a-b_c"]
    assert len(printed) == 1


def test_without_a_screen_no_browser_takes_the_window_over(monkeypatch):
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    assert not has_screen()
    monkeypatch.setenv("DISPLAY", ":0")
    assert has_screen()
