"""Captions: every word once, at phrases, in time, never two at once; read back by a parser that is not ours."""

import itertools
import re
from html import unescape
from io import StringIO
from pathlib import Path

import pytest
import webvtt
from filmed import act

from gantline.account import Account, Step, explain, spoken_words
from gantline.film import LEVELS, Act, Cue, Move, Shot, Storyboard, board, captions, chapters, descriptions
from gantline.mechanics import solve
from gantline.output import captions as written
from gantline.rig import Rig

SHELF = Path(__file__).parents[2] / "src" / "gantline" / "shelf"
LINES = {"lower": 32, "middle": 37, "upper": 42}
BELL = (
    "title The bell\nfixed ring sheaves 2\nmoving lower sheaves 2, weight 12 N, carries bell\nload bell weight 60 N\n"
    "rope fall: ring, under lower.1, over ring.1, under lower.2, over ring.2, hand\nraise bell 1.5 m\n"
)
HOSTILE = ("a --> b", "x < y && <b>z</b>", "\x00 odd \n\n\r two", "&amp; {\\an8} <!-- -->")


def told(
    sentences: list[str], rate: float = 120.0, pause: float = 0.2, level: str = "upper", waits: bool = False
) -> Storyboard:
    """Shots said one after the other at `rate` words a minute, each with its hold and `pause` seconds after it."""
    shots: list[Shot] = []
    for number, say in enumerate(sentences):
        step = Step(f"s{number}", f"idea {number}", say, "bare")
        start = shots[-1].end if shots else 2.0
        seconds = 60 * max(1, spoken_words(say)) / rate + 0.6 + pause
        moves = (Move("set", "turn", 0.2, "pause", seconds - 1),) if waits else ()
        shots.append(Shot(f"bell/{step.id}", "step", 0, step, say, say, pause, moves, start, seconds))
    return Storyboard("The bell", level, (), tuple(shots))


def film(rig: Rig, level: str) -> Storyboard:
    answer = solve(rig)
    account = explain(rig, answer)
    assert isinstance(account, Account)
    return board([Act("bell", rig, answer, account)], level=level)


def words(cues: tuple[Cue, ...]) -> str:
    return " ".join(" ".join(cue.lines) for cue in cues)


def apart(cues: tuple[Cue, ...]) -> bool:
    return all(one.stop + 0.079 <= other.start for one, other in itertools.pairwise(cues)) and all(
        cue.start < cue.stop for cue in cues
    )


@pytest.mark.parametrize("level", LEVELS)
def test_every_word_stands_once_in_its_own_time(rig_from, level: str) -> None:
    whole = film(rig_from(BELL), level)
    cues = tuple(cue for cue in captions(whole)[0] if "Stop the film" not in words((cue,)))
    assert words(cues).split() == [word for shot in whole.shots for word in shot.written.split()]
    for shot in whole.shots:
        own = [cue for cue in cues if cue.name.startswith(f"{shot.id}/")]
        assert not shot.written or own[0].start == shot.start
        assert all(cue.stop < shot.end for cue in own)
        assert all(len(cue.lines) <= 2 for cue in own)
        assert all(len(line) <= LINES[level] for cue in own for line in cue.lines)


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("rate", [90, 120, 170])
def test_captions_stand_apart_and_long_enough(rig_from, level: str, rate: int) -> None:
    says = [shot.written for shot in film(rig_from(BELL), level).shots if shot.written]
    cues, _ = captions(told(says, rate, level=level))
    assert apart(cues)
    assert all(1.25 <= cue.stop - cue.start <= 6.0001 for cue in cues)


@pytest.mark.parametrize(("level", "most"), [("lower", 130), ("middle", 140), ("upper", 160)])
def test_the_step_that_is_said_too_fast_is_named(level: str, most: int) -> None:
    sentence = "The bell hangs from four strands and each of them bears the same share of it."
    slow, fast = (told([sentence], rate, pause=-0.6, level=level) for rate in (most - 3, most + 6))
    assert captions(slow)[1] == ()
    (problem,) = captions(fast)[1]
    assert problem.code == "caption-too-fast"
    assert "bell/s0 (idea 0)" in problem.says
    assert f"reads {most}" in problem.says
    assert problem.why
    assert problem.do


