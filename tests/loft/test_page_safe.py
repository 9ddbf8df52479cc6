"""Whatever a file says is text: nothing of it runs, nothing is asked of anywhere else."""

from collections.abc import Callable
from pathlib import Path

from browsing import Window, says, to_line, words

HOSTILE = "<img src=x onerror=alert(1)>'-alert(1)-'</script><script>alert(1)</script>\"><svg onload=alert(1)>"


def test_a_hostile_title_is_shown_as_the_words_it_is(window: Callable[..., Window], folder: Path) -> None:
    """`window` fails for any dialog, any script or style the policy refuses, and any request off the machine."""
    text = f"title  {HOSTILE}\nfixed beam\nload sack weight 90 N\nrope fall: sack, hand\n"
    (folder / "hostile.rig").write_text(text, encoding="utf-8")
    page = window().open("hostile.rig")
    assert page.inner_text("#title") == HOSTILE
    assert page.title().startswith(HOSTILE)
    assert page.locator("#rig-page img, script:not([src], #begun)").count() == 0
    to_line(page, 2)
    page.keyboard.type(" <b onclick=alert(1)>bold</b>")
    says(page, "problem")
    assert page.locator("#card b b, #line b b").count() == 0
    assert "<b onclick=alert(1)>bold</b>" in words(page)
    page.locator("#earlier").click()
    page.locator("#sheet button").first.wait_for()
    page.locator("#to-shelf").click()
    page.locator("#files button", has_text="hostile").click()
    page.wait_for_selector("#plate svg[data-view]")


def test_every_part_of_the_page_works_under_the_policy(window: Callable[..., Window]) -> None:
    page = window(viewport={"width": 390, "height": 844}).open("loss-twofold")
    for part in ("slip", "account", "rules", "plate"):
        page.locator(f".foot [data-to={part}]").click()
    page.locator(".foot [data-to=account]").click()
    page.locator(".step-row").nth(3).click()
    page.wait_for_selector("#plate svg[data-view='cut']")
    page.locator("#to-shelf").click()
    page.locator("#rigs img").first.wait_for()
    assert page.evaluate("() => window.refused") == []
