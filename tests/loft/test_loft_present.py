"""Presenting in a real browser: by keys, clicks, touch and remote; words window in step; no server needed."""

import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from browsing import Window, chart
from outside import loft
from playwright.sync_api import Browser, Page

sys.path.insert(0, str(Path(__file__).parents[1] / "output"))
from axe import violations

SHELF = Path(__file__).resolve().parents[2] / "src" / "gantline" / "shelf"
Windows = Callable[..., Window]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("presented")
    for name in ("planter", "impossible-unequal", "luff-upon-luff"):
        (folder / f"{name}.rig").write_text((SHELF / f"{name}.rig").read_text(encoding="utf-8"), encoding="utf-8")
    return folder


def presented(window: Windows, name: str = "planter.rig", **options: object) -> tuple[Window, Page]:
    """A window that presents a rig, and its page."""
    size = options.pop("viewport", None)
    opened = window(**options)
    page = opened.open(name)
    if size:
        page.set_viewport_size(size)
    page.locator("#present").click()
    page.locator(".screen .picture svg").wait_for()
    return opened, page


@pytest.fixture(scope="module")
def stage(chromium: Browser, running: str) -> Iterator[Window]:
    """One window on the planter for all that looks at its presenting."""
    opened = Window(chromium, running, color_scheme="light", has_touch=True)
    opened.open("planter.rig")
    yield opened
    assert not opened.end()


@pytest.fixture
def page(stage: Window) -> Iterator[Page]:
    """The planter presented, at its first step."""
    page = stage.page
    for kept in ("gantline present planter.rig", "gantline screen ground"):
        page.evaluate("key => localStorage.removeItem(key)", kept)
    page.locator("#present").click()
    page.locator(".screen .picture svg").wait_for()
    assert place(page)[0] == 1
    yield page
    for other in stage.context.pages[1:]:
        other.close()
    page.bring_to_front()
    page.locator(".screen").press("Escape")
    page.locator(".screen").wait_for(state="hidden")


def said(page: Page) -> str:
    return page.locator(".screen .sentence").inner_text().replace("\u00a0", " ")


def place(page: Page) -> tuple[int, int]:
    """The step shown, counted from 1, and how many there are."""
    ticks = page.locator(".screen .tick")
    return 1 + page.locator(".screen .tick.gone").count(), ticks.count()


def words_window(page: Page) -> Page:
    with page.context.expect_page() as found:
        page.mouse.move(300, 300)
        page.get_by_role("button", name="Words window", exact=True).click()
    words = found.value
    words.wait_for_function("() => document.querySelector('#at').textContent.includes(' of ')")
    return words


def test_every_key_of_a_remote(page: Page) -> None:
    _, count = place(page)
    assert count > 8
    for key, step in [
        ("PageDown", 2), ("ArrowRight", 3), ("Space", 4), ("Enter", 5), ("PageUp", 4), ("ArrowLeft", 3),
        ("Backspace", 2), ("End", count), ("PageDown", count), ("Home", 1), ("PageUp", 1),
    ]:  # fmt: skip
        page.keyboard.press(key)
        page.wait_for_function(f"() => document.querySelectorAll('.screen .tick.gone').length === {step - 1}")
    page.keyboard.press("End")
    page.keyboard.press("PageDown")
    assert page.locator(".screen [role=status]").inner_text() == "This is the last step."


def test_no_line_parts_a_number_from_its_unit(page: Page) -> None:
    shown = page.locator(".screen .sentence").inner_text()
    assert re.search(r"\d\u00a0N\b", shown)
    assert not re.search(r"\d N\b", shown)


def test_each_step_is_said_shown_and_spoken(page: Page) -> None:
    page.keyboard.press("PageDown")
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 1")
    spoken = page.locator(".screen [role=status]").inner_text()
    assert spoken.startswith(f"Step 2 of {place(page)[1]}, The rope's way. One rope starts at the upper block")
    assert page.locator(".screen .picture svg [data-strand]").count() > 0
    assert page.locator(".screen .equation").is_hidden()
    page.keyboard.press("PageDown")
    page.locator(".screen .equation math").first.wait_for()


@pytest.mark.parametrize("key", [".", "b"])
def test_blank_and_back_again(page: Page, key: str) -> None:
    page.keyboard.press(key)
    page.locator(".screen.blank").wait_for()
    assert page.locator(".screen .sentence").is_hidden()
    page.keyboard.press("PageDown")
    page.locator(".screen:not(.blank)").wait_for()
    assert place(page)[0] == 1, "the first key only brings the picture back"


