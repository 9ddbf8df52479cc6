"""The rehearsal in a real browser that hears a known sound: each step gets its own piece of it, in its place."""

import json
import wave
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy
import pytest
from axe import violations
from msgspec.structs import replace
from playwright.sync_api import Page
from ready import shelf

from gantline.account import Account, explain
from gantline.film import Act, Storyboard, board
from gantline.output import film_sound, rehearse
from gantline.output.film_folder import build
from gantline.output.film_pieces import Look
from gantline.output.narration import Narration, narrated

RATE, LOW, RISE, SECONDS = 48_000, 300.0, 100.0, 40  # the known sound: a tone that rises by 100 Hz a second
Hearing = Any


@pytest.fixture(scope="module")
def story() -> Storyboard:
    acts = []
    for name in ("planter", "single-fixed"):
        rig, answer = shelf(name)
        account = explain(rig, answer)
        assert isinstance(account, Account)
        acts.append(Act(name, rig, answer, account))
    return board(acts)


@pytest.fixture(scope="module")
def page_file(story: Storyboard, tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("rehearse") / "page.html"
    file.write_text(rehearse.write(story, "two-rigs"), encoding="utf-8")
    return file


@pytest.fixture(scope="module")
def hearing(launch: Callable[..., Any], tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """A browser whose microphone hears the rising tone, once."""
    file = tmp_path_factory.mktemp("sound") / "rising.wav"
    time = numpy.arange(SECONDS * RATE) / RATE
    tone = 0.4 * numpy.sin(2 * numpy.pi * (LOW * time + RISE * time**2 / 2))
    with wave.open(str(file), "wb") as out:
        out.setparams((1, 2, RATE, 0, "NONE", ""))
        out.writeframes((32767 * tone).astype("<i2").tobytes())
    fake = [
        "--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream",
        f"--use-file-for-fake-audio-capture={file}%noloop",
    ]  # fmt: skip
    browser = launch(*fake)
    yield browser
    browser.close()


@pytest.fixture
def opened(hearing: Any, page_file: Path) -> Iterator[Any]:
    """Opens the page; the test fails where it asks for anything, or says anything on the console."""
    said: list[str] = []
    contexts = []

    def open_(**options: Any) -> Page:
        context = hearing.new_context(**{"viewport": {"width": 1440, "height": 900}, **options})
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda message: said.append(message.text))
        page.on("pageerror", lambda error: said.append(str(error)))
        page.on("request", lambda asked: asked.url.startswith(("file:", "data:", "blob:")) or said.append(asked.url))
        page.goto(page_file.as_uri())
        return page

    yield open_
    for context in contexts:
        context.close()
    assert not said


def listen(page: Page) -> None:
    page.get_by_role("button", name="Turn on the microphone").click()
    page.locator(".listening").wait_for()
    page.wait_for_timeout(300)


def note_presses(page: Page) -> None:
    """Has the page's own clock note when each key is pressed, before the page itself hears of it."""
    page.evaluate(
        "window.pressed = []; addEventListener('keydown', (e) => pressed.push(e.timeStamp / 1000), {capture: true})"
    )


def saved(page: Page, folder: Path) -> tuple[numpy.ndarray, dict[str, Any]]:
    """The two files, as the tutor would save them."""
    for button in ("Save two-rigs.wav", "Save two-rigs.taps.json"):
        with page.expect_download() as download:
            page.get_by_role("button", name=button).click()
        download.value.save_as(folder / download.value.suggested_filename)
    with wave.open(str(folder / "two-rigs.wav"), "rb") as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, RATE)
        sound = numpy.frombuffer(file.readframes(file.getnframes()), "<i2") / 32768
    return sound, json.loads((folder / "two-rigs.taps.json").read_text(encoding="utf-8"))


def heard_at(sound: numpy.ndarray, second: float) -> float:
    """Which moment of the known sound is heard 50 ms after a moment of a recording: told by its pitch."""
    piece = sound[round(second * RATE) : round((second + 0.1) * RATE)]
    spectrum = abs(numpy.fft.rfft(piece * numpy.hanning(len(piece)), 8 * RATE))
    assert abs(piece).max() > 0.3, "silence where the known sound should be"
    return (numpy.argmax(spectrum) / 8 - LOW) / RISE


def spans(taps: dict[str, Any]) -> list[tuple[float, float]]:
    starts = [step["start"] for step in taps["steps"]]
    return list(zip(starts, [*starts[1:], taps["seconds"]], strict=True))