@pytest.mark.parametrize(("level", "every"), [("lower", 1), ("middle", 6), ("upper", 6)])
def test_films_that_keep_to_their_words_can_be_read(rig_from, level: str, every: int) -> None:
    for path in sorted(SHELF.glob("*.rig"))[::every]:
        rig = rig_from(path.read_text(encoding="utf-8"))
        answer = solve(rig)
        account = explain(rig, answer)
        if isinstance(account, Account):
            whole = board([Act("rig", rig, answer, account)], level=level)
            cues, problems = captions(whole)
            assert problems == (), path.name
            assert apart(cues), path.name


def test_long_words_are_dense_though_they_are_few() -> None:
    (problem,) = captions(told(["Counterweightless interdisciplinary misunderstandings notwithstanding"], 110, -0.6))[1]
    assert problem.code == "caption-too-fast"
    assert "signs a second" in problem.says


def test_a_caption_that_is_gone_at_once_is_a_problem() -> None:
    (problem,) = captions(told(["Now the price."], 400, pause=-0.5))[1]
    assert problem.code == "caption-too-short"


def test_a_word_longer_than_a_line_is_a_problem_and_stays_whole() -> None:
    long = "F=" + "W+" * 30 + "w"
    cues, problems = captions(told([f"So {long} it is."], 30))
    assert [problem.code for problem in problems] == ["caption-line-too-long"]
    assert long in [line for cue in cues for line in cue.lines]


def test_a_number_keeps_its_unit_and_a_formula_its_signs() -> None:
    say = "So the pull in that strand is close to 348 N and it rises 0.5 m while F = 90 N at the hand."
    for level in LEVELS:
        lines = [line for cue in captions(told([say], level=level))[0] for line in cue.lines]
        for kept in ("348 N", "0.5 m", "F = 90 N"):
            assert any(kept in line for line in lines), lines


def test_breaks_come_after_phrases() -> None:
    say = "All four pull alike: it is one rope, and a free wheel would start to spin. Call that pull T."
    ends = [cue.lines[-1][-1] for cue in captions(told([say]))[0]]
    assert all(end in ",.:" for end in ends)


def test_what_is_written_in_the_pause_comes_after_the_words() -> None:
    whole = told(["How hard must you pull on the rope to hold the bell?"], pause=5, waits=True)
    cues, problems = captions(whole)
    assert problems == ()
    assert apart(cues)
    assert cues[-1].start == pytest.approx(whole.shots[0].end - 5.6)
    assert cues[-1].lines == ("Stop the film here if you want longer.",)


def test_captions_come_as_the_voice_says_their_words() -> None:
    say = "The bell hangs from four strands of one rope. Each of them bears a quarter of it."
    whole = told([say], 100, pause=8)
    shot = whole.shots[0]
    pace = (0.0, *(0.4 + 0.3 * n for n in range(1, 11)), *(9.0 + 0.3 * n for n in range(11, 21)))  # a long breath
    cues = captions(whole, {shot.id: pace})[0]
    assert cues[0].start == shot.start
    assert apart(cues)
    evenly = captions(whole)[0]
    assert words(evenly) == words(cues) == say
    after = [cue.start - shot.start for cue in cues if cue.start > shot.start + 3.4]
    assert after
    assert min(after) > 8  # nothing new comes while the speaker breathes
    assert any(3.4 < cue.start - shot.start < 8 for cue in evenly)


def test_steps_without_words_have_no_captions() -> None:
    (cue,) = captions(told(["", "Two strands.", "  "]))[0]
    assert cue.lines == ("Two strands.",)


@pytest.mark.parametrize("level", LEVELS)
def test_a_parser_of_others_reads_the_captions_back(rig_from, level: str) -> None:
    says = [shot.written for shot in film(rig_from(BELL), level).shots if shot.written]
    cues, _ = captions(told([*says, *HOSTILE[:2]], level=level))
    read = list(webvtt.from_buffer(StringIO(written.vtt(cues, 83.5))))
    assert len(read) == len(cues) > 20
    for caption, cue in zip(read, cues, strict=True):
        assert caption.identifier == cue.name
        assert unescape(caption.raw_text).split("\n") == list(cue.lines)
        assert seconds(caption.start) == pytest.approx(cue.start, abs=0.001)
        assert seconds(caption.end) == pytest.approx(cue.stop, abs=0.001)


