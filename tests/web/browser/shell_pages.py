"""What a person does on the pages of a drum's survey, as words for tests."""

from __future__ import annotations

from playwright.sync_api import expect

MOST_TABS = 80
REACHED = """() => {
  const one = document.activeElement;
  const label = one.labels?.[0]?.innerText ?? one.innerText ?? "";
  return label.trim().split("\\n")[0];
}"""


def tab_to(page, label):
    """Press Tab until what bears a label is reached: a field, a button, a line."""
    for _ in range(MOST_TABS):
        if page.evaluate(REACHED) == label:
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"no way by Tab to {label}")


def lose_first(page, address, *, saying=""):
    """Let the program take what is sent first, and lose its answer; return what it answered."""
    lost = []

    def lose(route):
        sent = route.request.post_data or ""
        if route.request.method == "POST" and saying in sent and not lost:
            lost.append(route.fetch(max_redirects=0).status)
            route.abort()
        else:
            route.continue_()

    page.route(address, lose)
    page.watch.allow("ERR_FAILED|Failed to fetch")
    return lost


class NewDrum:
    """The page of a new drum."""

    def __init__(self, page, job):
        self.page, self.job = page, job

    def open(self):
        self.page.goto(f"/jobs/{self.job}/drums/new")
        return self

    def type(self, label, words):
        """Reach a field by Tab and type into it; a choice takes the word that begins so."""
        tab_to(self.page, label)
        self.page.keyboard.type(words)

    def put_into_folder(self):
        self.page.keyboard.press("Enter")
        self.page.wait_for_url("**/shell*")
        return ShellSheet(self.page)


class ShellSheet:
    """The survey of a drum on the shell laid flat."""

    def __init__(self, page):
        self.page = page

    def open(self, job, drum, query=""):
        self.page.goto(f"/jobs/{job}/drums/{drum}/shell{query}")
        return self

    @property
    def holes(self):
        """The holes that are drawn."""
        return self.page.locator("#flat-picture [data-hole]")

    @property
    def adds_up(self):
        """What does not add up."""
        return self.page.locator("#adds-up-body")

    def form(self, ident):
        return self.page.locator(f"#{ident}-form")

    def line(self, ident):
        return self.page.locator(f"#{ident}")

    def field(self, ident, name):
        return self.page.locator(f'#{ident}-form [name="{name}"]')

    def open_line(self, ident):
        """Open a line; its form is fetched."""
        self.line(ident).locator("summary").first.click()
        expect(self.form(ident)).to_be_visible()

    def write_hole(self, **typed):
        """Fill in the empty hole and write it down by Enter."""
        for name, words in typed.items():
            self.field("hole-new", name).fill(words)
        self.field("hole-new", list(typed)[-1]).press("Enter")

    def answer(self, ident):
        """What the program says under a form."""
        return self.page.locator(f"#{ident}-answer")

    def kept(self, ident):
        """Wait until the program says that it has what was typed."""
        expect(self.answer(ident)).to_contain_text("Kept")