def test_known_sound_comes_back_at_the_right_steps_and_one_is_taken_again(opened: Hearing, tmp_path: Path) -> None:
    page = opened()
    listen(page)
    note_presses(page)
    page.keyboard.press("Enter")  # Record has the focus once the microphone is on
    for pause, key in ((900, "ArrowRight"), (700, "PageDown"), (1100, "ArrowRight"), (800, "Escape")):
        page.wait_for_timeout(pause)
        page.keyboard.press(key)
    page.locator(".stage:not(.recording)").wait_for()
    sound, taps = saved(page, tmp_path)
    pressed = numpy.array(page.evaluate("pressed"))

    assert [step["step"] for step in taps["steps"]] == [f"planter/{id}" for id in ("meet", "path", "ask", "cut")]
    assert taps["format"] == "gantline-taps/1"
    assert abs(len(sound) / RATE - taps["seconds"]) < 0.001
    first = [heard_at(sound, start) for start, _ in spans(taps)]
    assert numpy.diff(first) == pytest.approx(numpy.diff(pressed)[:3], abs=0.04)
    assert [end - start for start, end in spans(taps)] == pytest.approx(list(numpy.diff(pressed)), abs=0.04)
    for start, end in spans(taps):  # without a hole: the sound runs on through every step, and through every tap
        for later in numpy.arange(0.1, end - start - 0.2, 0.1):
            assert heard_at(sound, start + later) - heard_at(sound, start) == pytest.approx(later, abs=0.02)

    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowLeft")
    page.get_by_role("button", name="Retake").click()
    page.wait_for_timeout(1300)
    page.keyboard.press("ArrowRight")
    page.locator(".stage:not(.recording)").wait_for()
    again, others = saved(page, tmp_path)
    then = [heard_at(again, start) for start, _ in spans(others)]
    assert [step["step"] for step in others["steps"]] == [step["step"] for step in taps["steps"]]
    assert then[1] > first[3] + 0.7  # taken again, later in the known sound
    assert 1.2 < spans(others)[1][1] - spans(others)[1][0] < 1.6
    fade = round(0.006 * RATE)
    for n in (0, 2, 3):  # the others are the same, but for the fades at the new joints
        (a, b), (c, _) = spans(taps)[n], spans(others)[n]
        long = round((b - a) * RATE) - 1
        old, new = sound[round(a * RATE) :][:long], again[round(c * RATE) :][:long]
        one_sample = abs(numpy.diff(old)).max()
        assert abs(old[fade:-fade] - new[fade:-fade]).max() < 1.2 * one_sample


def test_again_lets_what_was_said_of_a_step_fall_away(opened: Hearing, tmp_path: Path) -> None:
    page = opened()
    listen(page)
    page.keyboard.press("Enter")
    page.wait_for_timeout(500)
    page.keyboard.press("ArrowRight")
    page.wait_for_timeout(900)
    page.keyboard.press("ArrowLeft")  # begins the second step anew
    page.wait_for_timeout(600)
    page.keyboard.press("Escape")
    page.locator(".stage:not(.recording)").wait_for()
    sound, taps = saved(page, tmp_path)
    (_, one), (two, end) = spans(taps)
    assert 0.4 < one < 0.8
    assert 0.5 < end - two < 0.9
    assert heard_at(sound, two) - heard_at(sound, one - 0.15) > 0.9


def test_saved_rehearsal_is_opened_again_and_gone_on_with(opened: Hearing, tmp_path: Path) -> None:
    page = opened()
    listen(page)
    page.keyboard.press("Enter")
    for _ in range(3):
        page.wait_for_timeout(500)
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Escape")
    page.locator(".stage:not(.recording)").wait_for()
    sound, taps = saved(page, tmp_path)
    taps["steps"][1]["says"] = "Once the sentence was another."
    taps["steps"][2]["doubt"] = "there is no pause here"
    (tmp_path / "two-rigs.taps.json").write_text(json.dumps(taps), encoding="utf-8")

    later = opened()
    later.locator("#saved").set_input_files([tmp_path / "two-rigs.wav", tmp_path / "two-rigs.taps.json"])
    later.get_by_text("Opened.").wait_for()
    assert "spoken before its sentence was changed" in later.locator(".take").nth(1).inner_text()
    assert "there is no pause here" in later.locator(".take").nth(2).inner_text()
    assert later.locator(".mark[data-odd]").count() == 2
    assert not violations(later)
    begin = later.get_by_role("button", name="later: Planter onto the roof terrace, step 3")
    begin.click()
    begin.click()
    (tmp_path / "later").mkdir()
    same, others = saved(later, tmp_path / "later")
    assert [step["step"] for step in others["steps"]] == [step["step"] for step in taps["steps"]]
    starts = [step["start"] for step in taps["steps"]]
    starts[2] += 0.2  # moved twice; the sound stays as it was
    assert [step["start"] for step in others["steps"]] == pytest.approx(starts, abs=1e-3)
    assert len(same) == pytest.approx(len(sound), abs=9)
    for second in numpy.arange(0.2, len(sound) / RATE - 0.2, 0.2):
        assert heard_at(same, second) == pytest.approx(heard_at(sound, second), abs=0.02)


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [("a.taps.json", "{}", "holds no taps"), ("a.taps.json", "[", "Not opened"), ("a.wav", "", "choose one .wav")],
)
def test_files_of_another_kind_are_refused_in_words(
    opened: Hearing, tmp_path: Path, name: str, text: str, says: str
) -> None:
    (tmp_path / name).write_text(text, encoding="utf-8")
    (tmp_path / "b.wav").write_bytes(b"RIFF")
    page = opened()
    page.locator("#saved").set_input_files([tmp_path / name, tmp_path / "b.wav"])
    page.get_by_text(says).wait_for()
    assert page.locator(".mark[data-state=passed]").count() == 0


