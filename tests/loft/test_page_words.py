"""The text is the truth: broken words are mended, values tried and written in, each change undone; comments stay."""

from collections.abc import Callable
from pathlib import Path

import pytest
from browsing import CHART, Window, chart, kept, says, slip, to_line, words
from playwright.sync_api import Page


@pytest.fixture
def file(folder: Path, request: pytest.FixtureRequest) -> Path:
    """The chart chest in a file of its own."""
    return chart(folder, request.node.name[5:40])


@pytest.fixture
def page(window: Callable[..., Window], file: Path) -> Page:
    """The page on that file."""
    return window().open(file.name)


def test_a_broken_text_is_mended_by_its_own_remedy(page: Page, file: Path) -> None:
    before = words(page)
    to_line(page, 1)
    page.keyboard.press("Control+Home")
    _find(page, " N                  #")
    page.keyboard.press("Delete")
    page.keyboard.press("Delete")
    says(page, "Line 6: weight says a number without a unit. 1 problem. Alt Enter writes 468 newtons.")
    assert page.locator("#plate svg[data-view]").count() == 1, "a problem never takes the plate away"
    assert page.locator("#card button").all_inner_texts()[0] == "468 N"
    assert page.locator("#editor .wrong").inner_text() == "468"
    assert page.inner_text("#formula").endswith("= no number yet")
    assert page.locator("#formula mfrac").count() == 1, "the formula needs no unit"
    rule = page.inner_text(".rule[data-key='chest.weight']").replace("\u00a0", " ")
    assert "468 ?" in rule
    assert "No unit, no rule" in rule
    page.wait_for_function("() => document.getElementById('account-note').textContent.startsWith('in letters')")
    page.keyboard.press("Alt+Enter")
    says(page, "No problems left. Pull 120 newtons.")
    assert words(page) == before
    assert page.locator("#card").is_hidden()
    kept(page)
    assert file.read_text(encoding="utf-8") == CHART


def _find(page: Page, text: str) -> None:
    """The text cursor before a piece of the text, set as a click would."""
    for _ in range(words(page).index(text)):
        page.keyboard.press("ArrowRight")


def test_a_value_is_tried_by_dragging_and_nothing_is_written(page: Page) -> None:
    pin = page.locator(".rule[data-key='chest.weight'] input")
    box = pin.bounding_box()
    assert box
    page.mouse.move(box["x"] + box["width"] * 0.58, box["y"] + 18)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] * 0.75, box["y"] + 18, steps=6)
    says(page, "What if")
    assert page.locator("#plate text", has_text="468").count() == 0, "figure follows while it is dragged"
    page.mouse.up()
    tried = page.locator("[data-given='chest.weight'].trying").inner_text()
    assert tried != "468\u00a0N"
    assert words(page) == CHART
    assert page.locator("#editor .try").inner_text() == f"what if {tried}".replace("\u00a0", " ")
    assert "trying, nothing written" in page.inner_text("#kept")
    page.locator("#line-words button", has_text="Put back").click()
    says(page, "Put back to 468 newtons.")
    assert page.locator("#editor .try").count() == 0


def test_what_is_tried_by_keys_is_written_in_and_taken_back(page: Page) -> None:
    page.locator(".rule[data-key='chest.weight'] input").focus()
    page.keyboard.press("ArrowRight")
    says(page, "What if 480 newtons: pull 123 newtons, was 120\u00a0N.")
    page.keyboard.press("Enter")
    says(page, "Written in.")
    assert words(page) == CHART.replace("468 N ", "480 N ")
    page.locator("#undo").click()
    says(page, "Undone: weight of chest 480 newtons.")
    assert words(page) == CHART
    page.locator("#redo").click()
    says(page, "Done again: weight of chest 480 newtons.")
    assert words(page) == CHART.replace("468 N ", "480 N ")


def test_several_values_are_tried_at_once(page: Page) -> None:
    for name in ("chest.weight", "lower.weight"):
        if page.locator(f".rule[data-key='{name}']").is_hidden():
            page.locator(f"[data-key='{name}'] .word.link").click()
        page.locator(f".rule[data-key='{name}'] input").focus()
        page.keyboard.press("ArrowRight")
    says(page, "What if weight of chest 480 newtons, weight of lower")
    assert page.locator("#editor .try").count() == 2
    page.keyboard.press("Escape")
    says(page, "What if 480 newtons")


def test_a_value_typed_over_another_touches_only_itself(page: Page) -> None:
    page.locator("button[data-given='chest.weight'].given").click()
    page.keyboard.type("520 N")
    page.keyboard.press("Enter")
    says(page, "Weight of chest 520 newtons. Pull 133 newtons.")
    assert words(page) == CHART.replace("468 N ", "520 N ")
    page.keyboard.press("Control+z")
    says(page, "Undone: weight of chest, back to 468 newtons.")
    assert words(page) == CHART


def test_a_value_that_will_not_do_says_so_where_it_stands(page: Page) -> None:
    page.locator("button[data-given='chest.weight'].given").click()
    page.keyboard.type("520 m")
    page.keyboard.press("Enter")
    told = page.locator(".rules .field-says b")
    told.wait_for()
    assert words(page) == CHART
    page.keyboard.press("Escape")
    assert page.locator(".rules .field").count() == 0
    assert page.evaluate("document.activeElement.dataset.given") == "chest.weight"


