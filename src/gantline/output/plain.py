"""Plain text that a terminal can show safely: colour only where welcome, and nothing obeyed that a file says."""

import unicodedata
from collections.abc import Callable, Sequence

from gantline.problems import Problem

Paint = Callable[[str, str], str]

_CODES = {"strong": "1", "quiet": "2", "wrong": "31", "good": "32", "place": "36"}
_UNSEEN = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}  # controls, bidi and zero-width marks, unassigned


def painter(colour: bool) -> Paint:
    """How to set off a text: by colour, or not at all."""
    return (lambda kind, words: f"\x1b[{_CODES[kind]}m{words}\x1b[0m") if colour else (lambda kind, words: words)


def printable(words: str) -> str:
    """The text with everything a terminal could obey, or an eye could miss, written as an escape."""
    return "".join(_escaped(sign) if unicodedata.category(sign) in _UNSEEN else sign for sign in words)


def width(words: str) -> int:
    """The columns a text takes on a terminal: wide signs two, combining marks none."""
    return sum(_columns(sign) for sign in words)


def problems_text(problems: Sequence[Problem], file: str, paint: Paint) -> str:
    """All problems of a file, one below the other, with the line and a caret under the place."""
    count = f"{len(problems)} {'problem' if len(problems) == 1 else 'problems'} in {printable(file)}"
    return "\n".join([*(_problem(problem, file, paint) for problem in problems), paint("strong", count)])


def _escaped(sign: str) -> str:
    code = ord(sign)
    return "    " if sign == "\t" else f"\\x{code:02x}" if code < 256 else f"\\u{code:04x}"


def _columns(sign: str) -> int:
    if unicodedata.combining(sign) or unicodedata.category(sign) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def _problem(problem: Problem, file: str, paint: Paint) -> str:
    place = f"{printable(file)}:{problem.place.line}:{problem.place.column}"
    start, stop = problem.place.column - 1, problem.place.column - 1 + problem.place.length
    before, under = printable(problem.text[:start]), printable(problem.text[start:stop])
    lines = [f"{paint('place', place)}: {paint('wrong', problem.code)}: {printable(problem.says)}"]
    if problem.text.strip():
        lines += ["", f"    {printable(problem.text)}"]
        lines += [f"    {' ' * width(before)}{paint('wrong', '^' * max(1, width(under)))}"]
    return "\n".join([*lines, f"  why  {printable(problem.why)}", f"  do   {printable(problem.do)}", ""])
