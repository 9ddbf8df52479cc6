"""What is said in a film, cut into captions: at phrases, two lines at most, at a rate the viewers can read."""

import re
from collections.abc import Mapping, Sequence

from msgspec import Struct

from gantline.account import spoken_words
from gantline.problems import Place, Problem

from .breaks import blocks
from .storyboard import Shot, Storyboard
from .words import HOLD, LEVELS

GAP = 0.08  # s between two captions, two frames, so that a change is seen (common practice)
LEAST, MOST = 1.3, 6.0  # s a caption stands (DCMP Captioning Key, later edition)
LINES = {"lower": 32, "middle": 37, "upper": 42}  # signs: DCMP Captioning Key, broadcasters, common practice on the web
_SENTENCES = re.compile(r"(?<=[.?!]) (?=[A-Z])")
WAITS = "Stop the film here if you want longer."


class Cue(Struct, frozen=True):
    """Text that stands from `start` to `stop`, in seconds. `name` says which shot it belongs to."""

    name: str
    start: float
    stop: float
    lines: tuple[str, ...]


Paces = Mapping[str, Sequence[float]]  # shot id -> when each equal share of its words begins, and when all is said


def captions(board: Storyboard, paces: Paces | None = None) -> tuple[tuple[Cue, ...], tuple[Problem, ...]]:
    """The captions of a film in order, never two at a time; and the steps whose words go by too fast to be read.

    The first caption of a step comes with its start, the others as its words are said: by `paces`, in seconds after
    the start of the shot, where a voice tells them; evenly where not.
    """
    own = [_cues(shot, LINES[board.level], (paces or {}).get(shot.id, ())) for shot in board.shots]
    problems = [
        found
        for shot, cues in zip(board.shots, own, strict=True)
        if (found := _problem(shot, [cue for cue in cues if cue.lines != (WAITS,)], board.level))
    ]
    return tuple(cue for cues in own for cue in cues), tuple(problems)


def chapters(board: Storyboard) -> tuple[Cue, ...]:
    """One a shot, by its idea; a rig's title opens its own."""
    return tuple(Cue(shot.id, shot.start, shot.end, (_named(board, shot),)) for shot in board.shots)


def descriptions(board: Storyboard, pictures: Sequence[str]) -> tuple[Cue, ...]:
    """What is new in the picture of each shot, to be read aloud to those who do not see it; `pictures` shot by shot."""
    return tuple(
        Cue(shot.id, shot.start, shot.end, (news,))
        for shot, news in zip(board.shots, new_in(board, pictures), strict=True)
        if news
    )


def new_in(board: Storyboard, pictures: Sequence[str]) -> tuple[str, ...]:
    """The sentences of each picture that were not said of the one before it; a rig begins anew."""
    found, before, act = [], set[str](), -1
    for shot, picture in zip(board.shots, pictures, strict=True):
        sentences = _SENTENCES.split(" ".join(picture.split()))
        found.append(" ".join(each for each in sentences if shot.act != act or each not in before))
        before, act = set(sentences), shot.act
    return tuple(found)


def _named(board: Storyboard, shot: Shot) -> str:
    if shot.step:
        return shot.step.idea
    if shot.kind == "recap":
        return "Recap"
    return board.title if shot.id == "title" else board.acts[shot.act].rig.title or board.title


def _cues(shot: Shot, width: int, pace: Sequence[float]) -> list[Cue]:
    """The captions of a shot. The last one stays on into the pause, as long as a caption may; where the learner is
    given time, the pause has its own."""
    pace = pace or (0.0, shot.seconds - min(shot.pause + HOLD, 0.6 * shot.seconds))
    said = shot.start + pace[-1]
    texts = blocks(shot.written, width, pace[-1], LEAST, MOST)
    starts = [shot.start + _when(share, pace) for share in _shares(texts)]
    if any(move.when == "pause" for move in shot.moves):
        texts, starts = (*texts, *blocks(WAITS, len(WAITS), MOST, LEAST, MOST)), [*starts, said]
    ends = [after - GAP for after in (*starts[1:], shot.end)]
    return [
        Cue(f"{shot.id}/{number}", start, min(start + MOST, end), lines)
        for number, (start, end, lines) in enumerate(zip(starts, ends, texts, strict=False), 1)
        if start < end
    ]


def _shares(texts: Sequence[tuple[str, ...]]) -> list[float]:
    """How much has been said when each caption begins."""
    signs = [sum(map(len, lines)) + 1 for lines in texts]
    return [sum(signs[:n]) / sum(signs) for n in range(len(signs))]


def _when(share: float, pace: Sequence[float]) -> float:
    """When this share of the words has been said."""
    parts = len(pace) - 1
    part = min(int(share * parts), parts - 1)
    return pace[part] + (share * parts - part) * (pace[part + 1] - pace[part])


def _problem(shot: Shot, cues: Sequence[Cue], level: str) -> Problem | None:
    """What cannot be read in time. The pause counts as time to read for as long as the last caption stays on."""
    words, most = spoken_words(shot.says), LEVELS[level].most
    if not words or not shot.written.strip():
        return None
    if not cues or any(cue.stop - cue.start < LEAST - 0.005 for cue in cues):
        return _said("caption-too-short", shot, f"a caption of it stands for less than {LEAST:g} s")
    seconds = cues[-1].stop + GAP - shot.start
    if 60 * words / seconds > most + 0.5:
        rate = f"{words} words in {seconds:.1f} s are {60 * words / seconds:.0f} a minute"
        return _said("caption-too-fast", shot, f"{rate}; {level} level reads {most:g}")
    dense, signs = max(sum(map(len, cue.lines)) / (cue.stop - cue.start) for cue in cues), LEVELS[level].letters
    if dense > signs + 0.5:
        return _said(
            "caption-too-fast", shot, f"a caption has {dense:.0f} signs a second; {level} level reads {signs:g}"
        )
    if any(len(line) > LINES[level] for cue in cues for line in cue.lines):
        return _said("caption-line-too-long", shot, f"a word of it is longer than a line of {LINES[level]} signs")
    return None


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


def _said(code: str, shot: Shot, says: str) -> Problem:
    idea = f" ({shot.step.idea})" if shot.step else ""
    return Problem(code, Place(1, 1), shot.written, f"Step {shot.id}{idea}: {says}.", _WHY[code], _DO[code])
