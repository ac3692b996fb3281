"""Run every command that the tutorial and the how-to pages show, and write down what it prints.

``.venv/bin/python docs/make_pages.py`` works each page in an empty folder, from top to bottom, and
puts the outputs of today into it. A test holds that the pages say what the commands print.

What a page may hold, by the first line of a fenced block:

``console``
    ``$ counterhoop ...`` lines, each with its output; ``...`` alone on a line leaves some out.
``toml write=FILE``, ``toml add=FILE``
    Becomes a file, or goes to its end.
``toml change=FILE``
    Each line takes the place of the line of that name, with or without a ``#`` before it; a name
    that is not there comes after the line before.

``<!-- here: examples/FILE -->`` copies a file of the repository into the folder.
"""

from __future__ import annotations

import contextlib
import io
import re
import shlex
import shutil
import tempfile
from pathlib import Path

from counterhoop.cli.commands import app
from counterhoop.errors import CounterhoopError

DOCS = Path(__file__).parent
PAGES = (
    "tutorial/first-drum.md",
    "howto/match-two-drums.md",
    "howto/own-fittings-book.md",
    "howto/correct-your-printer.md",
    "howto/record-a-yes.md",
    "howto/read-the-hole-list.md",
    "howto/shorten-a-marching-snare.md",
    "howto/round-and-flat.md",
    "howto/true-an-edge.md",
    "howto/will-a-head-go-on.md",
    "howto/which-thread.md",
    "howto/cut-a-wrap.md",
    "howto/tune-a-kit.md",
    "howto/even-a-head.md",
    "howto/hear-a-second-head.md",
    "howto/what-is-this-part.md",
    "howto/keep-the-shelf.md",
    "howto/date-a-drum.md",
    "howto/strip-down.md",
    "howto/what-fits-these-holes.md",
)
SHOWN_FOLDER = "~/drums"
_PART = re.compile(
    r"^```(?P<info>console|toml (?:write|add|change)=\S+)\n(?P<body>.*?)^```$"
    r"|^<!-- here: (?P<here>\S+) -->$",
    re.DOTALL | re.MULTILINE,
)
_CODE = re.compile(r"\[chosen\].*?\bcode\s+([0-9A-Z]{4}-[0-9A-Z]{4})", re.DOTALL)
_ANY_CODE = re.compile(r"\b[0-9A-Z]{4}-[0-9A-Z]{4}\b")
_COVERS = re.compile(r'^covers = "[^"]*"', re.MULTILINE)


class Stale(Exception):
    """A page leaves lines out between some that are no longer printed."""


def main() -> None:
    """Write every page again."""
    for name in PAGES:
        path = DOCS / name
        path.write_text(worked(path.read_text(encoding="utf-8")), encoding="utf-8")
        print(name)


def worked(page: str) -> str:
    """Return a page with the outputs that its commands give now."""
    with tempfile.TemporaryDirectory() as made:
        bench = _Bench(Path(made).resolve())
        return _PART.sub(bench.part, page)


class _Bench:
    """One page's folder, and the code of the scheme that was last chosen in it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.code = ""

    def part(self, found: re.Match[str]) -> str:
        if found["here"]:
            shutil.copy(DOCS.parent / found["here"], self.folder)
            return found[0]
        info, body = found["info"], found["body"]
        if info == "console":
            body = self._console(body)
        else:
            if self.code:
                body = _COVERS.sub(f'covers = "{self.code}"', body)
            how, _, name = info.removeprefix("toml ").partition("=")
            self._file(how, self.folder / name, body)
        return f"```{info}\n{body}```"

    def _console(self, body: str) -> str:
        said: list[str] = []
        for part in re.split(r"^(?=\$ )", body, flags=re.MULTILINE):
            if not part.startswith("$ "):
                continue
            command, _, shown = part.partition("\n")
            printed = self._run(command)
            found = _CODE.search(printed)
            self.code = found[1] if found else self.code
            said.append(command + "\n" + _elided(printed, like=shown.strip("\n"), of=command))
        return "\n".join(said)

    def _run(self, command: str) -> str:
        words = shlex.split(command.removeprefix("$ "))
        if words[0] != "counterhoop":
            raise Stale(f"not a command of Counterhoop: {command}")
        out = io.StringIO()
        with (
            contextlib.chdir(self.folder),
            contextlib.redirect_stdout(out),
            contextlib.redirect_stderr(io.StringIO()),
        ):
            try:
                app(words[1:], prog_name="counterhoop", standalone_mode=False)
            except CounterhoopError as fault:
                out.write(f"{fault}\n")
        text = out.getvalue().replace(str(self.folder), SHOWN_FOLDER).replace("\\", "/")
        return "\n".join(line.rstrip() for line in text.rstrip().split("\n")) + "\n"

    def _file(self, how: str, path: Path, body: str) -> None:
        if how == "write":
            path.write_text(body, encoding="utf-8")
        elif how == "add":
            path.write_text(path.read_text(encoding="utf-8") + "\n" + body, encoding="utf-8")
        else:
            path.write_text(_changed(path.read_text(encoding="utf-8"), body), encoding="utf-8")


def _changed(text: str, changes: str) -> str:
    lines = text.split("\n")
    after = 0
    for change in changes.rstrip("\n").split("\n"):
        name = re.escape(change.partition("=")[0].strip())
        for start in (rf"{name}\s*=", rf"#\s*{name}\s*="):
            at = next((i for i, line in enumerate(lines) if re.match(start, line)), None)
            if at is not None:
                lines[at], after = change, at
                break
        else:
            after += 1
            lines.insert(after, change)
    return "\n".join(lines)


def _elided(printed: str, *, like: str, of: str) -> str:
    """Return what was printed, leaving out what the page left out.

    Of each run of lines between dots its first and last line are looked for, in order; figures and
    codes in them may be others by now.
    """
    runs = [run.strip("\n") for run in re.split(r"^\.\.\.$", like, flags=re.MULTILINE)]
    if len(runs) == 1:
        return printed
    lines = printed.rstrip("\n").split("\n")
    plain = [_plain(line) for line in lines]
    at, shown = 0, []
    for run in runs:
        if not run:
            shown.append("")
            continue
        first, *_, last = run.split("\n") * 2
        try:
            start = plain.index(_plain(first), at)
            at = plain.index(_plain(last), start)
        except ValueError:
            raise Stale(f"{of}: no longer prints {first!r} to {last!r}") from None
        shown.append("\n".join(lines[start : at + 1]) + "\n")
    return "...\n".join(shown)


def _plain(line: str) -> str:
    return re.sub(r"[0-9]+(?:\.[0-9]+)?", "0", _ANY_CODE.sub("code", line))


if __name__ == "__main__":
    main()
