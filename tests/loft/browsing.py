"""The loft's page in a real browser: a rig opened, words read and typed, and what must never happen watched for."""

from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Locator, Page

CHART = """\
# Invented for teaching: an old harbour granary that became a school.
title   Chart chest up to the map room
fixed   upper   sheaves 2, efficiency 95 %    # oiled in spring
moving  lower   sheaves 2, efficiency 95 %,
                weight 12 N, carries chest
load    chest   weight 468 N                  # with the charts in it
rope    fall: upper, under lower.1, over upper.1,
              under lower.2, over upper.2, hand
raise   chest   2.5 m
"""
LINES = """() => {
  const shown = (line) => [...line.childNodes].filter((node) => !node.matches?.('.try, .ghost'));
  const lines = document.getElementById('editor').shadowRoot.querySelectorAll('.cm-line');
  return [...lines].map((line) => shown(line).map((node) => node.textContent).join(''));
}"""
WATCHED = """
window.refused = [];
document.addEventListener('securitypolicyviolation', (event) => {
  window.refused.push(`${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}`);
});
"""


class Window:
    """One window on a loft. `faults` gathers what must not happen: errors, dialogs, requests elsewhere."""

    def __init__(self, browser: Browser, entry: str, **options: Any) -> None:
        options.setdefault("viewport", {"width": 1440, "height": 900})
        options.setdefault("reduced_motion", "reduce")
        self.faults: list[str] = []
        self.entry, self.address = entry, entry.partition("?")[0]
        self.context = browser.new_context(**options)
        self.page = self.context.new_page()
        self.page.set_default_timeout(20000)  # a machine may have much else to do
        self.page.add_init_script(WATCHED)
        self.page.on("pageerror", lambda error: self.faults.append(str(error)))
        self.page.on("dialog", lambda dialog: (self.faults.append(dialog.message), dialog.dismiss()))
        self.page.on("request", lambda asked: self._own(asked.url) or self.faults.append(asked.url))
        self.page.goto(entry)
        self.ready()

    def _own(self, url: str) -> bool:
        return url.startswith((self.address, "data:", "blob:"))

    def ready(self) -> None:
        self.page.wait_for_selector("html[data-ready]")

    def open(self, name: str) -> Page:
        """The page on a file of the folder (`chart.rig`) or on a ready rig (`planter`)."""
        self.page.goto("about:blank")
        kind = "file" if name.endswith(".rig") else "shelf"
        self.page.goto(f"{self.address}#{kind}={name}" if name else f"{self.address}#")
        self.ready()
        if name:
            self.page.wait_for_selector("#plate svg[data-view]")
            self.page.wait_for_selector("#steps button", state="attached")
        return self.page

    def end(self) -> list[str]:
        """Everything that must not have happened and did."""
        refused = [] if self.page.url == "about:blank" else self.page.evaluate("window.refused || []")
        self.context.close()
        return [*self.faults, *refused]


def slip(page: Page) -> Locator:
    """The editor's text."""
    return page.locator("#editor .cm-content")


def words(page: Page) -> str:
    """The rig's text as the page has it, read line by line."""
    lines = page.evaluate(LINES)  # the editor keeps every line of a rig this short in the document
    return "\n".join(lines) + "\n"


def to_line(page: Page, line: int) -> None:
    """The text cursor at the end of a line, by a click there."""
    place = page.locator("#editor .cm-line").nth(line - 1)
    box = place.bounding_box()
    assert box
    place.click(position={"x": box["width"] - 3, "y": box["height"] - 8})


def says(page: Page, text: str) -> None:
    """Waits until the line above the plate says this."""
    page.wait_for_function("text => document.getElementById('line').textContent.includes(text)", arg=text)


def kept(page: Page) -> None:
    """Waits until everything is on disk."""
    page.wait_for_function("() => /^Kept \\d\\d:\\d\\d/.test(document.getElementById('kept').textContent)")


def chart(folder: Path, name: str = "chart") -> Path:
    """The chart chest as a file of a folder."""
    path = folder / f"{name}.rig"
    path.write_text(CHART, encoding="utf-8")
    return path
