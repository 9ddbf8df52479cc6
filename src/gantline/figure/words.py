"""Text in a figure: exact widths from the typeface, and symbols split into letters and indices."""

import json
from functools import cache
from importlib.resources import files

from .scene import Run

LOW_SIZE = 0.72  # an index against its letter
_UNKNOWN = 600  # thousandths; for a character the typeface has not got


@cache
def _advances() -> dict[str, dict[str, int]]:
    table: dict[str, dict[str, int]] = json.loads(
        files("gantline").joinpath("assets/widths.json").read_text(encoding="utf-8")
    )
    return table


def width(runs: tuple[Run, ...], size: float, weight: int = 400) -> float:
    """The width of a line of text in px."""
    total = 0.0
    for run in runs:
        face = _advances()[f"{weight}i" if run.italic else str(weight)]
        advance = sum(face.get(letter, _UNKNOWN) for letter in run.text)
        total += advance * (LOW_SIZE if run.low else 1.0)
    return total * size / 1000


def plain(text: str) -> tuple[Run, ...]:
    return (Run(text),)


def symbol(name: str) -> tuple[Run, ...]:
    """A symbol's runs: its letter italic, what follows the letter an upright index. F, T1, m_a."""
    letter, index = name[:1], name[1:].lstrip("_")
    return (Run(letter, italic=True), Run(index, low=True)) if index else (Run(letter, italic=True),)


def mathematics(text: str) -> tuple[Run, ...]:
    """A short formula or value as it is written, "2T1 = W + 12 N": single letters italic, words and units upright."""
    runs: list[Run] = []
    for word in _words(text.replace("-", "−")):
        runs.extend(symbol(word) if _is_symbol(word) else plain(word))
    return _joined(runs)


def wrapped(runs: tuple[Run, ...], size: float, room: float) -> list[tuple[Run, ...]]:
    """The runs in lines no wider than `room` (px), broken at spaces; a word longer than that has a line of its own."""
    lines: list[list[Run]] = [[]]
    for run in runs:
        for number, word in enumerate(run.text.split(" ")):
            piece = Run((" " if number else "") + word, run.italic, run.low)
            if number and lines[-1] and width((*lines[-1], piece), size) > room:
                lines.append([Run(word, run.italic, run.low)])
            else:
                lines[-1].append(piece)
    return [_joined(line) for line in lines]


def _joined(line: list[Run]) -> tuple[Run, ...]:
    """Neighbours of one cut as one run."""
    joined: list[Run] = []
    for run in line:
        if joined and (joined[-1].italic, joined[-1].low) == (run.italic, run.low):
            joined[-1] = Run(joined[-1].text + run.text, run.italic, run.low)
        else:
            joined.append(run)
    return tuple(joined)


def _words(text: str) -> list[str]:
    words: list[str] = []
    for letter in text:
        joins = words and (letter.isalnum() or letter == "_") and (words[-1][0].isalpha())
        if joins:
            words[-1] += letter
        else:
            words.append(letter)
    return _with_units(words)


def _with_units(words: list[str]) -> list[str]:
    """A word right after a number and a space is its unit and stays upright: it keeps the space in front."""
    joined: list[str] = []
    for word in words:
        after_space = len(joined) > 1 and joined[-1] in (" ", "\u00a0") and joined[-2].isdigit()
        if after_space and word[0].isalpha():
            joined[-1] = "\u00a0" + word
        else:
            joined.append(word)
    return joined


def _is_symbol(word: str) -> bool:
    letter, index = word[:1], word[1:]
    return letter.isalpha() and (not index or index.isdigit() or index.startswith("_"))
