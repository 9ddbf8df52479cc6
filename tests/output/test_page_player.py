"""The player: keys, the question and its replies, playing, hauling; and the page without it."""

from pathlib import Path

import pytest
from playwright.sync_api import Page
from ready import Open


def place(page: Page) -> str:
    return page.locator(".step[data-now] .place").first.inner_text()


def open_calm(open_page: Open, single: Path) -> Page:
    return open_page(single / "index.html", reduced_motion="reduce")


def test_whole_account_by_keyboard_alone(single: Path, open_page: Open) -> None:
    page = open_calm(open_page, single)
    count = page.locator(".step").count()
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.matches('.rail .mark')"):
            break
    seen = [place(page)]
    for _ in range(count - 1):
        page.keyboard.press("ArrowRight")
        seen.append(place(page))
        assert page.evaluate("document.activeElement.matches('.mark[aria-checked=true]')")
        assert page.locator(".mark[tabindex='0']").count() == 1
    assert seen == [
        f"Step {n} of {count}: {page.locator('.step').nth(n - 1).get_attribute('data-idea')}"
        for n in range(1, count + 1)
    ]
    page.keyboard.press("Home")
    assert place(page) == seen[0]
    page.keyboard.press("End")
    assert place(page) == seen[-1]
    page.keyboard.press("ArrowLeft")
    assert place(page) == seen[-2]


def test_every_stop_of_the_tab_key_can_be_seen(single: Path, open_page: Open) -> None:
    page = open_calm(open_page, single)
    stops = []
    for _ in range(60):
        page.keyboard.press("Tab")
        stop = page.evaluate(
            """() => { const e = document.activeElement; if (e === document.body) return null;
            const r = e.getBoundingClientRect(), s = getComputedStyle(e);
            const ring = s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 3;
            return [e.className || e.tagName, r.width > 0, ring]; }"""
        )
        if stop is None:
            break
        stops.append(stop)
    assert len(stops) > 12
    assert [stop for stop in stops if not (stop[1] and stop[2])] == []


def test_arrow_keys_elsewhere_leave_the_steps_alone(single: Path, open_page: Open) -> None:
    page = open_calm(open_page, single)
    before = place(page)
    page.locator("body").press("ArrowRight")
    assert place(page) == before
    page.locator(".step[data-now] .picture").press("ArrowRight")
    assert place(page) != before


def test_step_change_is_said_once_and_politely(single: Path, open_page: Open) -> None:
    page = open_calm(open_page, single)
    page.locator(".next").click()
    said = page.locator(".said")
    assert said.get_attribute("aria-live") == "polite"
    assert said.inner_text().startswith("Step 2 of ")
    assert page.locator(".step[data-now] .say").first.inner_text() in said.inner_text()


def ask(page: Page, number: str) -> str:
    """Keeps a number at the question and goes on to the reply."""
    while not page.locator(".stage.asking").count():
        page.locator(".next").click()
    page.locator(".ask input").fill(number)
    page.locator(".ask input").press("Enter")
    while not page.locator(".step[data-now] .replies").count():
        page.locator(".next").click()
    return page.locator(".step[data-now] .reply:visible").inner_text()


@pytest.mark.parametrize(
    ("typed", "kept", "says"),
    [
        ("90", "90", "So does the rig"),
        ("90.8", "90.8", "So does the rig"),
        ("about 72,0 N", "72", "yours"),
        ("200", "200", "cannot be told"),
        ("-5", "−5", "cannot be told"),
    ],
)
def test_kept_number_comes_back_with_its_reply(single: Path, open_page: Open, typed: str, kept: str, says: str) -> None:
    reply = ask(open_calm(open_page, single), typed)
    assert f"You kept {kept}\u00a0N" in reply
    assert says in reply


def test_going_on_without_a_number_gets_no_reply(single: Path, open_page: Open) -> None:
    page = open_calm(open_page, single)
    while not page.locator(".stage.asking").count():
        page.locator(".next").click()
    page.locator(".without").click()
    page.locator(".mark").last.focus()
    for _ in range(page.locator(".step").count()):
        assert not page.locator(".reply:visible").count()
        page.keyboard.press("ArrowRight")


def test_keeping_nothing_says_what_is_missing(single: Path, open_page: Open) -> None:
    page = open_calm(open_page, single)
    while not page.locator(".stage.asking").count():
        page.locator(".next").click()
    page.locator(".ask input").fill("heavy")
    page.locator(".ask input").press("Enter")
    assert "number" in page.locator(".missing").inner_text()
    assert page.evaluate("document.activeElement.matches('.ask input')")


def test_number_is_stored_nowhere(single: Path, open_page: Open) -> None:
    page = open_calm(open_page, single)
    ask(page, "4242")
    assert page.evaluate("localStorage.length + sessionStorage.length") == 0
    page.reload()
    assert "4242" not in page.content()


