"""After a change made on the plate, rope and figure move from where they stood to where they stand; words never do."""

from collections.abc import Callable

import pytest
from browsing import Window, says
from playwright.sync_api import Page

# Every mark with its name and its place; each move is held at its beginning, and `off` is how far it then is from where
# its like stood before (-1: there was none). A plate that is laid out anew goes on from there: only firsts count.
HOLD = """() => {
  const places = () => {
    const counted = new Map(), found = new Map();
    for (const mark of document.querySelectorAll('#plate .figure svg [data-part]')) {
      const { part, strand, sheave } = mark.dataset;
      const name = [mark.tagName, mark.getAttribute('class'), part, strand, sheave].join(' ');
      counted.set(name, (counted.get(name) || 0) + 1);
      found.set(mark, `${name} ${counted.get(name)}`);
    }
    return found;
  };
  const middle = (mark) => {
    const box = mark.getBoundingClientRect();
    return [box.left + box.width / 2, box.top + box.height / 2];
  };
  const before = new Map([...places()].map(([mark, name]) => [name, middle(mark)]));
  const animate = Element.prototype.animate;
  window.moved = [];
  Element.prototype.animate = function (...how) {
    const move = animate.apply(this, how), name = places().get(this), was = before.get(name);
    move.pause();
    const is = middle(this), off = was ? Math.hypot(was[0] - is[0], was[1] - is[1]) : -1;
    const first = !window.moved.some((one) => one.name === name);
    window.moved.push({ mark: this, name, move, off, first, ms: move.effect.getTiming().duration });
    return move;
  };
}"""
# How far the places that can be pressed are from the strands they belong to, once all stands.
AWAY = """() => [...document.querySelectorAll('#plate .part[data-kind=strand]')].map((part) => {
  const line = document.querySelector(`#plate .figure line[data-strand="${part.dataset.part}"]`);
  const a = part.getBoundingClientRect(), b = line.getBoundingClientRect();
  return Math.hypot(a.left + a.width / 2 - b.left - b.width / 2, a.top + a.height / 2 - b.top - b.height / 2);
})"""


@pytest.fixture
def page(window: Callable[..., Window]) -> Page:
    """A rig from nothing, in a browser that likes things to move."""
    page = window(reduced_motion="no-preference").open("")
    return begun(page)


def begun(page: Page) -> Page:
    page.get_by_role("button", name="From nothing").first.click()
    page.wait_for_selector("#plate .place")
    return page


def take(page: Page, contact: str) -> None:
    """The first place taken, and its figure waited for."""
    page.keyboard.press("Enter")
    says(page, contact)
    page.wait_for_selector("#plate .plate-doc:not([aria-busy])")


def hold(page: Page) -> None:
    """From now on every move is held at its beginning; what was on its way has come to rest."""
    page.wait_for_function("() => !document.getAnimations().length")
    page.evaluate(HOLD)


def test_what_a_figure_shares_with_the_one_before_moves_from_there(page: Page) -> None:
    take(page, "Second contact.")
    hold(page)
    take(page, "Third contact.")
    assert page.evaluate("() => window.moved[0].ms") == 160
    off = page.evaluate("() => window.moved.filter((one) => one.first).map((one) => one.off)")
    assert len(off) > 4
    assert min(off) >= 0
    assert max(off) < 1.0, "px"
    assert page.evaluate("() => window.moved.every((one) => one.mark.tagName !== 'text')"), "words never move"


def test_what_can_be_pressed_stands_at_once_where_it_belongs(page: Page) -> None:
    for contact in ("Second", "Third", "Fourth", "Fifth", "Sixth"):
        take(page, f"{contact} contact.")
    hold(page)
    page.locator("#plate .place", has_text="hand").first.click()
    says(page, "fall is rove")
    page.wait_for_function("() => window.moved.length > 0")
    page.evaluate("() => window.moved.forEach((one) => one.move.finish())")
    assert max(page.evaluate(AWAY)) < 1.5, "px"


def test_nothing_moves_while_words_are_typed(page: Page) -> None:
    page.keyboard.press("Escape")
    hold(page)
    page.locator("#editor .cm-content").focus()
    page.keyboard.press("Control+End")
    page.keyboard.type("moving mid sheaves 1, carries sack\n")
    page.wait_for_timeout(600)  # longer than any answer takes
    assert page.evaluate("() => window.moved.length") == 0


def test_nothing_moves_for_those_who_want_it_calm(window: Callable[..., Window]) -> None:
    page = begun(window(reduced_motion="reduce").open(""))
    hold(page)
    for contact in ("Second", "Third", "Fourth"):
        take(page, f"{contact} contact.")
    assert page.evaluate("() => window.moved.length") == 0