def test_clicks_go_on_and_words_do_what_they_say(window: Windows) -> None:
    _, page = presented(window)
    page.mouse.click(400, 400)
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 1")
    page.get_by_role("button", name="Back", exact=True).click()
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 0")
    page.get_by_role("button", name="Light screen").click()
    assert page.evaluate("document.documentElement.dataset.ground") == "light"
    page.get_by_role("button", name="Dark screen").click()
    page.get_by_role("button", name="Leave").click()
    assert page.locator(".screen").is_hidden()
    page.wait_for_function("() => document.activeElement.id === 'present'")


def test_fingers(page: Page) -> None:
    swipe = """([from, to]) => {
      const screen = document.querySelector('.screen');
      const touch = (x) => new Touch({ identifier: 1, target: screen, clientX: x, clientY: 300 });
      for (const [type, x] of [['touchstart', from], ['touchend', to]])
        screen.dispatchEvent(new TouchEvent(type, { bubbles: true, cancelable: true, changedTouches: [touch(x)] }));
    }"""
    page.evaluate(swipe, [600, 300])
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 1")
    page.touchscreen.tap(500, 400)
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 2")
    page.evaluate(swipe, [300, 600])
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 1")


def test_it_leaves_with_escape_and_comes_back_where_it_was(window: Windows) -> None:
    opened, page = presented(window)
    for _ in range(3):
        page.keyboard.press("PageDown")
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 3")
    sentence = said(page)
    page.evaluate("document.fullscreenElement && document.exitFullscreen()")
    page.locator(".screen").wait_for(state="hidden")
    page.locator("#present").click()
    page.locator(".screen .picture svg").wait_for()
    assert said(page) == sentence
    page.reload()
    opened.ready()
    page.locator(".screen .picture svg").wait_for()
    assert said(page) == sentence
    page.keyboard.press("Escape")
    page.locator(".screen").wait_for(state="hidden")


def test_the_page_gets_its_own_ground_back(window: Windows) -> None:
    _, page = presented(window, color_scheme="light")
    assert page.evaluate("document.documentElement.dataset.ground") == "dark"
    page.keyboard.press("Escape")
    page.locator(".screen").wait_for(state="hidden")
    assert page.evaluate("document.documentElement.dataset.ground ?? ''") == ""


def test_the_words_window_is_in_step_both_ways(page: Page) -> None:
    words = words_window(page)
    words.get_by_role("button", name="On", exact=True).click()
    words.wait_for_function("() => document.querySelector('#at').textContent.startsWith('2 of')")
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 1")
    page.bring_to_front()
    page.keyboard.press("PageDown")
    words.wait_for_function("() => document.querySelector('#at').textContent.startsWith('3 of')")
    words.keyboard.press("PageDown")
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 3")
    words.get_by_role("button", name="Blank the screen").click()
    page.locator(".screen.blank").wait_for()
    words.get_by_role("button", name="Show the screen").click()
    page.locator(".screen:not(.blank)").wait_for()
    words.get_by_role("button", name="Light screen").click()
    page.wait_for_function("() => document.documentElement.dataset.ground === 'light'")
    words.get_by_role("button", name="Steps").click()
    words.locator("#list button").nth(6).click()
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 6")


def test_the_words_window_says_what_comes_and_how_long(page: Page) -> None:
    words = words_window(page)
    assert words.locator("#sentence").inner_text().startswith("A planter of 348 newtons hangs")
    assert words.locator("#next dt").all_inner_texts() == ["Next", "Then"]
    assert words.locator("#shows").inner_text().startswith("On the screen: ")
    assert "gone, about " in words.locator("#gone").inner_text()
    assert ":" in words.locator("#clock").inner_text()


def test_words_of_ones_own_reach_the_screen(page: Page) -> None:
    words = words_window(page)
    words.get_by_role("button", name="Change these words").click()
    hostile = "<img src=x onerror=alert(1)> My own words."
    words.locator(".say-edit").fill(hostile)
    words.get_by_role("button", name="Keep these words").click()
    words.wait_for_function("() => document.querySelector('#sentence').textContent.includes('My own words')")
    page.bring_to_front()
    page.keyboard.press("PageDown")
    page.keyboard.press("PageUp")
    page.wait_for_function("() => document.querySelector('.screen .sentence').textContent.includes('My own words')")
    assert said(page) == hostile
    words.get_by_role("button", name="Change these words").click()
    words.get_by_role("button", name="The program's words").click()
    words.wait_for_function("() => document.querySelector('#sentence').textContent.startsWith('A planter of')")


def test_words_that_cannot_be_said_stay_open_and_say_why(page: Page) -> None:
    words = words_window(page)
    words.get_by_role("button", name="Change these words").click()
    words.locator(".say-edit").fill("It takes {Q}.")
    words.keyboard.press("Enter")
    words.wait_for_function("() => document.querySelector('.refused').textContent.includes('{Q} is no number')")
    assert words.locator(".say-edit").inner_text() == "It takes {Q}."
    words.get_by_role("button", name="Leave them").click()


