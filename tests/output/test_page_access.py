"""The page in a real browser: no violation an accessibility checker finds, in every way it is looked at."""

from pathlib import Path
from typing import Any

import pytest
from axe import violations
from ready import Open, shelf

from gantline.lesson import compose
from gantline.output import html

LOOKS: dict[str, dict[str, Any]] = {
    "light": {},
    "dark": {"color_scheme": "dark"},
    "narrow": {"viewport": {"width": 320, "height": 640}},
    "narrow dark": {"viewport": {"width": 320, "height": 640}, "color_scheme": "dark"},
    "zoomed": {"viewport": {"width": 720, "height": 450}, "device_scale_factor": 2},  # 1440 x 900 at 200 %
    "calm": {"reduced_motion": "reduce"},
}


@pytest.mark.parametrize("look", LOOKS)
def test_no_violation_at_the_opening(folder: Path, open_page: Open, look: str) -> None:
    assert not violations(open_page(folder / "index.html", **LOOKS[look]))


@pytest.mark.parametrize("look", ["light", "dark", "narrow"])
def test_no_violation_at_any_kind_of_step(single: Path, open_page: Open, look: str) -> None:
    page = open_page(single / "index.html", reduced_motion="reduce", **LOOKS[look])
    count = page.locator(".step").count()
    for number in range(1, count + 1):
        asks = page.locator(".stage.asking").count()
        if asks:
            page.locator(".ask input").fill("72")
        if asks or number in (count // 2, count):
            assert not violations(page)
        if asks:
            page.locator(".keep").click()
        elif number < count:
            page.locator(".next").click()


def test_no_violation_with_the_reply_shown(single: Path, open_page: Open) -> None:
    page = open_page(single / "index.html", reduced_motion="reduce")
    page.locator(".mark").nth(2).click()
    page.locator(".ask input").fill("72")
    page.locator(".keep").click()
    while not page.locator(".reply:visible").count():
        page.locator(".next").click()
    assert not violations(page)


def test_no_violation_without_scripts(folder: Path, chromium: Any, tmp_path: Path) -> None:
    """The checker is a script itself: the page is looked at as it stands with its own script taken out."""
    text = (folder / "index.html").read_text(encoding="utf-8")
    start = text.rindex("<script>")
    bare = tmp_path / "bare.html"
    bare.write_text(text[:start] + text[text.index("</script>", start) + 9 :], encoding="utf-8")
    page = chromium.new_page()
    page.goto(bare.as_uri())
    assert page.locator(".step:visible").count() > 10
    assert not violations(page)
    page.close()


@pytest.mark.parametrize(
    "name", ["atwood-double", "impossible-one-rope", "indeterminate-two-ropes", "rider-own-rope", "loss-holds"]
)
def test_no_violation_for_other_kinds_of_rigs(name: str, open_page: Open, tmp_path: Path) -> None:
    page_file = tmp_path / "page.html"
    page_file.write_text(html.write(compose([shelf(name)])), encoding="utf-8")
    assert not violations(open_page(page_file))


@pytest.mark.parametrize("width", [320, 390, 768, 1024, 1440, 2560])
def test_nothing_runs_out_of_the_page(folder: Path, open_page: Open, width: int) -> None:
    page = open_page(folder / "index.html", viewport={"width": width, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
