"""Voices made up for the tests: bursts of noise like spoken words, with pauses that are known."""

import re

import numpy

from gantline.account import Account, explain, spoken_words
from gantline.film import Act, Storyboard, board
from gantline.mechanics import solve
from gantline.rig import Rig

RATE = 48_000
SENTENCES = re.compile(r"(?<=[.?!:;]) ")


def film_of(rig: Rig, level: str = "middle") -> Storyboard:
    answer = solve(rig)
    account = explain(rig, answer)
    assert isinstance(account, Account)
    return board([Act("bell", rig, answer, account)], level=level)


def words_of(whole: Storyboard) -> list[list[int]]:
    """How many words each sentence of each step has."""
    return [[spoken_words(part) for part in SENTENCES.split(shot.says)] for shot in whole.shots if shot.says]


def voice(
    steps: list[list[int]], seed: int, run_on: int | None = None, falters: int | None = None
) -> tuple[numpy.ndarray, list[float]]:
    """A voice that says these words, and where each step begins in it, in seconds.

    `run_on` is a step before which nobody breathes, `falters` one in the middle of which the speaker stops.
    """
    chance = numpy.random.default_rng(seed)
    sound, starts = [numpy.zeros(RATE // 2)], []
    for number, sentences in enumerate(steps):
        starts.append(sum(map(len, sound)) / RATE)
        pace = 0.38 * chance.uniform(0.88, 1.12)
        for place, count in enumerate(sentences):
            for word in range(count):
                sound.append(_word(chance, pace * chance.uniform(0.75, 1.25)))
                if number == falters and place == 0 and word == count // 2:
                    sound.append(numpy.zeros(round(1.1 * RATE)))
            if place + 1 < len(sentences):
                sound.append(numpy.zeros(round(chance.uniform(0.25, 0.45) * RATE)))
        if number + 1 != run_on:
            sound.append(numpy.zeros(round(chance.uniform(0.7, 1.3) * RATE)))
    whole = numpy.concatenate(sound)
    return whole + chance.normal(0, 0.002, len(whole)), starts


def _word(chance: numpy.random.Generator, seconds: float) -> numpy.ndarray:
    """A burst that swells and dies away, with a short gap after it."""
    count, gap = round(0.88 * seconds * RATE), round(0.12 * seconds * RATE)
    swell = numpy.sin(numpy.pi * numpy.linspace(0.02, 0.98, count)) ** 0.5
    return numpy.concatenate([chance.normal(0, 0.15, count) * swell, numpy.zeros(gap)])