def test_either_window_may_be_closed(window: Windows) -> None:
    _, page = presented(window)
    words = words_window(page)
    words.close()
    page.keyboard.press("PageDown")
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 1")
    again = words_window(page)
    again.wait_for_function("() => document.querySelector('#at').textContent.startsWith('2 of')")
    page.bring_to_front()
    page.keyboard.press("Escape")
    again.wait_for_function("() => document.querySelector('.in-step').textContent === 'The screen has been left'")


def test_edits_reach_the_screen_with_on(window: Windows, folder: Path) -> None:
    """Another program writes the file while it is presented: the page takes it, the screen waits for *On*."""
    file = folder / "edited.rig"
    text = (folder / "planter.rig").read_text(encoding="utf-8")
    file.write_text(text, encoding="utf-8")
    _, page = presented(window, "edited.rig")
    file.write_text(text.replace("348 N", "468 N"), encoding="utf-8")
    page.wait_for_function("() => document.querySelector('#plate').textContent.includes('468')")
    assert "348 N" in said(page)
    page.keyboard.press("PageDown")
    page.wait_for_function("() => document.querySelectorAll('.screen .tick.gone').length === 1")
    page.keyboard.press("PageUp")
    page.wait_for_function("() => document.querySelector('.screen .sentence').textContent.includes('468\\u00a0N')")


def test_a_what_if_is_presented_and_said(window: Windows) -> None:
    page = window().open("planter.rig")
    page.locator(".rule[data-key='planter.weight'] input").focus()
    page.keyboard.press("PageUp")
    page.locator("#present").click()
    page.locator(".screen .picture svg").wait_for()
    tried = page.locator(".screen .trying").inner_text()
    assert tried.startswith("What if: planter weight ")
    assert tried.removeprefix("What if: planter weight ") in said(page)


def test_a_rig_that_cannot_hold_is_presented_too(window: Windows) -> None:
    _, page = presented(window, "impossible-unequal.rig")
    assert page.locator(".screen .picture svg").count() == 1
    page.keyboard.press("End")
    assert len(said(page)) > 20


@pytest.mark.parametrize(
    ("name", "wide", "high"),
    [("planter.rig", 1920, 1080), ("planter.rig", 390, 844), ("luff-upon-luff.rig", 1024, 768)],
)
def test_nothing_is_cut_off_and_the_rig_does_not_move(window: Windows, name: str, wide: int, high: int) -> None:
    _, page = presented(window, name, viewport={"width": wide, "height": high})
    frames = set()
    count = place(page)[1]
    for number in range(count):
        assert place(page)[0] == number + 1
        assert page.evaluate("""() => {
          const inside = (of) => { const box = of.getBoundingClientRect();
            return box.left >= -1 && box.top >= -1 && box.right <= innerWidth + 1 && box.bottom <= innerHeight + 1; };
          const math = [...document.querySelectorAll('.screen .equation math')];
          return [...math, ...document.querySelectorAll('.screen .sentence, .screen .picture svg')].every(inside);
        }"""), f"step {number + 1}"
        frames.add(page.locator(".screen .picture svg").get_attribute("viewBox"))
        page.keyboard.press("PageDown")
    assert len(frames) <= 2


@pytest.mark.parametrize("ground", ["light", "dark"])
def test_the_checker_finds_nothing(page: Page, ground: str) -> None:
    if ground == "light":
        page.get_by_role("button", name="Light screen").click()
    page.keyboard.press("End")
    page.keyboard.press("PageUp")
    assert not violations(page)
    words = words_window(page)
    assert not violations(words)
    words.get_by_role("button", name="Steps").click()
    words.get_by_role("button", name="Change these words").click()
    assert not violations(words)


@pytest.fixture
def doomed(chromium: Browser, tmp_path: Path) -> Iterator[Window]:
    """A window on a loft that is killed once it presents."""
    chart(tmp_path)
    with loft(tmp_path) as outside:
        opened = Window(chromium, f"{outside.address}/?token={outside.token}")
        page = opened.open("chart.rig")
        page.locator("#present").click()
        page.locator(".screen .picture svg").wait_for()
        words_window(page)
        outside.process.kill()
        outside.process.wait()
        yield opened
        opened.end()


def test_it_goes_on_without_a_server(doomed: Window) -> None:
    page, words = doomed.context.pages
    page.bring_to_front()
    for step in range(1, place(page)[1]):
        page.keyboard.press("PageDown")
        words.wait_for_function(f"() => document.querySelector('#at').textContent.startsWith('{step + 1} of')")
    words.get_by_role("button", name="Back", exact=True).click()
    page.wait_for_function(f"() => document.querySelectorAll('.screen .tick.gone').length === {place(page)[1] - 2}")
