"""From a line of text to words with places, and the characters that may not stand in a rig."""

import re
import unicodedata

from gantline.problems import Place

from .tree import Word

# A word ends at a blank, a mark or a hash; a number runs up to its unit even where no blank parts them.
_WORD = re.compile(r"[^ \t,:=#]+|[,:=]")
_BREAKS = re.compile(r"\r\n|\r|\n")
_HIDDEN = frozenset("\u00ad\u061c\u200b\u200c\u200d\u200e\u200f\u2060\ufeff" + "".join(map(chr, range(0x202A, 0x202F))))
_ISOLATES = frozenset(map(chr, range(0x2066, 0x206A)))


def lines_of(text: str) -> tuple[str, ...]:
    """The lines of a text as an editor counts them: LF, CRLF and a lone CR end a line."""
    return tuple(_BREAKS.split(text))


def words_of(line: str, number: int, end: int) -> list[Word]:
    """The words and marks of a line up to a column (from 0)."""
    return [
        Word(match.group(), Place(number, match.start() + 1, len(match.group())))
        for match in _WORD.finditer(line, 0, end)
    ]


def comment_start(line: str) -> int:
    """Where the comment of a line begins (from 0), or its length. In a title a hash must follow a blank."""
    if line.split(None, 1)[:1] == ["title"]:
        found = re.search(r"(?<=[ \t])#", line)
        return found.start() if found else len(line)
    at = line.find("#")
    return len(line) if at < 0 else at


def unwelcome(line: str) -> tuple[int, str] | None:
    """The first character (column from 0, name) that may not stand anywhere: controls, invisible ones, those that turn
    the direction of writing, breaks that only some programs take for a new line, and blanks that are none."""
    if line.isascii() and line.isprintable():
        return None
    for at, character in enumerate(line):
        kind = unicodedata.category(character)
        bad = kind in ("Cc", "Cs", "Zl", "Zp", "Co", "Cn") or (kind == "Zs" and character != " ")
        if (bad and character != "\t") or character in _HIDDEN or character in _ISOLATES:
            return at, f"U+{ord(character):04X} {unicodedata.name(character, '')}".strip()
    return None
