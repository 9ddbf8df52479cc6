"""By keys alone: one order, one stop for each list, focus never lost, every change made without a pointer."""

from collections.abc import Callable
from pathlib import Path

import pytest
from browsing import CHART, Window, chart, says, words
from playwright.sync_api import Page

WHERE = """() => {
  let held = document.activeElement;
  while (held && held.shadowRoot && held.shadowRoot.activeElement) held = held.shadowRoot.activeElement;
  const inside = ['#make', '#show', '#wheels', '#plate', '#methods', '#steps'].find((list) => held.closest(list));
  const box = held.getBoundingClientRect();
  const seen = box.width > 0 && box.bottom > 0 && box.top < innerHeight;
  const ring = held.matches(':focus-visible');
  return { name: inside || held.id || held.classList[0] || held.tagName, seen, ring };
}"""
ORDER = [
    "to-shelf", "given", "earlier", "hand-out", "present", "#make", "#show", "#wheels", "#plate", "chest.weight",
    "lower.weight", "efficiency", "raise", "tidy", "words", "cm-content", "#methods", "#steps",
]  # fmt: skip


@pytest.fixture
def page(window: Callable[..., Window], folder: Path, request: pytest.FixtureRequest) -> Page:
    """The chart chest in a file of its own."""
    return window().open(chart(folder, request.node.name[5:40]).name)


def test_tab_goes_through_the_page_in_the_order_it_is_read(page: Page) -> None:
    """Lists are one stop each; every stop is in sight and shows that it has the focus."""
    page.locator("#to-shelf").focus()
    stops = []
    for _ in range(40):
        stops.append(page.evaluate(WHERE))
        page.keyboard.press("Tab")
    names = list(dict.fromkeys(stop["name"] for stop in stops))
    landmarks = [name for name in names if name in ("to-shelf", "earlier", "hand-out", "present", "tidy", "words")
                 or name.startswith(("#", "cm-content"))]  # fmt: skip
    assert landmarks == [name for name in ORDER if name in landmarks]
    assert {"#make", "#show", "#wheels", "#plate", "#methods", "#steps"} <= set(names)
    for one_stop in ("#make", "#show", "#wheels", "#plate", "#methods"):
        assert sum(stop["name"] == one_stop for stop in stops) == 1, one_stop
    assert all(stop["seen"] for stop in stops if stop["name"] != "BODY")
    assert all(stop["ring"] for stop in stops if stop["name"] not in ("BODY", "cm-content"))


def test_skip_links_lead_to_the_four_places(page: Page) -> None:
    links = page.locator(".skips a")
    assert links.all_inner_texts() == ["To the answer", "To the plate", "To the slip", "To the account"]
    links.nth(2).focus()
    page.keyboard.press("Enter")
    assert page.evaluate("() => document.activeElement.id") == "slip"


def test_a_list_is_walked_by_arrows_and_chosen_by_enter(page: Page) -> None:
    page.locator("#show [tabindex='0']").focus()
    page.keyboard.press("Home")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.wait_for_selector("#plate svg[data-view='numbered']")
    assert page.locator("#show [tabindex='0']").count() == 1
    assert page.locator("#show [aria-checked='true']").inner_text().strip() == "Numbered"


def test_a_word_that_cannot_be_used_says_why(page: Page) -> None:
    page.locator("#undo").focus()
    page.keyboard.press("Enter")
    says(page, "Nothing to undo.")


def test_a_rule_moves_by_graduations_and_is_put_back(page: Page) -> None:
    pin = page.locator(".rule[data-key='chest.weight'] input")
    pin.focus()
    for key, value in (
        ("ArrowRight", "480"),
        ("PageUp", "680"),
        ("Shift+ArrowLeft", "678"),
        ("Home", "2"),
        ("End", "800"),
    ):
        page.keyboard.press(key)
        assert pin.get_attribute("aria-valuetext") == f"{value} newtons, what if; slip says 468"
    page.keyboard.press("Escape")
    says(page, "Put back to 468 newtons.")
    assert pin.get_attribute("aria-valuetext") == "468 newtons"
    assert words(page) == CHART


def test_every_given_can_be_typed_and_tab_goes_on_to_the_next(page: Page) -> None:
    page.locator("button[data-given='chest.weight'].given").focus()
    page.keyboard.press("F2")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Shift+ArrowUp")
    page.keyboard.press("Tab")
    page.wait_for_function(
        "() => document.querySelector('.rules .field')?.getAttribute('aria-label') === 'Weight of lower'"
    )
    page.keyboard.press("Escape")
    assert words(page) == CHART.replace("468 N ", "479 N ")


def test_problems_are_walked_and_mended_from_the_slip(page: Page) -> None:
    page.locator("#editor .cm-content").focus()
    page.keyboard.press("Control+Home")
    page.keyboard.type("lode x\nmovng y\n")
    says(page, "problems")
    page.keyboard.press("F8")
    page.keyboard.press("F8")
    says(page, "Line 1:")
    assert page.locator("#card").is_visible()
    page.keyboard.press("Alt+Enter")
    page.wait_for_function("() => document.getElementById('slip-note').textContent.includes('line')")
    assert words(page).startswith("load x\n")
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.closest('#card') !== null"), "the card comes after the slip"


def test_tab_is_never_written(page: Page) -> None:
    page.locator("#editor .cm-content").focus()
    page.keyboard.press("Tab")
    assert words(page) == CHART
    page.keyboard.press("Shift+Tab")
    assert "cm-content" in page.evaluate(WHERE)["name"]


def test_the_answer_is_said_on_asking(page: Page) -> None:
    page.keyboard.press("Control+Enter")
    says(page, "Holds. Pull 120 newtons. Checked.")


def test_steps_are_walked_and_opened(page: Page) -> None:
    page.locator("#steps [aria-expanded]").first.focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    says(page, "Step 2 of")
    page.wait_for_selector(".step-open")
    page.keyboard.press("Control+ArrowRight")
    says(page, "Step 3 of")
    assert page.evaluate("() => document.activeElement !== document.body")


def test_focus_stays_on_the_page_through_undo_and_redraw(page: Page) -> None:
    page.locator(".rule[data-key='chest.weight'] input").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Enter")
    says(page, "Written in.")
    assert page.evaluate("() => document.activeElement.type") == "range"
    page.keyboard.press("Control+z")
    says(page, "Undone")
    assert page.evaluate("() => document.activeElement !== document.body")


def test_what_is_kept_lit_is_let_go_by_escape(page: Page) -> None:
    page.locator("#plate [role=option][tabindex='0']").focus()
    page.keyboard.press("Space")
    page.locator("#line-words button", has_text="Let go").wait_for()
    page.keyboard.press("Escape")
    page.wait_for_function("() => !document.querySelector('#line-words button')")


def test_no_letter_key_does_anything_by_itself(page: Page) -> None:
    page.locator("#title").focus()
    before = page.inner_text("#line")
    for key in "abcdefghijklmnopqrstuvwxyz./?":
        page.keyboard.press(key)
    assert page.inner_text("#line") == before
    assert words(page) == CHART
