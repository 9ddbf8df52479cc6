"""The page in every state and at every width: no violation an accessibility checker finds, nothing wider than it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from axe import violations
from browsing import Window, chart, says, to_line
from playwright.sync_api import Page

LOOKS: dict[str, dict[str, Any]] = {
    "phone, light": {"viewport": {"width": 360, "height": 740}},
    "small phone, dark": {"viewport": {"width": 320, "height": 640}, "color_scheme": "dark"},
    "tablet, light": {"viewport": {"width": 768, "height": 1024}},
    "laptop, dark": {"viewport": {"width": 1024, "height": 768}, "color_scheme": "dark"},
    "desk, light": {"viewport": {"width": 1440, "height": 900}},
    "wall, dark": {"viewport": {"width": 2560, "height": 1440}, "color_scheme": "dark"},
}
WIDER = "() => document.documentElement.scrollWidth > document.documentElement.clientWidth"


def shown(page: Page, part: str) -> None:
    """On a phone one of the four words at the foot brings a part into sight."""
    if page.locator(".foot").is_visible():
        page.locator(f".foot [data-to={part}]").click()


def _shelf(page: Page) -> None:
    page.locator("#to-shelf").click()
    page.locator("#help-open").click()
    page.locator("#teach").fill("nobody teaches this")


def _step(page: Page) -> None:
    shown(page, "account")
    page.locator(".step-row").nth(6).click()
    page.wait_for_selector("#plate svg[data-view='balance']")


def _problem(page: Page) -> None:
    shown(page, "slip")
    to_line(page, 5)
    page.keyboard.press("Control+Backspace")
    says(page, "problem")


def _trying(page: Page) -> None:
    shown(page, "rules")
    page.locator(".rule[data-key='chest.weight'] input").focus()
    page.keyboard.press("ArrowRight")
    says(page, "What if")


def _field(page: Page) -> None:
    shown(page, "rules")
    page.locator(".rules button[data-given='chest.weight']").click()
    page.keyboard.type("7 m")
    page.keyboard.press("Enter")
    page.locator(".rules .field-says b").wait_for()


def _words(page: Page) -> None:
    shown(page, "slip")
    page.locator("#words").click()


def _sheet(page: Page, name: str) -> None:
    if page.locator("#more").is_visible():
        page.locator("#more").click()
    page.locator(name).click()
    page.locator("#sheet button").first.wait_for()


def _earlier(page: Page) -> None:
    _sheet(page, "#earlier")


def _hand_out(page: Page) -> None:
    _sheet(page, "#hand-out")


def _motion(page: Page) -> None:
    if page.locator(".fold").first.is_visible():
        page.locator(".list[data-of=show] .fold").click()
    page.locator("#show .row[data-key=motion]").click()
    page.locator(".haul input").wait_for()


def _gone(page: Page) -> None:
    page.route("**/api/**", lambda route: route.abort())
    shown(page, "slip")
    to_line(page, 2)
    page.keyboard.type("!")
    page.locator("#notice button").first.wait_for()


STATES = {
    "shelf": _shelf, "step open": _step, "problem": _problem, "trying": _trying, "field": _field, "words": _words,
    "earlier": _earlier, "handing out": _hand_out, "motion": _motion, "server gone": _gone,
}  # fmt: skip
# Each state in one look, each look with a state or two: states change the page far more than its width does.
SAMPLE = [(list(LOOKS)[n % len(LOOKS)], state) for n, state in enumerate(STATES)]


@pytest.mark.parametrize("look", ["phone, light", "small phone, dark", "desk, light", "wall, dark"])
def test_no_violation_at_rest(window: Callable[..., Window], look: str) -> None:
    page = window(**LOOKS[look]).open("chart.rig")
    assert not violations(page)
    assert not page.evaluate(WIDER)
    for part in ("slip", "account", "rules") if page.locator(".foot").is_visible() else ():
        shown(page, part)
        assert not violations(page)
        assert not page.evaluate(WIDER)


@pytest.mark.parametrize(("look", "state"), SAMPLE)
def test_no_violation_in_any_state(window: Callable[..., Window], folder: Path, look: str, state: str) -> None:
    file = chart(folder, f"{look} {state}".replace(",", ""))
    page = window(**LOOKS[look]).open(file.name)
    STATES[state](page)
    page.wait_for_timeout(100)
    assert not violations(page)
    assert not page.evaluate(WIDER)


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