def test_step_without_a_take_is_said_and_nothing_is_saved_before_there_is_one(opened: Hearing) -> None:
    page = opened()
    assert "0 of" in page.locator(".total").inner_text()
    page.locator(".save-sound").click(force=True)
    assert page.locator(".kept-how").inner_text() == "There is no take yet."
    page.locator(".record").click(force=True)
    assert page.locator(".doing").inner_text() == "Turn on the microphone first."
    page.locator(".retake").click(force=True)
    assert page.locator(".said").text_content() == "Turn on the microphone first."


@pytest.mark.parametrize(
    ("error", "says"),
    [("NotAllowedError", "Allow this page the microphone"), ("NotFoundError", "No microphone was found. Plug one in"),
     ("NotReadableError", "Another program holds the microphone")],
)  # fmt: skip
def test_microphone_that_is_refused_or_not_there_is_said_with_what_to_do(
    opened: Hearing, error: str, says: str
) -> None:
    page = opened()
    page.evaluate(
        "(name) => { navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('', name)) }", error
    )
    page.get_by_role("button", name="Turn on the microphone").click()
    page.get_by_text(says).wait_for()
    assert page.get_by_role("button", name="Turn on the microphone").is_visible(), "it can be tried again"


def test_tab_closed_in_the_middle_of_a_take_loses_nothing(opened: Hearing, page_file: Path, tmp_path: Path) -> None:
    page = opened()
    context = page.context
    listen(page)
    page.keyboard.press("Enter")
    for pause in (900, 1100):
        page.wait_for_timeout(pause)
        page.keyboard.press("ArrowRight")
    page.wait_for_timeout(2500)
    page.close(run_before_unload=False)  # as when a browser is killed: nobody is asked

    page = context.new_page()
    page.goto(page_file.as_uri())
    page.locator(".total", has_text="3 of ").wait_for()
    assert "3 of" in page.locator(".doing").inner_text()
    remarks = [row.inner_text() for row in page.locator(".take .remark").all()[:4]]
    assert (remarks[:2], remarks[3]) == (["", ""], "")
    assert remarks[2].startswith("cut short")
    sound, taps = saved(page, tmp_path)
    assert [step["step"] for step in taps["steps"]] == [f"planter/{id}" for id in ("meet", "path", "ask")]
    lasts = [end - start for start, end in spans(taps)]
    assert lasts[:2] == pytest.approx([0.9, 1.1], abs=0.25)
    assert lasts[2] > 0.4
    began = heard_at(sound, 0.0)
    for start, end in spans(taps):
        for at in (start, end - 0.2):
            assert heard_at(sound, at) - began == pytest.approx(at, abs=0.03), "the sound runs on from step to step"

    # a step that is taken again, and cut short, does not take the place of the whole one
    listen(page)
    page.keyboard.press("Home")
    page.get_by_role("button", name="Retake").click()
    page.wait_for_timeout(2500)
    page.close(run_before_unload=False)
    page = context.new_page()
    page.goto(page_file.as_uri())
    page.locator(".total", has_text="3 of ").wait_for()
    assert page.locator(".take .took").first.inner_text() == f"{lasts[0]:.1f} s"

    page.on("dialog", lambda dialog: dialog.accept())
    page.get_by_role("button", name="Let go of all takes").click()
    page.locator(".total", has_text="0 of ").wait_for()
    page.reload()
    page.wait_for_timeout(300)
    assert "0 of" in page.locator(".total").inner_text()
    assert page.get_by_role("button", name="Let go of all takes").count() == 0


