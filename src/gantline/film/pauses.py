"""Where the steps begin in a voice without taps: its pauses, matched to what the words of each step should take."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Floats = NDArray[np.float64]

FRAME = 0.01  # s
LEAST = 0.2  # s of silence that make a pause
_PARTS = 20
LEAD = 0.05  # s that a step begins before its first sound
_STRAY, _LEAST_STRAY = 0.2, 0.25  # how far people stray from what their words should take: share, and seconds
_LONG, _WEIGHT = 0.35, 1.5  # a pause of this many seconds says nothing either way; what a longer one is worth
_NOWHERE, _WITHIN = 4.0, 3.0  # the price of no pause: before a step, before another sentence of it
_STEP = 0.5  # s, how closely starts without a pause are tried
_CLOSE = 1.5  # two matches whose prices differ by less are both likely
_ODD = 1.7  # times as long, or as short, as expected


class Start(Struct, frozen=True):
    """Where a step begins, in seconds, and why that is doubtful; empty where it is not."""

    at: float
    doubt: str = ""


class Hearing(Struct, frozen=True):
    """A sound as pauses and speech: `pauses` as (from, to) in seconds, between the first sound and the last;
    `speech` is the seconds of speech up to the end of each frame of 10 ms."""

    pauses: tuple[tuple[float, float], ...]
    speech: Floats

    @property
    def first(self) -> float:
        """Where the first sound begins."""
        return float(np.argmax(self.speech > 0)) * FRAME

    @property
    def spoken(self) -> float:
        """The seconds of speech in all."""
        return float(self.speech[-1]) if len(self.speech) else 0.0


def hear(sound: NDArray[Any], rate: int, full: float = 1.0) -> Hearing:
    """Tells speech from silence by loudness: halfway, in decibels, between the sound's own quiet and its loud parts.

    `full` is the largest sample there can be.
    """
    level = _loudness(sound, round(FRAME * rate), full)
    if not len(level) or np.percentile(level, 95) < -60 or np.ptp(level) < 12:
        return Hearing((), np.zeros(len(level)))
    quiet, loud = np.percentile(level, 10), np.percentile(level, 95)
    loud_enough = level > max(min((quiet + loud) / 2, loud - 12), -55)
    speaks = _closed(loud_enough)
    edges = np.flatnonzero(np.diff(np.concatenate([[False], speaks, [False]]).astype(int)))
    ends, begins = edges[1:-1:2] * FRAME, edges[2::2] * FRAME
    pauses = tuple((float(a), float(b)) for a, b in zip(ends, begins, strict=True))
    return Hearing(pauses, np.cumsum(speaks, dtype=np.float64) * FRAME)


def _loudness(sound: NDArray[Any], size: int, full: float) -> Floats:
    """The loudness of every frame in decibels below full scale; a few seconds at a time, so that memory stays small."""
    frames = sound[: len(sound) // size * size].reshape(-1, size)
    stretches = (frames[n : n + 500] / full for n in range(0, len(frames), 500))
    return np.concatenate([10 * np.log10(np.mean(part**2, axis=1) + 1e-10) for part in stretches] or [np.zeros(0)])


def pace(hearing: Hearing, start: float, stop: float) -> tuple[float, ...]:
    """When each twentieth of the speech between two moments begins, in seconds after the first, and when it has all
    been said. Empty where next to nothing is said."""
    said = hearing.speech[round(start / FRAME) : round(stop / FRAME)]
    said = said - said[0] if len(said) else said
    if not len(said) or said[-1] < _PARTS * FRAME:
        return ()
    begins = np.searchsorted(said, said[-1] * np.arange(_PARTS) / _PARTS + 1e-9, side="right")
    ends = np.searchsorted(said, said[-1] - 1e-9)
    return (0.0, *(float(frame) * FRAME for frame in (*begins[1:], ends)))


def _closed(speaks: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Silences shorter than a pause belong to the speech around them; sounds of under 40 ms are no speech."""
    for value, shortest in ((True, round(0.04 / FRAME)), (False, round(LEAST / FRAME))):
        edges = np.flatnonzero(np.diff(np.concatenate([[not value], speaks, [not value]]).astype(int)))
        speaks = speaks.copy()
        for start, stop in zip(edges[::2], edges[1::2], strict=True):
            inside = start > 0 and stop < len(speaks)
            if stop - start < shortest and (value or inside):
                speaks[start:stop] = not value
    return speaks


