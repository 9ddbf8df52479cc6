"""A tutor says a step in words of their own, in the page: kept beside the rig, live in its numbers, never lost."""

from collections.abc import Callable
from pathlib import Path

import pytest
from browsing import CHART, Window, chart, kept, says
from playwright.sync_api import Page, Route, expect

OWN = "Own words: "


@pytest.fixture
def file(folder: Path, request: pytest.FixtureRequest) -> Path:
    return chart(folder, f"own-{abs(hash(request.node.name))}")


def open_step(page: Page, step: str = "meet") -> None:
    page.locator(f"#steps [data-key={step}]").click()
    page.locator(".step-open .say").wait_for()


def edit(page: Page) -> None:
    page.locator("#steps .word", has_text="Say it in my own words").click()
    expect(page.locator(".say-edit")).to_be_focused()


def begin(page: Page, words: str = OWN) -> None:
    """Own words before the program's."""
    edit(page)
    page.keyboard.press("Control+Home")
    page.keyboard.type(words)
    page.keyboard.press("Enter")
    expect(page.locator(".step-open .say")).to_contain_text(words.strip())


def until(page: Page, holds: Callable[[], bool]) -> None:
    """Waits until it holds, the page going on meanwhile."""
    for _ in range(400):
        if holds():
            return
        page.wait_for_timeout(50)
    pytest.fail("it never held")


def script(file: Path) -> Path:
    return file.with_name(f"{file.stem}.script.md")


def test_own_words_are_kept_and_taken_again_with_live_numbers(window: Callable[..., Window], file: Path) -> None:
    opened = window()
    page = opened.open(file.name)
    open_step(page)
    begin(page)
    says(page, "Said in your words from now on.")
    until(page, script(file).exists)
    assert OWN in script(file).read_text(encoding="utf-8")
    assert "{W}" in script(file).read_text(encoding="utf-8")
    page = opened.open(file.name)
    open_step(page)
    assert page.locator(".step-open .say").inner_text().startswith(f"{OWN}A chest of 468 N")
    file.write_text(CHART.replace("468 N", "520 N"), encoding="utf-8")
    expect(page.locator(".step-open .say")).to_contain_text("520 N")