def seconds(clock: str) -> float:
    hours, minutes, rest = clock.split(":")
    return 3600 * int(hours) + 60 * int(minutes) + float(rest)


CLOCK = r"(\d\d):(\d\d):(\d\d)[.,](\d{3})"


def timed(text: str) -> list[tuple[int, int, list[str]]]:
    """The blocks of WebVTT or SRT, read strictly: milliseconds from and to, and the lines below."""
    found = []
    for block in text.removeprefix("WEBVTT\n\n").rstrip("\n").split("\n\n"):
        name, times, *lines = block.split("\n")
        clocks = re.fullmatch(f"{CLOCK} --> {CLOCK}(?: line:[0-9.]+%)?", times)
        assert clocks, times
        assert lines
        assert "-->" not in name
        hours = [int(part) for part in clocks.groups()]
        start, stop = (((h * 60 + m) * 60 + s) * 1000 + ms for h, m, s, ms in (hours[:4], hours[4:]))
        found.append((start, stop, lines))
    return found


@pytest.mark.parametrize("write", [written.vtt, written.srt])
def test_what_a_file_says_can_neither_end_a_caption_nor_become_markup(write) -> None:
    cues, _ = captions(told(list(HOSTILE), 60))
    assert cues
    blocks = timed(write(cues))
    assert len(blocks) == len(cues)
    for start, stop, lines in blocks:
        assert start < stop
        text = "\n".join(lines)
        assert "-->" not in text
        assert not re.search(r"<[/!a-z]", text)
    assert all(one[1] < other[0] for one, other in itertools.pairwise(blocks))


def test_vtt_escapes_and_srt_numbers() -> None:
    cues = (Cue("a", 3599.9996, 3661.5, ("W < 2 & F > 1",)),)
    assert written.vtt(cues) == "WEBVTT\n\na\n01:00:00.000 --> 01:01:01.500\nW &lt; 2 &amp; F &gt; 1\n"
    assert written.srt(cues) == "1\n01:00:00,000 --> 01:01:01,500\nW < 2 & F > 1\n"


def test_chapters_are_the_ideas_and_follow_on_from_each_other(rig_from) -> None:
    whole = film(rig_from(BELL), "middle")
    found = chapters(whole)
    assert [cue.lines[0] for cue in found[:3]] == ["The bell", "what hangs there", "the rope's way"]
    assert all(one.stop == pytest.approx(other.start) for one, other in itertools.pairwise(found))
    assert (found[0].start, found[-1].stop) == (0, whole.seconds)


def test_the_descriptions_tell_each_picture_while_it_stands() -> None:
    whole = told(["One.", "Two.", "Three."])
    found = descriptions(whole, ["a  bell", "", "a\nrope"])
    assert [(cue.start, cue.stop, cue.lines) for cue in found] == [
        (whole.shots[n].start, whole.shots[n].end, (says,)) for n, says in ((0, "a bell"), (2, "a rope"))
    ]


def test_a_description_says_only_what_is_new_and_a_rig_begins_anew() -> None:
    whole = told(["One.", "Two.", "Three."])
    pictures = ["A bell. It hangs.", "A bell. It hangs. A line is drawn.", "A bell. It hangs. A line is drawn."]
    assert [cue.lines[0] for cue in descriptions(whole, pictures)] == ["A bell. It hangs.", "A line is drawn."]
    two = board([act("single-fixed"), act("single-fixed")])
    assert chapters(two)[0].lines == (two.title,)
    first = [n for n, shot in enumerate(two.shots) if shot.step][:1] + [
        n for n, shot in enumerate(two.shots) if shot.step and shot.act == 1
    ][:1]
    said = {cue.name: cue.lines[0] for cue in descriptions(two, ["A bell. It hangs."] * len(two.shots))}
    assert list(said) == [two.shots[0].id, two.shots[first[1] - 1].id]


def test_the_transcript_has_every_sentence_and_whose_voice_it_is() -> None:
    text = written.transcript(told(["One rope.", "Two strands."]), ["a bell", ""], "A machine speaks.")
    assert text.startswith("The bell\n========\n\nA machine speaks.\n\n0:02  idea 0\nOne rope.\n[Picture: a bell]\n\n")
    assert text.endswith("idea 1\nTwo strands.\n")