def matched(hearing: Hearing, expected: Sequence[Sequence[float]]) -> tuple[Start, ...]:
    """The start of every step. `expected` has for each of its sentences the seconds of speech the words should take.

    Of all starts that rise, those are chosen whose sentences fit the words best and whose pauses are longest. Empty
    where the sound has no speech.
    """
    lengths = [seconds for step in expected for seconds in step]
    opens = [n == 0 for step in expected for n in range(len(step))]
    if not hearing.spoken or not lengths:
        return ()
    match = _Match(hearing, [hearing.spoken / sum(lengths) * each for each in lengths], opens)
    first = max(0.0, hearing.first - LEAD)
    return tuple(
        Start(round(float(match.times[place]) - LEAD if n else first, 3), match.doubt(n))
        for n, place in enumerate(match.chosen[:-1])
        if opens[n]
    )


class _Match:
    """Sentences laid along the sound at the least price, which is how far each strays from its length, squared.

    `times` are the moments at which a sentence could begin: the beginning, the ends of pauses, and, at a price, moments
    in between; the end of the sound is the last. `chosen` are the places in it of every sentence, and the end.
    """

    def __init__(self, hearing: Hearing, lengths: Sequence[float], opens: Sequence[bool]) -> None:
        self.lengths, self.opens = lengths, opens
        self.times, self.pause = _candidates(hearing)
        self.real = self.pause > 0
        self.said = hearing.speech[np.minimum((self.times / FRAME).astype(int), len(hearing.speech) - 1)]
        self.said[0], self.said[-1] = 0.0, hearing.spoken
        self.ahead = self._ahead()
        self.back = self._back()
        self.chosen = self._path()

    def _price(self, n: int) -> Floats:
        """What it costs to begin sentence n at each candidate."""
        if n == 0 or n == len(self.lengths):
            return np.zeros(len(self.times))
        worth = _WEIGHT * np.log(np.maximum(self.pause, 1e-9) / _LONG)
        return np.where(self.real, -worth, _NOWHERE) if self.opens[n] else np.where(self.real, -worth / 3, _WITHIN)

    def _fit(self, n: int) -> Floats:
        """What it costs that sentence n lasts from each candidate to each later one."""
        lasts = self.said[None, :] - self.said[:, None]
        cost = ((lasts - self.lengths[n]) / (_STRAY * self.lengths[n] + _LEAST_STRAY)) ** 2
        return np.where(lasts > 0.05, cost, np.inf)

    def _ahead(self) -> list[Floats]:
        """The least price of the sentences before n, where n begins at each candidate."""
        rows = [np.where(np.arange(len(self.times)) == 0, 0.0, np.inf)]
        for n in range(len(self.lengths)):
            rows.append((rows[-1][:, None] + self._fit(n)).min(axis=0) + self._price(n + 1))
        return rows

    def _back(self) -> list[Floats]:
        """The least price of sentence n and those after it, where n begins at each candidate."""
        last = len(self.times) - 1
        rows = [np.where(np.arange(len(self.times)) == last, 0.0, np.inf)]
        for n in range(len(self.lengths) - 1, -1, -1):
            rows.insert(0, (self._fit(n) + (rows[0] + self._price(n + 1))[None, :]).min(axis=1))
        return rows

    def _path(self) -> list[int]:
        place = len(self.times) - 1
        path = [place]
        for n in range(len(self.lengths) - 1, 0, -1):
            place = int((self.ahead[n] + self._fit(n)[:, place]).argmin())
            path.insert(0, place)
        return [0, *path]

    def doubt(self, n: int) -> str:
        """Why the start of sentence n, which opens a step, may be wrong."""
        place = self.chosen[n]
        if n and not self.real[place]:
            return "there is no pause here"
        total = np.where(self.real, self.ahead[n] + self.back[n], np.inf)
        total[place], best = np.inf, total[place]
        if n and total.min() - best < _CLOSE:
            return f"the pause at {self.times[int(total.argmin())]:.1f} s is as likely"
        after = next((m for m in range(n + 1, len(self.lengths)) if self.opens[m]), len(self.lengths))
        lasts, words = float(self.said[self.chosen[after]] - self.said[place]), sum(self.lengths[n:after])
        odd = lasts > _ODD * words or lasts < words / _ODD
        return f"{lasts:.1f} s of speech, where the words take about {words:.1f}" if odd else ""


def _candidates(hearing: Hearing) -> tuple[Floats, Floats]:
    """Moments at which a sentence could begin, in order, and how long the pause before each is; 0 for none."""
    length = len(hearing.speech) * FRAME
    pauses = np.array(hearing.pauses).reshape(-1, 2)
    between = np.arange(_STEP, length, _STEP)
    times = np.concatenate([[0.0], pauses[:, 1], between, [length]])
    long = np.concatenate([[0.0], pauses[:, 1] - pauses[:, 0], np.zeros(len(between) + 1)])
    order = np.argsort(times, kind="stable")
    return times[order], long[order]
