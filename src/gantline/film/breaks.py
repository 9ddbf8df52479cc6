"""Where a sentence may be broken for a caption: after its phrases, never between a number and its unit."""

import re
from collections.abc import Sequence

from gantline.quantity import UNITS

Block = tuple[str, ...]  # the lines of one caption, one or two

_SIGNS = {"=", "+", "−", "-", "*", "/", "·", "×", "≈", "<", ">"}
_NUMBER = re.compile(r"[(−-]?\d[\d.,]*(?:/\d+)?")
_BEFORE = {
    "and", "or", "but", "so", "that", "which", "who", "where", "when", "while", "because", "if", "as", "than", "for",
    "from", "to", "of", "on", "in", "at", "by", "with", "through", "between", "around", "into", "over", "under",
}  # fmt: skip
_CLINGS = {"the", "a", "an", "its", "your", "this", "that", "of", "to", "each", "all", "is", "are", "it", "and", "or"}
_CUE, _CROWDED = 12.0, 60.0  # what a further caption costs, and one that stands too short or too long


def blocks(text: str, width: int, seconds: float, least: float, most: float) -> tuple[Block, ...]:
    """A text as captions of at most two lines of `width` signs, said over `seconds`; each stands from `least` to `most`
    seconds where that can be. Nothing for an empty text; a word longer than a line keeps a line of its own."""
    words = _words(text)
    pace = seconds / max(1, len(" ".join(words)))
    best: list[tuple[float, tuple[Block, ...]]] = [(0.0, ())]
    for stop in range(1, len(words) + 1):
        found = []
        for start in range(stop - 1, -1, -1):
            laid = _lines(words[start:stop], width)
            if laid is None:
                break
            (uneven, lines), (cost, before) = laid, best[start]
            time = pace * len(" ".join(words[start:stop]))
            crowded = _CROWDED * (max(0.0, least - time) + max(0.0, time - most))
            ends = 0.0 if stop == len(words) else 2 * _break(words, stop)
            found.append((cost + _CUE + crowded + ends + uneven, (*before, lines)))
        best.append(min(found))
    return best[-1][1]


def _words(text: str) -> list[str]:
    """The words, with what must stay together as one: a number with its unit, a formula around its signs."""
    found: list[str] = []
    glue = False
    for word in text.split():
        bare = word.rstrip(".,;:?!)")
        after = bool(found) and bool(_NUMBER.fullmatch(found[-1].split()[-1])) and bare in UNITS
        if found and (glue or after or word in _SIGNS):
            found[-1] += f" {word}"
        else:
            found.append(word)
        glue = word in _SIGNS
    return found


def _lines(words: Sequence[str], width: int) -> tuple[float, Block] | None:
    """One line, or the best two, and what the break between them costs; None where they do not fit."""
    whole = " ".join(words)
    if len(whole) <= width or len(words) == 1:
        return 0.0, (whole,)
    fitting = [
        (_break(words, at) / 2 + abs(len(first) - len(second)) / 8, (first, second))
        for at in range(1, len(words))
        if len(first := " ".join(words[:at])) <= width and len(second := " ".join(words[at:])) <= width
    ]
    return min(fitting, default=None)


def _break(words: Sequence[str], at: int) -> float:
    """What a break before the word `at` costs: nothing after a sentence, much within a phrase."""
    before, after = words[at - 1], words[at]
    if before[-1] in ".?!:":
        return 0.0
    if before[-1] in ",;":
        return 2.0
    if before.lower() in _CLINGS:
        return 12.0
    return 4.0 if after.lower() in _BEFORE else 8.0
