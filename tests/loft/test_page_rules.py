"""The rules: one for everything that has a number and a unit, and no word of them cut at any width."""

from collections.abc import Callable
from pathlib import Path

import pytest
from browsing import Window, says, words
from playwright.sync_api import Page

BAG = """\
title  The bag on the bench
fixed  upper   sheaves 2, efficiency 92 %, radius 18 mm, spacing 50 mm
moving lower   sheaves 2, weight 0.8 N, efficiency 92 %, hook 60 mm, becket -10 mm, carries bag
load   bag     weight 10 N
rope   fall:   upper, under lower.1, over upper.1, under lower.2, over upper.2, hand
cord   fall    stiffness 2 kN, diameter 3 mm, weight 0.1 N/m, drag 0 N
apart  upper lower 0.8 m
lead   1.2 m
"""
LONG = """\
fixed  the-uppermost-block-of-all   sheaves 1, efficiency 92 %
moving the-lower-block-with-a-long-name   sheaves 1, weight 0.8 N, efficiency 95 %, carries the-old-upright-piano
load   the-old-upright-piano   weight 12345.678 N
rope   fall:   the-uppermost-block-of-all, under the-lower-block-with-a-long-name, over the-uppermost-block-of-all, hand
raise  the-old-upright-piano 0.00012 m
"""
# The places of all words of the rules, as they are drawn: what leaves the page, and what lies over something else.
AMISS = """() => {
  const seen = [...document.querySelectorAll('.rules :is(.named, .given, .legend, .track text, .others .word)')]
    .filter(one => one.getClientRects().length)
    .flatMap(one => {
      const range = document.createRange();
      range.selectNodeContents(one);
      return [...range.getClientRects()].filter(at => at.width > 1).map(at => ({ one, at }));
    });
  const column = document.querySelector('.plate-column').getBoundingClientRect(), found = [];
  for (const { one, at } of seen)
    if (at.left < column.left - 1 || at.right > column.right + 1) found.push(`out: ${one.textContent}`);
  for (const [n, a] of seen.entries()) for (const b of seen.slice(n + 1)) {
    const across = Math.min(a.at.right, b.at.right) - Math.max(a.at.left, b.at.left);
    const down = Math.min(a.at.bottom, b.at.bottom) - Math.max(a.at.top, b.at.top);
    if (a.one !== b.one && across > 1 && down > 6) found.push(`over: ${a.one.textContent} | ${b.one.textContent}`);
  }
  for (const one of document.querySelectorAll('.rules :is(.named, .what, .legend)'))
    if (getComputedStyle(one).overflow !== 'visible') found.push(`cut: ${one.textContent}`);
  return found;
}"""


@pytest.fixture
def page(window: Callable[..., Window], folder: Path) -> Page:
    """The page on the bag, with all that only a real rig shows."""
    (folder / "bag.rig").write_text(BAG, encoding="utf-8")
    return window().open("bag.rig")


def rule(page: Page, id: str) -> None:
    """A rule taken up, with its pin in focus."""
    page.locator(f".others [data-key='{id}'] button.link").click()
    assert page.evaluate("() => document.activeElement.closest('.rule')?.dataset.key") == id


@pytest.mark.parametrize(
    ("id", "old", "new"),
    [("upper.lower.apart", "lower 0.8 m", "lower 0.84 m"), ("fall.stiffness", "2 kN", "2.1 kN"),
     ("fall.drag", "drag 0 N", "drag 0.3 N"), ("lower.becket", "-10 mm", "-9 mm"), ("lower.hook", "60 mm", "63 mm"),
     ("lead", "1.2 m", "1.26 m")],
)  # fmt: skip
def test_what_only_a_real_rig_shows_is_tried_and_written_in(page: Page, id: str, old: str, new: str) -> None:
    """An arrow moves a pin to the next graduation, and those of a rule are round numbers: *common practice*."""
    before = words(page)
    rule(page, id)
    page.keyboard.press("ArrowRight")
    says(page, "What if")
    assert page.locator("#editor .try").inner_text() == f"what if {' '.join(new.split()[-2:])}"
    assert words(page) == before
    page.keyboard.press("Enter")
    says(page, "Written in.")
    assert words(page) == before.replace(old, new)
    page.keyboard.press("Control+z")
    says(page, "Undone: ")
    assert words(page) == before


def test_pointing_at_a_distance_lights_both_parts(page: Page) -> None:
    rule(page, "upper.lower.apart")
    lit = page.locator("#editor .lit").all_inner_texts()
    assert "0.8 m" in lit
    assert {"upper", "lower"} <= set(lit)


def test_what_is_tried_is_told_alike_on_the_plate_and_in_the_account(window: Callable[..., Window]) -> None:
    page = window().open("planter")
    pin = page.locator(".rule[data-key='lower.weight'] input")
    pin.focus()
    page.keyboard.press("ArrowRight")
    says(page, "What if")
    page.wait_for_selector(".step-row.changed")
    tried = page.locator("#editor .try").inner_text().removeprefix("what if ")
    beside = page.locator("#plate .dotted.trying")
    assert beside.locator("[aria-hidden]").inner_text().replace("\u00a0", " ") == f"w = {tried}"
    page.keyboard.press("Enter")
    says(page, "Written in.")
    page.wait_for_function("() => !document.querySelector('.step-row.changed, #plate .dotted.trying')")


def test_who_leaves_a_value_that_will_not_do_is_not_followed_by_its_field(window: Callable[..., Window]) -> None:
    page = window().open("planter")
    before = words(page)
    page.locator("#plate .dotted.over").click()
    page.keyboard.type("50 kg")
    page.keyboard.press("Enter")
    page.wait_for_selector("#plate .field-says b")
    page.locator(".rule[data-key='lower.weight'] input").focus()
    assert page.locator("#plate input.field").input_value() == "50 kg", "it can still be mended"
    page.get_by_text("Tried", exact=True).click()
    page.wait_for_selector("#plate svg[data-view=tried]")
    assert not page.locator("#plate input.field, .field-says").count()
    assert words(page) == before


@pytest.mark.parametrize("width", [360, 390, 600, 768, 900, 1024, 1200, 1440])
@pytest.mark.parametrize("text", [LONG, BAG], ids=["long", "many"])
def test_no_word_of_a_rule_is_cut(window: Callable[..., Window], folder: Path, width: int, text: str) -> None:
    (folder / "names.rig").write_text(text, encoding="utf-8")
    page = window(viewport={"width": width, "height": 900}).open("names.rig")
    if width < 600:
        page.locator(".foot [data-to=rules]").click()
    assert page.evaluate(AMISS) == []
    page.locator(".rule:visible input").first.press("ArrowRight")
    says(page, "What if")
    assert page.evaluate(AMISS) == []
