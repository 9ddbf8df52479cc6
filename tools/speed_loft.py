"""How fast the loft's page is, in the browser: from a keystroke to the new figure painted, for every ready rig.

It renews its section of docs/speed.md; `make speed` runs it after the table's own tool.
"""

import contextlib
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median, quantiles
from typing import Any

from playwright.sync_api import Browser, Page, sync_playwright

ROOT = Path(__file__).parent.parent
READY = ROOT / "src/gantline/shelf"
SHELF = sorted(path.stem for path in READY.glob("*.rig"))
ARGUMENTS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
KEYSTROKES = 12
STARTS = 5
HEAD = "## The loft's page, in the browser"

# From the key's own time stamp to the frame with a new figure: the message comes after that frame is painted.
WATCH = """() => {
  window.painted = [];
  let pressed = 0;
  document.addEventListener('keydown', (event) => {
    pressed = ['1', 'Backspace'].includes(event.key) ? event.timeStamp : 0;
  }, true);
  const fresh = (change) => [...change.addedNodes].some((node) => node.nodeName === 'svg');
  new MutationObserver((changes) => {
    if (!pressed || !changes.some(fresh)) return;
    const from = pressed;
    pressed = 0;
    requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => window.painted.push(performance.now() - from);
      channel.port2.postMessage(0);
    });
  }).observe(document.getElementById('plate'), { childList: true, subtree: true });
}"""


@contextlib.contextmanager
def loft(file: str = "") -> Iterator[tuple[str, float]]:
    """A loft on a folder, or on a file in it, a ready rig: its address, and when its process was started."""
    with tempfile.TemporaryDirectory() as folder:
        where = Path(folder, file)
        if file:
            shutil.copy(READY / file, where)
        started = time.perf_counter()
        command = [str(Path(sys.executable).parent / "gantline"), "loft", str(where), "--port", "0", "--no-browser"]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
            assert process.stdout
            try:
                yield process.stdout.readline().strip(), started
            finally:
                process.terminate()


def typed(page: Page, address: str, name: str) -> tuple[list[float], list[float]]:
    """Milliseconds from key to painted figure, and of the server's part alone, over KEYSTROKES keystrokes."""
    page.goto(f"{address}#shelf={name}")
    page.reload()
    page.wait_for_selector("html[data-ready]")
    page.wait_for_selector("#plate svg")
    page.evaluate(WATCH)
    _into_a_number(page)
    page.evaluate("performance.clearResourceTimings()")
    for turn in range(KEYSTROKES):
        page.keyboard.press("Backspace" if turn % 2 else "1")
        page.wait_for_function("count => window.painted.length > count", arg=turn)
        page.wait_for_timeout(60)
    server = page.evaluate(
        "performance.getEntriesByType('resource').filter((each) => each.name.endsWith('/api/see'))"
        ".map((each) => each.responseStart - each.requestStart)"
    )
    return page.evaluate("window.painted"), server


def _into_a_number(page: Page) -> None:
    """The cursor behind a digit of the first weight or mass, else behind the title's first word."""
    text: str = page.evaluate("document.getElementById('editor').shadowRoot.querySelector('.cm-content').innerText")
    found = re.search(r"(?:weight|mass|effort) +(?:\w+ *= *)?\d", text)
    page.locator("#editor .cm-content").click()
    page.keyboard.press("Control+Home")
    if not found:  # a rig in letters: its title
        page.keyboard.press("End")
    for _ in range(found.end() if found else 0):
        page.keyboard.press("ArrowRight")


def first_figure(browser: Browser, file: str = "") -> float:
    """Seconds from the start of the process until a figure stands, in a browser that holds nothing of the page: of the
    file the loft is opened on, else of a ready rig that is taken from the shelf. The median of STARTS starts."""
    taken = []
    for _ in range(STARTS):
        context = browser.new_context(viewport={"width": 1440, "height": 900})
        page = context.new_page()
        with loft(file) as (address, started):
            page.goto(address, wait_until="commit")
            if not file:
                page.locator("[data-rig=planter]").click()
            page.wait_for_selector("#plate svg")
            taken.append(time.perf_counter() - started)
            context.close()
    return median(taken)


def weight(page: Page, address: str) -> int:
    """Bytes over the line until a rig stands in the page, nothing kept from before."""
    session: Any = page.context.new_cdp_session(page)
    session.send("Network.enable")
    session.send("Network.setCacheDisabled", {"cacheDisabled": True})
    sent: list[float] = []
    session.on("Network.loadingFinished", lambda event: sent.append(event["encodedDataLength"]))
    page.goto(f"{address}#shelf=planter")
    page.reload()
    page.wait_for_selector("html[data-ready]")
    page.wait_for_timeout(800)
    return round(sum(sent) / 2)  # it was loaded twice: by the address, and anew


def measured() -> dict[str, Any]:
    """All of it, in one run."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=ARGUMENTS)
        first = {"shelf": first_figure(browser), "file": first_figure(browser, "planter.rig")}
        page = browser.new_context(viewport={"width": 1440, "height": 900}).new_page()
        with loft() as (entry, _):
            page.goto(entry)
            address = entry.partition("?")[0]
            rigs = {name: typed(page, address, name) for name in SHELF}
            size = weight(page, address)
        browser.close()
    return {"rigs": rigs, "weight": size, "first": first}


def section() -> str:
    """The section of docs/speed.md."""
    found = measured()
    painted = [time for times, _ in found["rigs"].values() for time in times]
    server = [time for _, times in found["rigs"].values() for time in times]
    slowest = sorted(((median(times), _high(times), name) for name, (times, _) in found["rigs"].items()), reverse=True)
    rows = "\n".join(f"| {name} | {middle:.0f} ms | {high:.0f} ms |" for middle, high, name in slowest[:5])
    return f"""{HEAD}

From a key's time stamp to the frame that shows the new figure, {KEYSTROKES} keystrokes in each of
{len(SHELF)} ready rigs, server and browser on one machine of {os.cpu_count()} cores
with a load of {os.getloadavg()[1]:.0f}. The five slowest rigs, and all together:

| rig | median | 95th percentile |
|---|---|---|
{rows}
| all, aimed at under 50 and 100 ms | {median(painted):.0f} ms | {_high(painted):.0f} ms |
| the server's part, aimed at under 16 ms | {median(server):.0f} ms | {_high(server):.0f} ms |

The page weighs {found["weight"] / 1000:.0f} kB over the line with its typefaces and the editor, aimed at under 900 kB.
From the start of the server's process until the first figure stands, in a browser that holds nothing of the page,
the median of {STARTS} starts: {found["first"]["file"]:.2f} s for `gantline loft FILE`, and
{found["first"]["shelf"]:.2f} s for a rig taken from the shelf; aimed at under 1 s.
"""


def _high(times: list[float]) -> float:
    return quantiles(times, n=20)[-1]


def renew() -> None:
    """Puts a fresh section in the place of the old one."""
    path = ROOT / "docs/speed.md"
    text = path.read_text(encoding="utf-8")
    before, found, rest = text.partition(HEAD)
    after = rest[rest.find("\n## ") + 1 :] if "\n## " in rest else ""
    path.write_text(
        f"{before if found else text.rstrip() + chr(10) * 2}{section()}{chr(10) if after else ''}{after}",
        encoding="utf-8",
    )


if __name__ == "__main__":
    renew()
