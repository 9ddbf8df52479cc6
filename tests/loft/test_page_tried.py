"""*Tried* among the views: what is really seen, at any length of rope, for any value, or why not."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec
import pytest
from browsing import Window, says, words
from playwright.sync_api import Page

from gantline import api
from gantline.account import seen as seen_tried
from gantline.loft.tasks import run

SHELF = sorted((Path(api.__file__).parent / "shelf").glob("*.rig"))
SHOWN = "() => [...document.querySelectorAll('#plate text')].map(one => one.textContent).join(' | ')"


def ask(task: str, **asked: Any) -> Any:
    return json.loads(msgspec.json.encode(run(task, json.dumps(asked).encode(), lambda _: None)))


@pytest.mark.parametrize("path", SHELF, ids=lambda path: path.stem)
def test_a_ready_rig_is_seen_tried_or_says_why_not(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    seen, reason = ask("see", text=text, view="tried"), ask("account", text=text)["views"]["tried"]
    assert seen["undrawn"] == reason
    assert bool(seen["svg"]) != bool(reason)
    if reason:
        assert seen["tried"] is None
        assert reason.endswith(".")
        assert reason[:1].isupper()
        return
    assert 0 < seen["tried"]["hand"] <= seen["tried"]["most"]
    assert seen["tried"]["sees"] == (list(found.sees) if (found := api_seen(text)) else [])
    for hand in (-1, 0, seen["tried"]["most"] / 2, 1e9):
        assert ask("see", text=text, view="tried", hand=hand)["svg"], "any length is brought within the page"


def api_seen(text: str) -> Any:
    rig, _ = api.read(text)
    assert rig is not None
    return seen_tried(rig)


@pytest.fixture
def page(window: Callable[..., Window]) -> Page:
    """The planter, tried."""
    page = window().open("planter")
    page.locator("#show [data-key=tried]").click()
    page.wait_for_selector("#plate svg[data-view=tried]")
    page.wait_for_selector(".tried output")
    return page


def test_what_is_seen_stands_under_the_figure(page: Page) -> None:
    says(page, "What is really seen stands under the figure.")
    assert "The planter leaves the floor after" in page.inner_text(".tried p")
    assert "stand-in that weighs 10" in page.evaluate(SHOWN), "and that it is no planter that is hauled"
    assert page.locator("#answer").is_hidden()
    page.locator(".tried summary").click()
    assert "efficiency of the sheaves of lower and upper: 95 %" in page.inner_text(".tried details p")
    page.locator("#show [data-key=labelled]").click()
    page.wait_for_selector("#plate svg[data-view=labelled]")
    assert page.locator(".tried").count() == 0
    assert page.locator("#answer").is_visible()


def test_the_rope_is_taken_up_by_keys_and_by_the_pin(page: Page) -> None:
    slider = page.get_by_role("slider", name="Rope taken up")
    assert "50\u00a0mm of rope" in page.evaluate(SHOWN)
    slider.press("Home")
    page.wait_for_function(f"() => ({SHOWN})().includes('perfect wheels: 1\\u00a0mm of rope')")
    assert slider.get_attribute("aria-valuetext") == "1 millimetres of rope"
    assert page.evaluate("() => document.activeElement.type") == "range", "the focus stays on the pin"
    box = slider.bounding_box()
    assert box
    page.mouse.move(box["x"] + 8, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] * 0.6, box["y"] + box["height"] / 2, steps=5)
    page.mouse.up()
    page.wait_for_function(
        f"() => ({SHOWN})().includes(document.querySelector('.tried output').textContent + ' of rope')"
    )
    assert page.locator(".tried output").inner_text() not in ("1\u00a0mm", "50\u00a0mm")


def test_what_is_seen_follows_a_value_that_is_tried(page: Page) -> None:
    before, slip = page.inner_text(".tried p"), words(page)
    page.locator(".rule[data-key='lower.weight'] input").press("End")
    page.wait_for_function("before => document.querySelector('.tried p').textContent !== before", arg=before)
    assert words(page) == slip
    assert page.locator("#plate svg[data-view=tried]").count() == 1


def test_a_rig_that_cannot_be_tried_says_why_in_its_row(window: Callable[..., Window]) -> None:
    page = window().open("atwood")
    row = page.locator("#show [data-key=tried]")
    page.wait_for_selector("#show [data-key=tried][aria-disabled=true]")
    row.dispatch_event("click")
    says(page, "No hand hauls a rope here, and a trial begins with one.")
    assert page.locator("#plate svg[data-view=tried]").count() == 0
