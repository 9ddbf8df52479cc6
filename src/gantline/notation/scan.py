"""From a line of text to words with places."""

import re


from gantline.problems import Place

from .tree import Word

# A word ends at a blank, a comma, a colon, an equals sign or a hash; `kg m2` and `m/s2` are put together by the parser.
_WORD = re.compile(r"[^\s,:=#]+|[,:=]")
_BREAKS = re.compile(r"\r\n|\r|\n")


def lines_of(text: str) -> tuple[str, ...]:
    """The lines of a text as an editor counts them: LF, CRLF and lone CR end a line."""
    return tuple(_BREAKS.split(text))


def words_of(line: str, number: int, start: int = 0, end: int | None = None) -> list[Word]:
    """The words and marks of a line between two columns (0-based)."""
    stop = len(line) if end is None else end
    return [
        Word(match.group(), Place(number, match.start() + 1, len(match.group())))
        for match in _WORD.finditer(line, start, stop)
    ]


def comment_start(line: str) -> int:
    """Where the comment of a line begins, or its length."""
    found = line.find("#")
    return len(line) if found < 0 else found
