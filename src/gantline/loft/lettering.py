"""A text whose only fault is a value, with a letter in its place: what needs no number still stands."""

import re

from gantline.problems import Problem
from gantline.rig import KINDS

_VALUES = ("unit-missing", "no-such-unit", "unit-of-another-kind", "number-unreadable", "comma-in-number")
_LETTERS = {"weight": "w", "mass": "m", "radius": "r", "disc": "d", "inertia": "I", "efficiency": "e", "gravity": "g",
            "raise": "h", "lower": "h", "effort": "F"}  # fmt: skip


def lettered(text: str, problems: tuple[Problem, ...]) -> str | None:
    """The text with the value concerned read as a letter, None where that is not all that is wrong with it."""
    if len(problems) != 1 or problems[0].code not in _VALUES:
        return None
    place, line = problems[0].place, problems[0].text
    said = [found for found in _said(line) if found.end() < place.column <= _end(line, found.end())]
    if not said:
        return None
    key = said[-1][1]
    start, end = said[-1].end(), _end(line, said[-1].end())
    letter = "W" if key == "weight" and line.split()[0] == "load" else _LETTERS[key]
    lines = text.split("\n")
    lines[place.line - 1] = f"{line[:start]}{letter}{line[end:]}"
    return "\n".join(lines)


def _said(line: str) -> list[re.Match[str]]:
    """Every word on a line behind which a value stands, with the blanks that part them."""
    words = "|".join(key for key in _LETTERS if key in KINDS)
    return list(re.finditer(rf"\b({words})\s+(?:[A-Za-z][\w-]*\s+(?=\S))?", line))


def _end(line: str, start: int) -> int:
    """Where a value ends: at a comma, a comment, or the end of the line."""
    found = re.search(r"\s*(,|#|$)", line[start:])
    return start + (found.start() if found else 0)