def test_the_title_is_edited_where_it_stands(page: Page) -> None:
    page.locator("#title button").click()
    page.keyboard.type("Charts, upstairs")
    page.keyboard.press("Enter")
    page.wait_for_function("() => document.querySelector('#title button').textContent === 'Charts, upstairs'")
    assert words(page) == CHART.replace("Chart chest up to the map room", "Charts, upstairs")


def test_undo_takes_every_kind_of_change_back_in_turn(page: Page) -> None:
    assert page.locator("#undo").get_attribute("aria-disabled") == "true"
    to_line(page, 9)
    page.keyboard.type("5")
    page.keyboard.press("Backspace")
    page.locator("#tidy").click()
    says(page, "The columns are lined up.")
    tidy = words(page)
    assert tidy != CHART
    assert "oiled in spring" in tidy
    page.keyboard.press("Control+z")
    says(page, "Undone: The columns are lined up.")
    assert words(page) == CHART
    page.keyboard.press("Control+y")
    says(page, "Done again")
    assert words(page) == tidy


def test_pointing_lights_the_same_thing_everywhere(page: Page) -> None:
    page.locator("#plate .part[data-part='fall:2']").hover()
    assert page.locator("#editor .lit").first.inner_text() == "under lower.1, over upper.1"
    assert page.locator("#plate .chalk *").count() > 0
    assert "strand 2 of fall" in page.inner_text("#line")
    page.mouse.move(5, 500)
    assert page.locator("#editor .lit").count() == 0
    line = page.locator("#editor .cm-line", has_text="load")
    line.hover(position={"x": 95, "y": 10})
    page.wait_for_selector("#plate .chalk *", state="attached")
    assert "chest" in page.inner_text("#line")


def test_a_letter_of_the_formula_lights_what_it_stands_for(page: Page) -> None:
    page.locator("#formula").get_by_text("W", exact=True).hover()
    page.locator("#editor .lit", has_text="468 N").wait_for()
    assert page.inner_text("#line").startswith("W: chest, load")
    page.locator("#formula").get_by_text("F", exact=True).hover()
    page.locator("#editor .lit", has_text="hand").wait_for()


def test_a_step_lights_what_it_speaks_of_and_shows_its_view(page: Page) -> None:
    balance = page.locator(".step-row", has_text="Up balances down")
    balance.click()
    page.wait_for_selector("#plate svg[data-view='balance']")
    says(page, "Step 7 of")
    page.locator(".step-open .say").hover()
    assert page.locator("#editor .lit").count() >= 2
    page.keyboard.press("Control+ArrowRight")
    page.wait_for_selector("#plate svg[data-view='solve']")
    page.locator(".step-open .step-head").click()
    page.wait_for_selector("#plate svg[data-view='labelled']")


def test_words_of_ones_own_for_a_step(page: Page) -> None:
    page.locator(".step-row").nth(3).click()
    page.locator("#steps .word", has_text="Say it in my own words").click()
    page.keyboard.press("Control+a")
    page.keyboard.type("Put a bag round it.")
    page.locator("#steps .word", has_text="Keep it").click()
    page.wait_for_function("() => document.querySelector('.step-open .say')?.textContent === 'Put a bag round it.'")


def test_words_are_completed_from_the_notation_and_the_rig(page: Page) -> None:
    to_line(page, 9)
    page.keyboard.press("Enter")
    page.keyboard.type("mov")
    page.locator("#editor .cm-tooltip-autocomplete", has_text="moving").wait_for()
    page.keyboard.press("Escape")
    page.keyboard.type("ing upper2 sheaves 1, carries ch")
    page.locator("#editor .cm-tooltip-autocomplete", has_text="chest").wait_for()
    assert page.locator("#editor .cm-tooltip-autocomplete li").count() == 1


def test_wheels_that_lose_refuse_nothing_silently(page: Page) -> None:
    page.locator("#wheels .row[data-key='raising']").click()
    page.wait_for_function("() => document.getElementById('formula').textContent.includes('136')")
    assert "raising" in page.inner_text("#formula")
    refused = page.locator("#methods .refused").first
    assert refused.get_attribute("aria-label")
    assert page.locator("#refusals p").count() == page.locator("#methods .refused").count()
    page.locator("#show .row[data-key='tensions']").click()
    page.wait_for_selector("#plate svg[data-view='tensions']")


def test_without_the_editor_a_plain_field_does_the_same(window: Callable[..., Window], file: Path) -> None:
    opened = window()
    opened.page.route("**/assets/codemirror.js", lambda route: route.abort())
    page = opened.open(file.name)
    field = page.locator("#editor textarea")
    assert field.input_value() == CHART
    field.fill(CHART.replace("468 N", "468"))
    says(page, "Line 6: weight says a number without a unit.")
    page.locator("#card button", has_text="468 N").click()
    says(page, "No problems left.")
    assert field.input_value() == CHART


def test_the_slip_is_a_text_box_with_a_name(page: Page) -> None:
    assert slip(page).get_attribute("role") == "textbox"
    assert slip(page).get_attribute("aria-label") == "Slip: the rig in words"


def test_nothing_is_left_of_the_rig_before(window: Callable[..., Window]) -> None:
    page = window().open("chart.rig")
    page.locator(".step-row").first.wait_for()
    page.locator("#to-shelf").click()
    page.get_by_role("button", name="From nothing").click()
    page.locator("li[data-place]").first.wait_for(state="attached")
    assert page.locator("#steps button, #methods button, #refusals p").count() == 0
    assert page.locator("#wheels .beside").all_inner_texts() == ["", "", ""]