def test_films_of_one_name_and_windows_of_one_film_keep_their_takes_apart(
    opened: Hearing, story: Storyboard, page_file: Path, tmp_path: Path
) -> None:
    """All pages from disk share one store of the browser, and several rigs are called `voice` together."""

    def take(page: Page, steps: int) -> None:
        listen(page)
        for _ in range(steps):
            page.keyboard.press("ArrowRight")
        page.get_by_role("button", name="Record").click()
        page.wait_for_timeout(500)
        page.keyboard.press("Escape")
        page.locator(".total", has_text="1 of ").wait_for()

    first = opened()
    other = first.context.new_page()
    other.goto(page_file.as_uri())
    take(first, 0)
    take(other, 1)
    keys = """new Promise((done) => { indexedDB.open('gantline-rehearsal').onsuccess = ({ target: { result } }) => {
        result.transaction('takes').objectStore('takes').getAllKeys().onsuccess = (e) => done(e.target.result); }; })"""
    assert len({run for _, _, run in first.evaluate(keys)}) == 2
    other.close(run_before_unload=False)

    alone = tmp_path / "alone.html"
    shots = [shot for shot in story.shots if shot.act == 0]
    alone.write_text(rehearse.write(replace(story, acts=story.acts[:1], shots=shots), "two-rigs"), encoding="utf-8")
    another = first.context.new_page()
    another.goto(alone.as_uri())
    take(another, 2)
    another.on("dialog", lambda dialog: dialog.accept())
    another.get_by_role("button", name="Let go of all takes").click()
    another.locator(".total", has_text="0 of ").wait_for()
    another.close(run_before_unload=False)
    again = first.context.new_page()
    again.goto(page_file.as_uri())
    again.locator(".total", has_text="2 of ").wait_for()


FITS = """() => {
  const step = document.querySelector('.step[data-now]'), rail = document.querySelector('.rail');
  const shown = [...step.querySelectorAll('.place, .say, .note, .after')].filter((one) => one.offsetHeight);
  const top = Math.min(...shown.map((one) => one.getBoundingClientRect().top));
  const bottom = Math.max(...shown.map((one) => one.getBoundingClientRect().bottom));
  const above = document.querySelector('.microphone').getBoundingClientRect().bottom;
  return bottom <= rail.getBoundingClientRect().top && (innerWidth < 900 || above <= top);
}"""


@pytest.mark.parametrize(("wide", "high"), [(1280, 900), (1440, 900), (1024, 768), (390, 844)])
@pytest.mark.parametrize("rigs", [("planter",), ("effort-holds", "atwood-double")])
def test_all_words_of_a_step_stand_above_the_rail(
    opened: Hearing, tmp_path: Path, wide: int, high: int, rigs: tuple[str, ...]
) -> None:
    acts = []
    for name in rigs:
        rig, answer = shelf(name)
        account = explain(rig, answer)
        assert isinstance(account, Account)
        acts.append(Act(name, rig, answer, account))
    file = tmp_path / "page.html"
    file.write_text(rehearse.write(board(acts), "page"), encoding="utf-8")
    page = opened(viewport={"width": wide, "height": high})
    page.goto(file.as_uri())
    if wide >= 900:
        assert page.evaluate(FITS), "before the microphone is on"
    listen(page)
    for _ in range(page.locator(".step").count()):
        assert page.evaluate(FITS), page.locator(".step[data-now] .place").inner_text()
        page.keyboard.press("ArrowRight")


def test_every_sentence_is_there_in_order_and_the_second_rig_has_its_own_strand(opened: Hearing) -> None:
    page = opened()
    count = page.locator(".step").count()
    assert count == page.locator(".mark").count() == page.locator(".take").count() > 25
    assert page.locator(".strand:visible").count() == 1
    page.keyboard.press("End")
    assert page.locator(".strand:visible").get_attribute("aria-label").startswith("Steps: ")
    assert page.locator(".step[data-now] .place").inner_text().count("step") == 1
    page.keyboard.press("ArrowRight")
    assert page.locator(".mark[data-state=now]").count() == 1


