"""What is said in a film, cut into captions: at phrases, two lines at most, at a rate the viewers can read."""

from collections.abc import Sequence

from msgspec import Struct

from gantline.account import spoken_words
from gantline.problems import Place, Problem

from .breaks import blocks
from .levels import LEVELS, Level

GAP = 0.08  # s between two captions, two frames, so that a change is seen (common practice)
LEAST, MOST = 1.3, 6.0  # s a caption stands (DCMP Captioning Key, later edition)


class Told(Struct, frozen=True):
    """A step as a film tells it. `spoken` is what is said from `start` to `stop`, `shown` the same as it is written;
    the picture stays until `end`. `waits` is written in that pause; `describes` tells what the picture shows.

    Times in seconds from the beginning of the film. `chapter` heads this step and those after it with the same one.
    """

    rig: str
    step: str
    idea: str
    chapter: str
    spoken: str
    shown: str
    start: float
    stop: float
    end: float
    waits: str = ""
    describes: str = ""


class Cue(Struct, frozen=True):
    """Text that stands from `start` to `stop`, in seconds. `name` says which step it belongs to."""

    name: str
    start: float
    stop: float
    lines: tuple[str, ...]


def captions(told: Sequence[Told], level: str = "upper") -> tuple[tuple[Cue, ...], tuple[Problem, ...]]:
    """The captions of a film in order, never two at a time; and the steps whose words go by too fast to be read.

    The first caption of a step comes with its first word. KeyError for an unknown level.
    """
    limits = LEVELS[level]
    cues: list[Cue] = []
    problems: list[Problem] = []
    for one in told:
        own = _cues(one, limits)
        cues += own
        problems += _problems(one, own, limits, level)
    return tuple(cues), tuple(problems)


def chapters(told: Sequence[Told]) -> tuple[Cue, ...]:
    """One cue a chapter, from its first step to the next chapter."""
    firsts = [one for n, one in enumerate(told) if n == 0 or told[n - 1].chapter != one.chapter]
    stops = [*(one.start for one in firsts[1:]), told[-1].end] if told else []
    return tuple(
        Cue(f"chapter-{n}", one.start, stop, (one.chapter,))
        for n, (one, stop) in enumerate(zip(firsts, stops, strict=True), 1)
    )


def descriptions(told: Sequence[Told]) -> tuple[Cue, ...]:
    """What the picture shows, step by step, to be read aloud to those who do not see it."""
    return tuple(
        Cue(f"{one.rig}/{one.step}", one.start, one.end, (" ".join(one.describes.split()),))
        for one in told
        if one.describes.strip() and one.end > one.start
    )


def _cues(told: Told, limits: Level) -> list[Cue]:
    """The captions of a step. The last one stays on into the pause, as long as a caption may."""
    texts = blocks(told.shown, limits.line, told.stop - told.start, LEAST, MOST)
    starts = _starts(texts, told.start, told.stop)
    last = (told.stop if told.waits else told.end) - GAP
    stops = [min(start + MOST, after - GAP) for start, after in zip(starts, [*starts[1:], last + GAP], strict=False)]
    cues = [
        Cue(f"{told.rig}/{told.step}/{n}", start, stop, lines)
        for n, (start, stop, lines) in enumerate(zip(starts, stops, texts, strict=True), 1)
    ]
    if told.waits:
        (lines,) = blocks(told.waits, limits.line, MOST, LEAST, MOST)[:1]
        cues.append(Cue(f"{told.rig}/{told.step}/waits", told.stop, min(told.stop + MOST, told.end - GAP), lines))
    return [cue for cue in cues if cue.stop > cue.start]


def _starts(texts: Sequence[tuple[str, ...]], start: float, stop: float) -> list[float]:
    """Each caption begins when its share of the words has been said."""
    signs = [sum(map(len, lines)) + 1 for lines in texts]
    return [start + (stop - start) * sum(signs[:n]) / sum(signs) for n in range(len(signs))]


def _problems(told: Told, cues: Sequence[Cue], limits: Level, level: str) -> list[Problem]:
    """What cannot be read in time. The pause after the words counts as time to read, as the last caption stays on."""
    said = [cue for cue in cues if not cue.name.endswith("/waits")]
    words = spoken_words(told.spoken)
    if not words:
        return []
    time = (said[-1].stop + GAP if said else told.stop) - told.start
    if not said or any(cue.stop - cue.start < LEAST - 0.005 for cue in said):
        return [_problem("caption-too-short", told, f"a caption of this step stands for less than {LEAST:g} s")]
    rate = 60 * words / time
    if rate > limits.words_a_minute + 0.5:
        return [_problem("caption-too-fast", told,
                         f"{words} words in {time:.1f} s are {rate:.0f} a minute; {level} level reads "
                         f"{limits.words_a_minute}")]  # fmt: skip
    dense = max(sum(map(len, cue.lines)) / (cue.stop - cue.start) for cue in said)
    if dense > limits.signs_a_second + 0.5:
        return [_problem("caption-too-fast", told,
                         f"a caption of this step has {dense:.0f} signs a second; {level} level reads "
                         f"{limits.signs_a_second}")]  # fmt: skip
    if any(len(line) > limits.line for cue in said for line in cue.lines):
        return [_problem("caption-line-too-long", told, f"a word of this step is longer than {limits.line} signs")]
    return []


_WHY = {
    "caption-too-short": "What is gone before the eye has found it was not there.",
    "caption-too-fast": "Whoever reads the captions has no time left for the figure.",
    "caption-line-too-long": "A line that does not fit is broken by the player, in the middle of a formula perhaps.",
}
_DO = {
    "caption-too-short": "Speak this step more slowly, or leave a longer pause after it.",
    "caption-too-fast": "Say less in this step, split it in two, or speak it more slowly.",
    "caption-line-too-long": "Write it in shorter words, or with spaces.",
}


def _problem(code: str, told: Told, says: str) -> Problem:
    return Problem(code, Place(1, 1), told.shown, f"Step {told.step} ({told.idea}): {says}.", _WHY[code], _DO[code])
