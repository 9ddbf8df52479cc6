"""Every letter of a formula lights what it stands for, and is lit with it."""

from collections.abc import Callable

import pytest
from browsing import Window, says
from playwright.sync_api import Page

LIT = "() => [...document.querySelectorAll('#steps :is(msub, mi).lit')].map(one => one.textContent)"

# The ropes on whose lines of the slip something is lit.
ROPES = """() => [...new Set([...document.getElementById('editor').shadowRoot.querySelectorAll('.lit')]
  .map(one => one.closest('.cm-line').textContent.split(':')[0].split(' ').at(-1)))]"""


@pytest.fixture
def page(window: Callable[..., Window]) -> Page:
    """The double burton: a long rope, a short one, and a flying block between them."""
    return window().open("burton-double-1")


@pytest.mark.parametrize(("letter", "rope"), [("T1", "long"), ("T2", "short")])
def test_the_letter_of_a_pull_lights_its_own_rope(page: Page, letter: str, rope: str) -> None:
    page.get_by_role("tab", name="Free bodies").click()
    page.wait_for_selector("#steps msub")
    term = page.locator("#steps msub").filter(has_text=letter).first
    assert page.evaluate(LIT) == []
    term.hover()
    says(page, f"{letter}: {rope}, rope of")
    lit = page.evaluate(ROPES)
    assert lit == [rope], "its own line, and no other rope's"
    assert set(page.evaluate(LIT)) == {letter}, "only the letters of that rope"
    page.mouse.move(5, 5)
    page.wait_for_selector("#editor .lit", state="detached")
    assert page.evaluate(LIT) == []


def test_a_rope_that_is_pointed_at_lights_its_letter(page: Page) -> None:
    page.get_by_role("tab", name="Free bodies").click()
    page.wait_for_selector("#steps msub")
    page.locator("#plate .part[data-part='short']").dispatch_event("pointerover")
    page.wait_for_function(f"() => ({LIT})().length > 0")
    assert set(page.evaluate(LIT)) == {"T2"}


def test_weight_rise_and_haul_light_what_they_are_of(page: Page) -> None:
    for letter, part in (("W", "drum"), ("F", "hand"), ("s", "hand")):
        page.mouse.move(5, 5)
        page.locator(f"#steps :is(mi, #formula mi):text-is('{letter}')").first.hover()
        says(page, f"{letter}: {part}")


def test_the_pin_of_one_value_lights_its_letter_and_no_other_of_the_part(page: Page) -> None:
    page.locator(".rule[data-key='drum.weight'] input").focus()
    page.wait_for_function(f"() => ({LIT})().length > 0")
    assert set(page.evaluate(LIT)) == {"W"}, "not the rise of the drum"