@pytest.mark.parametrize(
    "look",
    [{}, {"color_scheme": "dark"}, *({"viewport": {"width": width, "height": 760}} for width in (390, 320))],
    ids=["light", "dark", "phone", "narrow"],
)  # fmt: skip
def test_no_violation_before_during_and_after_a_take(opened: Hearing, look: dict[str, Any]) -> None:
    page = opened(**look)
    assert not violations(page)
    listen(page)
    page.keyboard.press("Enter")
    page.wait_for_timeout(300)
    page.keyboard.press("ArrowRight")
    assert not violations(page)
    page.keyboard.press("Escape")
    page.locator(".stage:not(.recording)").wait_for()
    assert not violations(page)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_known_sound_comes_back_in_the_film_at_the_right_steps(
    opened: Hearing, story: Storyboard, tmp_path: Path
) -> None:
    page = opened()
    listen(page)
    page.keyboard.press("Enter")
    for pause, key in ((1500, "ArrowRight"), (2500, "ArrowRight"), (1200, "Escape")):
        page.wait_for_timeout(pause)
        page.keyboard.press(key)
    page.locator(".stage:not(.recording)").wait_for()
    page.keyboard.press("Home")
    page.get_by_role("button", name="Retake").click()
    page.wait_for_timeout(2000)
    page.keyboard.press("ArrowRight")
    page.locator(".stage:not(.recording)").wait_for()
    sound, taps = saved(page, tmp_path)

    opening = replace(story, acts=story.acts[:1], shots=[shot for shot in story.shots if shot.id != "title"][:4])
    told = narrated(opening, Narration(tmp_path / "two-rigs.wav", tmp_path / "two-rigs.taps.json"),
                    tmp_path / "track.wav")  # fmt: skip
    made = build(told, tmp_path / "film", Look(size=90, kinds=("mp4", "webm")), tmp_path / "kept")
    for kind in ("mp4", "webm"):
        film = numpy.frombuffer(film_sound.read(made.film.with_suffix(f".{kind}")).pcm, "<i2") / 32768
        for (start, end), shot in zip(spans(taps), told.board.shots[1:], strict=True):
            for later in (0.05, end - start - 0.2):
                assert heard_at(film, shot.start + later) == pytest.approx(heard_at(sound, start + later), abs=0.04)


@pytest.mark.parametrize(
    "title", ["</script><script>alert(1)</script>", '"><img src=x onerror=alert(2)>', "<!--<script>"]
)
def test_hostile_title_stays_text_on_the_page(opened: Hearing, story: Storyboard, title: str, tmp_path: Path) -> None:
    hostile = replace(story, title=title, shots=[replace(shot, says=f"{title} {shot.says}") for shot in story.shots])
    file = tmp_path / "hostile.html"
    file.write_text(rehearse.write(hostile, f"{title[:9]}x"), encoding="utf-8")
    page = opened()
    page.on("dialog", lambda dialog: pytest.fail(dialog.message))
    page.goto(file.as_uri())
    assert page.locator("h1").inner_text() == title
    assert page.locator(".step[data-now] .say").inner_text().startswith(title)
    assert page.locator("script").count() == 2


def test_unplugged_microphone_ends_the_take_and_keeps_it(opened: Hearing) -> None:
    page = opened()
    page.evaluate(
        """() => {
            const open = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
            navigator.mediaDevices.getUserMedia = async (wanted) => (window.heard = await open(wanted));
        }"""
    )
    listen(page)
    page.keyboard.press("Enter")
    page.wait_for_timeout(400)
    page.evaluate("() => heard.getAudioTracks()[0].dispatchEvent(new Event('ended'))")
    page.locator(".stage:not(.recording):not(.listening)").wait_for()
    assert page.locator(".doing").inner_text() == "The microphone is off."
    page.locator(".total", has_text="1 of ").wait_for()
    assert page.get_by_role("button", name="Turn on the microphone").is_visible()


def test_leaving_asks_while_a_take_is_not_saved(opened: Hearing, tmp_path: Path) -> None:
    page = opened()
    asked: list[str] = []
    page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.dismiss()))
    listen(page)
    page.keyboard.press("Enter")
    page.wait_for_timeout(300)
    page.keyboard.press("Escape")
    page.locator(".stage:not(.recording)").wait_for()
    page.locator(".total", has_text="1 of ").wait_for()
    page.close(run_before_unload=True)
    page.wait_for_timeout(300)
    assert asked == ["beforeunload"]
    with page.expect_download():
        page.get_by_role("button", name="Save two-rigs.wav").click()
    assert "Save the other file too" in page.locator(".kept-how").inner_text()
    page.close(run_before_unload=True)
    page.wait_for_timeout(300)
    assert asked == ["beforeunload"] * 2, "one of the two files is not enough"
    saved(page, tmp_path)
    page.close(run_before_unload=True)
    assert asked == ["beforeunload"] * 2
