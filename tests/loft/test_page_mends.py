"""Where no pull can hold a rig, a false equation stands in the answer's place, and each change offered is tried."""

from collections.abc import Callable
from pathlib import Path

import pytest
from browsing import Window, kept, says, words
from playwright.sync_api import Page

FRAME = "moving cradle sheaves 1, weight 620 N\nrope fall: cradle, over cradle, hand at cradle\nraise cradle 1 m\n"
FOCUS = "(document.activeElement.dataset.part || document.activeElement.textContent)"


@pytest.fixture
def opened(window: Callable[..., Window]) -> Callable[[str], Page]:
    """The page on a rig without an answer, once it says what would have to change."""

    def open_(name: str) -> Page:
        page = window().open(name)
        page.wait_for_selector("#changes button")
        return page

    return open_


def formula(page: Page) -> str:
    return (page.locator("#formula math").first.get_attribute("alttext") or "").replace("\u00a0", " ")


def offered(page: Page) -> list[str]:
    """What stands on each line of the changes; a formula as it would be spoken."""
    shown = (
        "lines => lines.map(line => [line.firstChild.textContent, line.querySelector('math')?.getAttribute('alttext')"
    )
    found = page.locator("#changes li").evaluate_all(f"{shown} || line.lastChild.textContent].join(': '))")
    return [each.replace("\u00a0", " ") for each in found]


def test_a_weight_that_would_balance_is_tried_and_put_back(opened: Callable[[str], Page]) -> None:
    page = opened("impossible-unequal")
    before = words(page)
    assert formula(page) == "90 N = 60 N"
    assert offered(page) == ["Let sign weigh 60 N: F = 150 N", "Let board weigh 90 N: F = 150 N"]
    assert page.inner_text("#mend-how") == "Each is tried first; the slip changes only when you write it in."
    page.get_by_role("button", name="Let board weigh 90 N").press("Enter")
    says(page, "What if 90 newtons: pull 150 newtons, where no pull could hold it.")
    assert page.locator("#mend").is_hidden()
    assert words(page) == before, "nothing is written"
    assert page.locator(".rule[data-key='board.weight'] .trying").count(), "the pin stands where it is tried"
    assert page.locator("#plate text", has_text="90").count() == 4, "the figure follows"
    page.wait_for_function("() => document.querySelectorAll('#steps button').length > 8")  # and so does the account
    assert page.evaluate(FOCUS) == "Write it in"
    page.get_by_role("button", name="Put back").press("Enter")
    says(page, "Put back to 60 newtons.")
    page.wait_for_selector("#changes button")
    assert page.evaluate("() => document.activeElement !== document.body")
    assert words(page) == before


def test_what_was_tried_is_written_in_as_one_step(opened: Callable[[str], Page]) -> None:
    page = opened("impossible-unequal")
    before = words(page)
    page.get_by_role("button", name="Let sign weigh 60 N").press("Enter")
    says(page, "What if 60 newtons")
    page.wait_for_function(f"() => {FOCUS} === 'Write it in'")
    page.keyboard.press("Enter")
    says(page, "Written in.")
    assert words(page) == before.replace("sign   weight 90 N", "sign   weight 60 N")
    assert page.evaluate("() => document.activeElement !== document.body")
    page.keyboard.press("Control+z")
    says(page, "Undone: weight of sign 60 newtons.")
    assert words(page) == before
    page.wait_for_selector("#changes button")
    kept(page)
    page.locator("#earlier").click()
    page.wait_for_selector("#sheet button")
    assert "Undone: weight of sign 60 newtons" in page.locator("#sheet button").first.inner_text()


def test_a_change_of_the_build_is_one_step_of_undo_and_says_so(opened: Callable[[str], Page]) -> None:
    page = opened("impossible-one-rope")
    before = words(page)
    assert formula(page) == "0 \u00d7 T = 240 N"
    assert page.inner_text("#certificate") == "Checked: no value of T satisfies it."
    assert page.inner_text("#mend-how") == "Each changes the slip at once; Undo takes it back."
    page.get_by_role("button", name="Make flyer and its end of the rope fast aloft").press("Enter")
    says(page, "flyer is fast aloft, and so is its rope's end, to top. Pull 120 newtons. Undo takes it back.")
    assert "fixed    flyer  sheaves 1" in words(page)
    page.wait_for_function(f"() => {FOCUS} === 'flyer'")
    page.keyboard.press("Control+z")
    page.wait_for_selector("#changes button")
    assert words(page) == before


@pytest.mark.parametrize("name", ["slack-burton", "indeterminate-two-tackles", "indeterminate-two-ropes"])
def test_every_rig_without_an_answer_offers_what_would_settle_it(opened: Callable[[str], Page], name: str) -> None:
    page = opened(name)
    assert page.locator("#changes button").count() == 2
    page.locator("#changes button").first.click()
    page.wait_for_selector("#mend", state="hidden")
    assert page.inner_text("#follows")
    assert "does not hold" not in page.inner_text("#follows")


def test_a_rig_without_a_figure_says_why(window: Callable[..., Window], folder: Path) -> None:
    (folder / "frame.rig").write_text(FRAME, encoding="utf-8")
    opened = window()
    opened.page.goto("about:blank")
    page = opened.page
    page.goto(f"{opened.address}#file=frame.rig")
    page.wait_for_selector("#changes button")
    assert page.inner_text("#plate .undrawn").startswith("Two parts would each have to hang below the other")
    assert formula(page) == "0 \u00d7 T = 620 N"
    assert offered(page) == ["Hang the wheel of cradle from the beam: F = 310 N", "Haul from the floor: still none"]
