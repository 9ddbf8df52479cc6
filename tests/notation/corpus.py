"""Texts that cannot be read, each with the code and the place of what is wrong: tests/notation/bad.txt and its like."""

import re
from pathlib import Path
from typing import NamedTuple

MARK = "»"
_ESCAPE = re.compile(r"\\(?:u([0-9a-f]{4})|([tr0n]))")
_PLAIN = {"t": "\t", "r": "\r", "n": "\n", "0": "\0"}
_BREAK = re.compile(r"\r\n|\r|\n")


class Bad(NamedTuple):
    """A text and what must be said of it: (code, line, column), in the order of the text."""

    text: str
    expected: list[tuple[str, int, int]]


def corpus(path: Path) -> list[Bad]:
    """All texts of a file."""
    _, *blocks = re.split(r"^=== ", path.read_text(encoding="utf-8"), flags=re.MULTILINE)
    return [_bad(block) for block in blocks]


def _bad(block: str) -> Bad:
    codes, _, body = block.partition("\n")
    marked = _ESCAPE.sub(lambda found: chr(int(found[1], 16)) if found[1] else _PLAIN[found[2]], body)
    places = []
    for number, line in enumerate(_BREAK.split(marked), 1):
        for before, part in enumerate(line.split(MARK)[:-1]):
            column = 1 + sum(map(len, line.split(MARK)[:before])) + len(part)
            places.append((number, column))
    assert len(places) == len(codes.split()), f"as many marks as codes: {block}"
    return Bad(marked.replace(MARK, ""), [(code, *place) for code, place in zip(codes.split(), places, strict=True)])