def test_own_words_are_a_step_of_undo(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    open_step(page)
    begin(page)
    page.locator("#undo").click()
    expect(page.locator(".step-open .say")).not_to_contain_text(OWN)
    says(page, "Undone: own words for")
    page.locator("#redo").click()
    expect(page.locator(".step-open .say")).to_contain_text(OWN)


def test_a_live_number_goes_whole_or_not_at_all(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    open_step(page)
    edit(page)
    slots = page.locator(".say-edit .slot")
    count = slots.count()
    assert count
    assert slots.first.inner_text() == "468 N"
    page.evaluate("() => getSelection().collapse(document.querySelector('.say-edit'), 2)")  # right behind the first
    page.keyboard.press("Backspace")
    assert slots.count() == count - 1
    assert "468" not in page.locator(".say-edit").inner_text()
    page.keyboard.press("Escape")
    expect(page.locator(".step-open .say")).to_contain_text("468 N")


def test_what_cannot_be_said_stays_in_the_field(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    open_step(page)
    edit(page)
    page.locator(".say-edit").fill("It takes {Q}.")
    page.keyboard.press("Enter")
    says(page, "{Q} is no number of this account.")
    page.locator("#wheels .row", has_text="Raising").click()
    page.wait_for_timeout(300)
    assert page.locator(".say-edit").inner_text() == "It takes {Q}."


def test_a_sentence_half_written_waits_while_one_looks_elsewhere(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    open_step(page)
    edit(page)
    page.keyboard.press("Control+Home")
    page.keyboard.type("Half a thought ")
    page.locator("#steps [data-key=path]").click()
    expect(page.locator(".say-edit")).to_have_count(0)
    page.locator("#steps [data-key=meet]").click()
    expect(page.locator(".say-edit")).to_contain_text("Half a thought")
    page.locator(".step-open .word", has_text="Leave it").click()
    expect(page.locator(".step-open .say")).not_to_contain_text("Half a thought")


def test_the_screen_says_them(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    open_step(page)
    begin(page)
    page.locator("#present").click()
    expect(page.locator(".screen .sentence")).to_contain_text(OWN)


def test_words_changed_on_disk_are_taken_and_what_is_wrong_is_told(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    script(file).write_text(
        "## Chart {#chart}\n\n[meet]\nFrom elsewhere.\n\n[gone]\nNobody says this.\n", encoding="utf-8"
    )
    says(page, f"{script(file).name} was changed elsewhere")
    open_step(page)
    expect(page.locator(".step-open .say")).to_have_text("From elsewhere.")
    expect(page.locator("#refusals .unsaid")).to_contain_text("this account has no step [gone]")


def test_two_windows_say_different_steps_and_both_are_kept(window: Callable[..., Window], file: Path) -> None:
    one, other = window().open(file.name), window().open(file.name)
    open_step(one)
    begin(one, "One. ")
    says(other, "was changed elsewhere")
    open_step(other, "cut")
    begin(other, "Two. ")
    expect(one.locator("#line")).to_contain_text("was changed elsewhere")
    text = script(file).read_text(encoding="utf-8")
    assert "One. " in text
    assert "Two. " in text


def test_the_same_words_changed_in_two_places_are_shown_twice(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    open_step(page)
    theirs = "## Chart {#chart}\n\n[meet]\nTheirs.\n"

    def between(route: Route) -> None:
        """Another program is quicker than the page."""
        if (
            route.request.method == "PUT"
            and not script(file).exists()
            and "script.md" in (route.request.post_data or "")
        ):
            script(file).write_text(theirs, encoding="utf-8")
        route.continue_()

    page.route("**/api/file", between)
    begin(page, "Mine. ")
    page.locator("#words-conflict .word").first.wait_for()
    assert page.locator("#words-kept").inner_text().startswith("Not kept")
    page.locator("#words-conflict .word", has_text="Keep mine").click()
    until(page, lambda: "Mine." in script(file).read_text(encoding="utf-8"))
    assert "Theirs." not in script(file).read_text(encoding="utf-8")


def test_a_rig_of_the_shelf_becomes_a_file_with_its_words(window: Callable[..., Window], folder: Path) -> None:
    page = window().open("twofold-up")
    open_step(page)
    begin(page)
    kept(page)
    assert (folder / "twofold-up.rig").exists()
    until(page, (folder / "twofold-up.script.md").exists)


def test_two_screens_at_once_have_their_own_words_windows(window: Callable[..., Window], folder: Path) -> None:
    """In one browser: what is said of one rig is not written beside the other."""
    one, two = chart(folder, "own-screen-one"), chart(folder, "own-screen-two")
    opened = window()
    first = opened.open(one.name)
    second = first.context.new_page()
    second.goto(first.url.replace(one.name, two.name))
    second.wait_for_selector("#plate svg[data-view]")
    prompters = []
    for page in (first, second):
        page.locator("#present").click()
        page.locator(".screen .picture svg").wait_for()
        with page.context.expect_page() as found:
            page.mouse.move(300, 300)
            page.get_by_role("button", name="Words window", exact=True).click()
        prompters.append(found.value)
        found.value.locator("#shows .link").wait_for()
    prompters[0].locator("#shows .link").click()
    prompters[0].keyboard.press("Control+Home")
    prompters[0].keyboard.type(OWN)
    prompters[0].keyboard.press("Enter")
    until(first, script(one).exists)
    prompters[0].keyboard.press("PageDown")
    first.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 1")
    first.wait_for_timeout(1500)
    assert not script(two).exists()
    assert second.locator(".screen .tick.gone").count() == 0
