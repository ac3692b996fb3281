"""The line of the file in which each thing stands, for messages."""

from __future__ import annotations

from dataclasses import dataclass, field

LONGEST_NAME = 80
"""Signs of one name that are said; names in the format are far shorter."""


def path_of(parts: tuple[str | int, ...]) -> str:
    """Return a path as it is said: lists are counted from 1.

    Examples
    --------
    >>> path_of(("drums", "small tom", "rows", 0, "first"))
    'drums.small tom.rows[1].first'
    """
    said = ""
    for part in parts:
        if isinstance(part, int):
            said += f"[{part + 1}]"
        else:
            name = "".join(sign if sign.isprintable() else "?" for sign in part[:LONGEST_NAME])
            said += f".{name}" if said else name
    return said


def lines_of(text: str) -> dict[str, int]:
    """Return the line of every named thing in a TOML text that has been read without a fault.

    Examples
    --------
    >>> lines_of('[job]\\nnumber = "7"\\n[[match]]\\ndrums = ["a",\\n"b"]')["match[1].drums[2]"]
    5
    """
    scan = _Scan(text=text.replace("\r\n", "\n"))
    scan.document()
    return scan.lines


@dataclass(slots=True)
class _Scan:
    """A walk through the text; it trusts that the text is TOML."""

    text: str
    place: int = 0
    line: int = 1
    lines: dict[str, int] = field(default_factory=dict)
    counts: dict[str, int] = field(default_factory=dict)

    def document(self) -> None:
        table: tuple[str | int, ...] = ()
        while self.blank(across=True):
            if self.sign() == "[":
                table = self.header()
            else:
                self.pair(table)

    def sign(self) -> str:
        return self.text[self.place : self.place + 1]

    def step(self, count: int = 1) -> str:
        passed = self.text[self.place : self.place + count]
        self.line += passed.count("\n")
        self.place += count
        return passed

    def blank(self, *, across: bool) -> bool:
        """Pass spaces and, across lines, comments; tell whether anything is left."""
        while self.place < len(self.text):
            sign = self.sign()
            if sign in " \t" or (across and sign == "\n"):
                self.step()
            elif across and sign == "#":
                end = self.text.find("\n", self.place)
                self.place = len(self.text) if end < 0 else end
            else:
                return True
        return False

    def note(self, path: tuple[str | int, ...], line: int) -> None:
        self.lines.setdefault(path_of(path), line)

    def header(self) -> tuple[str | int, ...]:
        line, several = self.line, self.text.startswith("[[", self.place)
        self.step(2 if several else 1)
        names = self.key()
        self.blank(across=False)
        self.step(2 if several else 1)
        path: tuple[str | int, ...] = ()
        for name in names[:-1]:
            self.note((*path, name), line)
            path = self.last((*path, name))
        path = (*path, names[-1])
        if several:
            self.note(path, line)
            said = path_of(path)
            self.counts[said] = self.counts.get(said, 0) + 1
            path = (*path, self.counts[said] - 1)
        self.note(path, line)
        return path

    def last(self, path: tuple[str | int, ...]) -> tuple[str | int, ...]:
        """Return the path of the newest table where the path is that of several."""
        count = self.counts.get(path_of(path), 0)
        return (*path, count - 1) if count else path

    def key(self) -> list[str]:
        names = []
        while True:
            self.blank(across=False)
            names.append(self.name())
            self.blank(across=False)
            if self.sign() != ".":
                return names
            self.step()

    def name(self) -> str:
        sign = self.sign()
        if sign in "\"'" and sign:
            start = self.place
            self.string()
            raw = self.text[start + 1 : self.place - 1]
            return raw.replace('\\"', '"').replace("\\\\", "\\") if sign == '"' else raw
        start = self.place
        while self.sign() and (self.sign().isalnum() or self.sign() in "_-"):
            self.step()
        if self.place == start:
            self.step()
        return self.text[start : self.place]

    def pair(self, table: tuple[str | int, ...]) -> None:
        line = self.line
        path = table
        for name in self.key():
            path = (*path, name)
            self.note(path, line)
        self.step()
        self.blank(across=False)
        self.value(path)

    def string(self) -> None:
        sign = self.sign()
        quote = sign * 3 if self.text.startswith(sign * 3, self.place) else sign
        self.step(len(quote))
        while self.sign() and not self.text.startswith(quote, self.place):
            self.step(2 if sign == '"' and self.sign() == "\\" else 1)
        self.step(len(quote))
        while len(quote) == 3 and self.sign() == sign:
            self.step()

    def value(self, path: tuple[str | int, ...]) -> None:
        sign = self.sign()
        if sign in ("'", '"'):
            self.string()
        elif sign == "[":
            self.step()
            count = 0
            while self.blank(across=True) and self.sign() != "]":
                self.note((*path, count), self.line)
                self.value((*path, count))
                count += 1
                if self.blank(across=True) and self.sign() == ",":
                    self.step()
            self.step()
        elif sign == "{":
            self.step()
            while self.blank(across=True) and self.sign() != "}":
                self.pair(path)
                if self.blank(across=True) and self.sign() == ",":
                    self.step()
            self.step()
        else:
            start = self.place
            while self.sign() and self.sign() not in ",]}#\n":
                self.step()
            if self.place == start:
                self.step()