def test_play_goes_on_by_itself_and_stops_at_the_question(single: Path, open_page: Open) -> None:
    page = open_calm(open_page, single)
    page.clock.install()
    page.reload()
    page.locator(".play").click()
    assert page.locator(".play .label").inner_text() == "Pause"
    for _ in range(6):
        page.clock.run_for(20_000)
    assert page.locator(".stage.asking").count() == 1
    assert page.locator(".play .label").inner_text() == "Play"


def test_hauling_moves_everything_by_the_true_ratios(single: Path, open_page: Open) -> None:
    page = open_page(single / "index.html", reduced_motion="reduce")
    page.locator(".mark").nth(11).click()
    slider = page.locator(".slider input")
    slider.fill("50")
    shift = """name => { const m = document.querySelector(`.moving g[data-body="${name}"]`).getAttribute('transform');
        return Number(/translate\\(0 ([-.0-9]+)\\)/.exec(m)[1]); }"""
    hand, load = page.evaluate(shift, "hand"), page.evaluate(shift, "lower")
    assert hand > 10
    assert load == pytest.approx(-hand / 4, abs=0.02)
    assert "hand 1 m" in page.locator(".slider output").inner_text()
    assert "planter 0.25 m" in page.locator(".slider output").inner_text()


def test_rope_keeps_its_length_and_its_paint_moves(single: Path, open_page: Open) -> None:
    """What the strands at the load lose, the hand's strand gains; the wraps stay as they are."""
    page = open_page(single / "index.html", reduced_motion="reduce")
    page.locator(".mark").nth(11).click()
    strands = """() => Object.fromEntries([...document.querySelectorAll('.moving line.rope0')].map(
        l => [l.dataset.strand, Math.abs(l.getAttribute('y2') - l.getAttribute('y1'))]))"""
    marks = """() => [...document.querySelectorAll('.moving circle.paint')].map(
        c => [Number(c.getAttribute('cx')), Number(c.getAttribute('cy'))])"""
    page.locator(".slider input").fill("0")
    before, painted = page.evaluate(strands), page.evaluate(marks)
    page.locator(".slider input").fill("100")
    after, moved = page.evaluate(strands), page.evaluate(marks)
    assert sum(before.values()) == pytest.approx(sum(after.values()), abs=0.1)
    assert after["fall:5"] > before["fall:5"] + 50
    assert len(painted) == len(moved) == 3
    assert moved != painted


def test_ground_button_overrides_the_system(single: Path, open_page: Open) -> None:
    page = open_page(single / "index.html", color_scheme="dark")
    ground = "getComputedStyle(document.body).backgroundColor"
    assert page.evaluate(ground) == "rgb(20, 25, 31)"
    page.locator(".ground").click()
    assert page.evaluate(ground) == "rgb(255, 255, 255)"
    assert page.locator(".ground").inner_text() == "Dark page"


def test_rig_stays_in_one_place_over_all_steps(single: Path, open_page: Open) -> None:
    """The same frame for every plate of the account but the last answer's: that is of the tackle turned over."""
    page = open_page(single / "index.html")
    frames = page.evaluate(
        "[...document.querySelectorAll('.step .picture > .plate-figure svg')].map(s => s.getAttribute('viewBox'))"
    )
    assert len(frames) > 8
    *same, turned = frames
    assert len(set(same)) == 1
    assert turned != same[0]


def test_without_scripts_every_step_can_be_read(folder: Path, open_page: Open) -> None:
    page = open_page(folder / "index.html", java_script_enabled=False)
    steps = page.locator(".step")
    for fold in page.locator(".reveal > summary").all():
        fold.click()
    assert all(
        step.locator(".say").first.is_visible() and step.locator("svg").first.is_visible() for step in steps.all()
    )
    assert not page.locator(".rail:visible, .ask:visible, .ground:visible, .hauling:visible").count()


def test_print_shows_every_step_and_what_was_folded(single: Path, open_page: Open) -> None:
    page = open_page(single / "index.html")
    page.emulate_media(media="print")
    assert page.locator(".step .say:visible").count() >= page.locator(".step").count()
    assert not page.locator(".rail:visible, .ask:visible").count()


@pytest.mark.parametrize("which", ["single", "folder"])
@pytest.mark.parametrize("size", [(1280, 900), (1280, 720), (1024, 768), (1440, 900), (390, 844)], ids=str)
def test_the_whole_rig_stands_above_the_rail(
    which: str, size: tuple[int, int], open_page: Open, request: pytest.FixtureRequest
) -> None:
    """On the first screen, and after the question, which is longer than the others."""
    page = open_page(
        request.getfixturevalue(which) / "index.html", viewport={"width": size[0], "height": size[1]},
        reduced_motion="reduce",
    )  # fmt: skip
    page.evaluate("document.fonts.ready")
    for step in range(5):
        plate = page.locator(".step[data-now] .plate").first.bounding_box()
        rail = page.locator(".rail").first.bounding_box()
        assert plate is not None
        assert rail is not None
        if not page.locator(".ask").first.is_visible():
            assert plate["y"] >= 0, step
            assert plate["y"] + plate["height"] <= rail["y"] + 1, step
        page.locator(".without, .next").locator("visible=true").first.click()
