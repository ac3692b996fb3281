"""What a person does on the pages of a drum's survey, as words for tests."""

from __future__ import annotations

from playwright.sync_api import expect


class NewDrum:
    """The page of a new drum."""

    def __init__(self, page, job):
        self.page, self.job = page, job

    def open(self):
        self.page.goto(f"/jobs/{self.job}/drums/new")
        return self

    def type(self, label, words):
        """Type into a field by its label, by keyboard alone."""
        field = self.page.get_by_label(label, exact=True)
        field.focus()
        if field.evaluate("one => one.tagName") == "SELECT":
            field.select_option(label=words)
        else:
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

    def kept(self, ident):
        """Wait until the program says that it has what was typed."""
        expect(self.page.locator(f"#{ident}-answer")).to_contain_text("Kept")
