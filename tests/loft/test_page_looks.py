"""The page in every state, at every width, on a light and a dark ground: nothing that an accessibility checker finds,
nothing wider than the page, nothing cut."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from axe import COLOURS, violations
from browsing import Window, chart, kept, says, to_line
from playwright.sync_api import Page, expect

WIDTHS = {320: 640, 360: 740, 390: 844, 768: 1024, 1024: 768, 1440: 900, 2560: 1440}
WIDER = "() => document.documentElement.scrollWidth > document.documentElement.clientWidth"
# Text that reaches over the page's edge, or is cut off by its own box; what scrolls is not cut.
CUT = """() => [...document.querySelectorAll('#rig-page *, #shelf-page *')].filter((one) => {
  if (!one.checkVisibility() || one.closest('svg, math, .unseen, .skips, #editor, .file-name, .file')) return false;
  if (![...one.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim())) return false;
  const box = one.getBoundingClientRect(), style = getComputedStyle(one);
  const over = one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 3;
  return box.right > innerWidth + 1 || box.left < -1 || (/hidden|clip/.test(style.overflow) && over);
}).map((one) => `${one.id || one.className}: ${one.textContent.slice(0, 40)}`)"""


def shown(page: Page, part: str) -> None:
    """On a phone one of the four words at the foot brings a part into sight."""
    if page.locator(".foot").is_visible():
        page.locator(f".foot [data-to={part}]").click()


# -- the states, each entered and left again --------------------------------------------------------------------------

State = Callable[[Page, Path], Any]


@contextmanager
def _rest(page: Page, file: Path) -> Iterator[None]:
    shown(page, "plate")
    yield


@contextmanager
def _slip(page: Page, file: Path) -> Iterator[None]:
    shown(page, "slip")
    yield


@contextmanager
def _rules(page: Page, file: Path) -> Iterator[None]:
    shown(page, "rules")
    yield


@contextmanager
def _shelf(page: Page, file: Path) -> Iterator[None]:
    page.locator("#to-shelf").click()
    page.locator("#help-open").click()
    page.locator("#teach").fill("nobody teaches this")
    expect(page.locator("#files .wrong").first).to_be_visible()
    yield
    page.locator("#teach").fill("")
    page.locator("#help-open").click()
    page.locator(f"#files [data-key='{file.name}']").click()
    page.wait_for_selector("#plate svg[data-view]")
    page.wait_for_selector("#steps button", state="attached")


@contextmanager
def _step(page: Page, file: Path) -> Iterator[None]:
    shown(page, "account")
    page.locator(".step-row").nth(6).click()
    page.locator(".step-open").wait_for()
    yield


@contextmanager
def _own(page: Page, file: Path) -> Iterator[None]:
    page.locator("#steps .word", has_text="Say it in my own words").click()
    page.locator(".say-edit").wait_for()
    yield
    page.keyboard.press("Escape")
    page.locator(".step-head").click()


@contextmanager
def _problem(page: Page, file: Path) -> Iterator[None]:
    shown(page, "slip")
    to_line(page, 5)
    page.keyboard.press("Control+Backspace")
    page.locator("#card").wait_for()
    yield
    page.keyboard.press("Control+z")
    page.locator("#card").wait_for(state="hidden")


@contextmanager
def _trying(page: Page, file: Path) -> Iterator[None]:
    shown(page, "rules")
    page.locator(".rule[data-key='chest.weight'] input").focus()
    page.keyboard.press("ArrowRight")
    says(page, "What if")
    yield
    page.locator("#line-words .word", has_text="Put back").click()
    says(page, "Put back to")


@contextmanager
def _field(page: Page, file: Path) -> Iterator[None]:
    shown(page, "rules")
    page.locator(".rules button[data-given='chest.weight']").click()
    page.keyboard.type("7 m")
    page.keyboard.press("Enter")
    page.locator(".rules .field-says b").wait_for()
    yield
    page.keyboard.press("Escape")
    page.locator(".rules .field-says").wait_for(state="detached")


@contextmanager
def _words(page: Page, file: Path) -> Iterator[None]:
    shown(page, "slip")
    page.locator("#words").click()
    page.locator("#words-list .word").first.wait_for()
    yield
    page.locator("#words").click()


@contextmanager
def _sheet(page: Page, name: str) -> Iterator[None]:
    folded = page.locator("#more").is_visible()
    if folded:
        page.locator("#more").click()
    page.locator(name).click()
    page.locator("#sheet button").first.wait_for()
    yield
    page.locator("#sheet .word", has_text="Close").click()
    if folded:
        page.locator("#more").click()


def _earlier(page: Page, file: Path) -> Any:
    return _sheet(page, "#earlier")


def _hand_out(page: Page, file: Path) -> Any:
    return _sheet(page, "#hand-out")


def _view(page: Page, view: str) -> None:
    row = page.locator(f"#show .row[data-key={view}]")
    if not row.is_visible():
        page.locator(".list[data-of=show] .fold").click()
    row.click()


@contextmanager
def _motion(page: Page, file: Path) -> Iterator[None]:
    shown(page, "plate")
    _view(page, "motion")
    page.locator(".haul input").first.wait_for()
    yield
    _view(page, "labelled")
    page.wait_for_selector("#plate svg[data-view=labelled]")


@contextmanager
def _tag(page: Page, file: Path) -> Iterator[None]:
    shown(page, "plate")
    page.locator("li[data-part=lower]").focus()
    page.keyboard.press("Enter")
    page.locator(".verb").first.wait_for()
    yield
    page.keyboard.press("Escape")
    page.locator(".verb").first.wait_for(state="detached")


@contextmanager
def _reeving(page: Page, file: Path) -> Iterator[None]:
    row = page.locator("#make .row", has_text="Reeve a rope")
    if not row.is_visible():
        page.locator(".list[data-of=make] .fold").click()
    row.click()
    page.locator("li[data-place]").first.wait_for(state="attached")
    page.wait_for_selector(".plate-doc:not([aria-busy])")
    yield
    page.keyboard.press("Escape")
    page.locator("li[data-place]").first.wait_for(state="detached")


@contextmanager
def _conflict(page: Page, file: Path) -> Iterator[None]:
    """Another program writes into the line that is being typed in."""
    shown(page, "slip")
    text = file.read_text(encoding="utf-8")
    first = [True]

    def between(route: Any) -> None:
        if first.pop() if first else False:
            file.write_text(text.replace("map room", "loft"), encoding="utf-8")
        route.continue_()

    page.route("**/api/file", between)
    to_line(page, 2)
    page.keyboard.type("!")
    page.locator("#conflict .word").first.wait_for()
    yield
    page.unroute("**/api/file")
    page.locator("#conflict .word", has_text="Take the other").click()
    page.locator("#undo").dispatch_event("click")
    page.locator("#undo").dispatch_event("click")
    kept(page)


@contextmanager
def _present(page: Page, file: Path) -> Iterator[None]:
    page.locator("#present").click()
    page.locator(".screen .picture svg").wait_for()
    yield
    page.keyboard.press("Escape")
    page.locator(".screen").wait_for(state="hidden")


@contextmanager
def _gone(page: Page, file: Path) -> Iterator[None]:
    page.route("**/api/**", lambda route: route.abort())
    shown(page, "slip")
    to_line(page, 2)
    page.keyboard.type("!")
    page.locator("#notice button").first.wait_for()
    yield


STATES: dict[str, State] = {
    "at rest": _rest, "slip": _slip, "rules": _rules, "shelf": _shelf, "step open": _step, "own words": _own,
    "problem": _problem, "trying": _trying, "field": _field, "words": _words, "earlier": _earlier,
    "handing out": _hand_out, "motion": _motion, "tag": _tag, "reeving": _reeving, "presenting": _present,
    "conflict": _conflict, "server gone": _gone,
}  # fmt: skip


@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_is_found_in_any_state_on_either_ground(
    window: Callable[..., Window], folder: Path, width: int
) -> None:
    file = chart(folder, f"wide-{width}")
    (folder / "stove.rig").write_text("load stove weight 468\n", encoding="utf-8")
    page = window(viewport={"width": width, "height": WIDTHS[width]}).open(file.name)
    found: list[str] = []
    for name, state in STATES.items():
        with state(page, file):
            found += [f"{name}: {one}" for one in violations(page)]
            found += [f"{name}, cut: {one}" for one in page.evaluate(CUT)]
            if page.evaluate(WIDER):
                found.append(f"{name}: it scrolls sideways")
            ground = page.evaluate("() => document.documentElement.dataset.ground || ''")
            page.evaluate(
                "of => { document.documentElement.dataset.ground = of; }", "light" if ground == "dark" else "dark"
            )
            found += [f"{name}, the other ground: {one}" for one in violations(page, COLOURS)]
            page.evaluate("of => { document.documentElement.dataset.ground = of; }", ground)
    assert not found


@pytest.mark.parametrize(
    "name", ["impossible-one-rope", "indeterminate-two-ropes", "slack-burton", "atwood", "formula-only"]
)
def test_no_violation_where_no_number_comes_out(window: Callable[..., Window], name: str) -> None:
    page = window(color_scheme="dark").open(name)
    assert not violations(page)


def test_enlarged_text_and_forced_colours_lose_nothing(window: Callable[..., Window]) -> None:
    page = window(viewport={"width": 320, "height": 256}, device_scale_factor=4, forced_colors="active").open(
        "chart.rig"
    )
    assert not page.evaluate(WIDER)
    for part in ("plate", "slip", "account", "rules"):
        shown(page, part)
        assert not page.evaluate(WIDER)
        assert page.locator(f"#{part}").is_visible()


@pytest.mark.parametrize("width", [390, 768, 1440])
def test_type_at_twice_the_size_loses_nothing(
    launch: Callable[..., Any], running: str, folder: Path, width: int
) -> None:
    """WCAG 2.2, 1.4.4: text can be twice as large without loss; here by the browser's own setting, not by zoom."""
    browser = launch("--blink-settings=defaultFontSize=32")
    opened = Window(browser, running, viewport={"width": width, "height": 900})
    page = opened.open("chart.rig")
    assert page.evaluate("() => getComputedStyle(document.querySelector('#line')).fontSize").startswith(("33", "34"))
    for part in ("plate", "slip", "account", "rules"):
        shown(page, part)
        assert not page.evaluate(WIDER)
        assert not page.evaluate(CUT)
    page.locator("#to-shelf").click()
    assert not page.evaluate(WIDER)
    assert not page.evaluate(CUT)
    assert not opened.end()
    browser.close()
