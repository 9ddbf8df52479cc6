"""Nothing typed is lost: kept as it is made, through a killed server and a reload, beside other windows."""

import os
import signal
import socket
from collections.abc import Callable
from pathlib import Path

import pytest
from browsing import CHART, Window, chart, kept, says, to_line, words
from outside import loft
from playwright.sync_api import Browser


@pytest.fixture
def file(folder: Path, request: pytest.FixtureRequest) -> Path:
    """The chart chest in a file of its own."""
    return chart(folder, request.node.name[5:40])


def test_a_second_after_the_last_change_it_is_on_disk(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    to_line(page, 2)
    page.keyboard.type(", by night")
    kept(page)
    assert file.read_text(encoding="utf-8") == CHART.replace("map room", "map room, by night")


def test_a_rig_from_the_shelf_becomes_a_file_once_it_is_changed(window: Callable[..., Window], folder: Path) -> None:
    page = window().open("planter")
    page.locator("#to-shelf").click()
    page.locator("[data-rig=planter]").click()
    page.wait_for_selector("#plate svg[data-view]")
    assert not (folder / "planter.rig").exists(), "what is only looked at makes no file"
    to_line(page, 1)
    page.keyboard.type(" again")
    kept(page)
    assert "title" in (folder / "planter.rig").read_text(encoding="utf-8")
    assert page.url.endswith("#file=planter.rig")


def test_nothing_is_lost_by_a_killed_server_and_a_reload(chromium: Browser, tmp_path: Path) -> None:
    """Typed while the server is gone; the server is started again; the page is loaded anew by its new address."""
    file = chart(tmp_path)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = str(free.getsockname()[1])
    with loft(tmp_path, "--port", port) as first:
        window = Window(chromium, f"{first.address}/?token={first.token}")
        page = window.open(file.name)
        os.killpg(first.process.pid, signal.SIGKILL)
        first.process.wait()
        to_line(page, 2)
        page.keyboard.type(", by night")
        says(page, "The loft has stopped answering. Your words are safe in this window.")
        assert page.locator("#notice button", has_text="Copy the slip").is_visible()
        assert page.locator("#plate svg[data-view]").count() == 1
        assert page.inner_text("#kept").startswith("Not kept since")
        page.keyboard.type(", too")
        assert "by night, too" in words(page)
    assert file.read_text(encoding="utf-8") == CHART
    with loft(tmp_path, "--port", port) as second:
        page.goto(f"{second.address}/?token={second.token}")
        window.ready()
        window.open(file.name)
        assert words(page) == CHART.replace("map room", "map room, by night, too")
        kept(page)
        window.context.close()
    assert file.read_text(encoding="utf-8") == CHART.replace("map room", "map room, by night, too")


def test_the_page_goes_on_by_itself_when_the_server_is_back(window: Callable[..., Window], file: Path) -> None:
    opened = window()
    page = opened.open(file.name)
    page.route("**/api/**", lambda route: route.abort())
    to_line(page, 2)
    page.keyboard.type("!")
    says(page, "The loft has stopped answering.")
    page.locator("#notice button", has_text="Try now").click()
    page.unroute("**/api/**")
    says(page, "Back again. Everything is kept.")
    assert page.locator("#notice").is_hidden()
    assert file.read_text(encoding="utf-8") == CHART.replace("map room", "map room!")


def test_two_windows_on_different_lines_take_each_others_edits(window: Callable[..., Window], file: Path) -> None:
    one, other = window().open(file.name), window().open(file.name)
    other.route("**/api/file?*", lambda route: route.abort())  # it has not looked at the disk since
    to_line(one, 2)
    one.keyboard.type(" of maps")
    kept(one)
    other.unroute("**/api/file?*")
    to_line(other, 9)
    other.keyboard.press("Home")
    other.keyboard.press("Control+Delete")
    other.keyboard.type("lower")
    kept(other)
    both = CHART.replace("map room", "map room of maps").replace("raise ", "lower ")
    assert file.read_text(encoding="utf-8") == both
    assert words(other) == both


LATE = """() => {
    const plain = window.fetch;
    window.fetch = async (...asked) => {
        const answer = await plain(...asked);
        if (asked[1]?.method === 'PUT' && answer.status === 409 && !window.release) {
            await new Promise((done) => { window.release = done; });
        }
        return answer;
    };
}"""


def test_what_is_typed_while_lines_of_another_window_arrive_stays(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    page.route("**/api/file?*", lambda route: route.abort())
    page.evaluate(LATE)
    to_line(page, 2)
    page.keyboard.type(", mine")
    file.write_text(CHART.replace("raise ", "lower "), encoding="utf-8")
    page.wait_for_function("() => Boolean(window.release)")
    page.keyboard.type(" too")
    page.unroute("**/api/file?*")
    page.evaluate("window.release()")
    kept(page)
    both = CHART.replace("map room", "map room, mine too").replace("raise ", "lower ")
    assert file.read_text(encoding="utf-8") == both
    assert words(page) == both


def test_a_long_file_is_kept_too(window: Callable[..., Window], file: Path) -> None:
    """Its text and the one it began from are together more than a browser keeps going for a page that closes."""
    long = CHART + "# so that the words go on and on\n" * 1500
    file.write_text(long, encoding="utf-8")
    page = window().open(file.name)
    to_line(page, 2)
    page.keyboard.type(", by night")
    kept(page)
    assert file.read_text(encoding="utf-8") == long.replace("map room", "map room, by night")


def test_a_browser_whose_store_is_full_keeps_the_file_all_the_same(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    page.evaluate("() => { Storage.prototype.setItem = () => { throw new DOMException('', 'QuotaExceededError'); }; }")
    to_line(page, 2)
    page.keyboard.type(", by night")
    kept(page)
    assert file.read_text(encoding="utf-8") == CHART.replace("map room", "map room, by night")


def test_the_same_line_changed_in_two_places_is_shown_twice(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    page.route("**/api/file?*", lambda route: route.abort())
    to_line(page, 2)
    page.keyboard.type(", mine")
    file.write_text(CHART.replace("map room", "map room, theirs"), encoding="utf-8")
    says(page, "was changed elsewhere. Nothing has been overwritten.")
    assert file.read_text(encoding="utf-8") == CHART.replace("map room", "map room, theirs")
    shown = page.locator("#conflict pre").all_inner_texts()
    assert ["mine" in shown[0], "theirs" in shown[1]] == [True, True]
    page.locator("#conflict button", has_text="Keep both files").click()
    says(page, "Yours is kept as")
    copies = sorted(each.name for each in file.parent.glob(f"{file.stem}*"))
    assert len(copies) == 2
    assert file.read_text(encoding="utf-8") == CHART.replace("map room", "map room, theirs")


def test_a_change_on_disk_is_taken_said_and_can_be_undone(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    file.write_text(CHART.replace("468 N", "500 N"), encoding="utf-8")
    says(page, "was changed elsewhere.")
    page.wait_for_function("() => document.getElementById('formula').textContent.includes('128')")
    page.locator("#undo").click()
    page.wait_for_function("() => document.getElementById('formula').textContent.includes('120')")
    assert words(page) == CHART


def test_going_back_to_an_earlier_state_is_a_step(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    to_line(page, 2)
    page.keyboard.type(" one")
    kept(page)
    page.locator("#earlier").click()
    page.locator(".entry").last.click()
    page.locator("#sheet button", has_text="Look at").click()
    says(page, "Looking changes nothing.")
    assert "map room one" in words(page)
    page.locator("#sheet button", has_text="Go back to it").click()
    says(page, "Gone back to")
    assert words(page) == CHART
    page.locator("#undo").click()
    assert "map room one" in words(page)


def test_half_a_character_is_a_problem_and_the_rest_is_kept(window: Callable[..., Window], file: Path) -> None:
    opened = window()
    page = opened.open(file.name)
    to_line(page, 2)
    page.evaluate("() => document.execCommand('insertText', false, ' one \\ud83d two')")
    page.locator("#card", has_text="the character U+D83D stands here").wait_for()
    page.wait_for_function("() => document.getElementById('kept').textContent.includes('with one problem')")
    assert "map room one \ufffd two" in file.read_text(encoding="utf-8")
    page.wait_for_timeout(2500)  # it is looked at what stands on disk, and nothing is merged
    assert page.locator("#conflict").is_hidden()
    page.keyboard.press("Backspace")
    page.keyboard.type("2")
    kept(page)
    assert opened.open(file.name).locator("#title").inner_text().endswith("tw2")


def test_a_whole_reeving_is_one_entry_in_earlier(window: Callable[..., Window]) -> None:
    page = window().open("")
    page.get_by_role("button", name="From nothing").click()
    for place in ("upper", "under lower.1", "over upper.1", "under lower.2", "over upper.2", "hand"):
        page.locator(f'li[data-place="{place}"]').wait_for()
        page.wait_for_selector(".plate-doc:not([aria-busy])")
        page.locator(f'li[data-place="{place}"]').evaluate("option => option.click()")
        wait = "place => document.getElementById('editor').shadowRoot.textContent.includes(place)"
        page.wait_for_function(wait, arg=place)
        kept(page)
    page.locator("#earlier").click()
    page.locator(".entry").first.wait_for()
    assert page.locator(".entry .name").all_inner_texts() == ["Fall rove: 6 contacts"]


def test_what_is_handed_out_is_told_and_saved(window: Callable[..., Window], file: Path) -> None:
    page = window().open(file.name)
    page.locator("#hand-out").click()
    with page.expect_download() as download:
        page.locator("#sheet button", has_text="A lesson page").click()
    assert download.value.suggested_filename == f"{file.stem}.html"
    text = Path(download.value.path()).read_text(encoding="utf-8")
    assert "Chart chest up to the map room" in text
    page.wait_for_function("() => document.getElementById('sheet').textContent.includes('Handed out:')")
