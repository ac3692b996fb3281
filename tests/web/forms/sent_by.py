"""What a browser would send of a form, read from the HTML alone."""

from __future__ import annotations

from html.parser import HTMLParser

from counterhoop.web.forms import Form
from counterhoop.web.look.jinja import templates

PAGE = """{% import "forms/form.html" as forms %}
{{ forms.form(form, "/there", based_on="7", saves="/saved", lands="#note") }}"""


def html_of(form: Form) -> str:
    """Return a form as the page holds it."""
    return templates().from_string(PAGE).render(form=form)


class Sent(HTMLParser):
    """Names and values of all inputs, in order, as HTML says they are sent."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.pairs: list[tuple[str, str]] = []
        self.ids: list[str] = []
        self.labels: list[str] = []
        self.about: list[str] = []
        self.lists: list[str] = []
        self.inputs: list[dict[str, str | None]] = []
        self._select: str | None = None
        self._options: list[tuple[str, bool]] = []
        self._area: str | None = None
        self._text = ""
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if given.get("id"):
            self.ids.append(given["id"])
        if given.get("for"):
            self.labels.append(given["for"])
        self.about += (given.get("aria-describedby") or "").split()
        if given.get("list"):
            self.lists.append(given["list"])
        if tag in ("input", "select", "textarea"):
            self.inputs.append({"tag": tag, **given})
        if tag == "input":
            self.pairs.append((given["name"], given.get("value") or ""))
        elif tag == "select":
            self._select, self._options = given["name"], []
        elif tag == "option" and self._select:
            self._options.append((given.get("value") or "", "selected" in given))
        elif tag == "textarea":
            self._area, self._text = given["name"], ""

    def handle_data(self, data: str) -> None:
        if self._area is not None:
            self._text += data

    def handle_endtag(self, tag: str) -> None:
        if tag == "select":
            chosen = [value for value, said in self._options if said] or [self._options[0][0]]
            self.pairs.append((self._select, chosen[-1]))
            self._select = None
        elif tag == "textarea":
            # A browser drops one line end at the start and sends the others in its own way.
            text = self._text.removeprefix("\n").replace("\n", "\r\n")
            self.pairs.append((self._area, text))
            self._area = None


def sent_by(form: Form) -> list[tuple[str, str]]:
    """Return what is sent when nothing is changed."""
    return Sent(html_of(form)).pairs
