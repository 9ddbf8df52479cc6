"""Where in a kit file a table or a key stands, so that a problem can show its line."""

import re
from collections import Counter

from gantline.problems import Place

_HEADER = re.compile(r"\s*\[{1,2}\s*[\"']?([\w-]+)")
_KEY = re.compile(r"\s*[\"']?([\w-]+)[\"']?\s*=\s*")
_TEXT = re.compile(r"([\"'])(.*?)\1")


class Lines:
    """Places by table, entry (from 0) and key. What cannot be found stands at its table, or at the top."""

    def __init__(self, lines: tuple[str, ...]) -> None:
        self._places: dict[tuple[str, int, str], Place] = {}
        seen: Counter[str] = Counter()
        table, entry = "", 0
        for number, line in enumerate(lines, 1):
            if header := _HEADER.match(line):
                table, entry = header[1], seen[header[1]]
                seen[table] += 1
                self._note(table, entry, "", Place(number, header.start(1) + 1, len(header[1])))
            elif key := _KEY.match(line):
                self._note(table, entry, key[1], _value(line, number, key.end()))

    def of(self, table: str, entry: int = 0, key: str = "") -> Place:
        """The value of a key (a text without its quotes), or the name of a table where no key is named."""
        places = self._places
        return places.get((table, entry, key)) or places.get((table, entry, "")) or Place(1, 1)

    def _note(self, table: str, entry: int, key: str, place: Place) -> None:
        self._places.setdefault((table, entry, key), place)


def _value(line: str, number: int, at: int) -> Place:
    text = _TEXT.match(line, at)
    if text:
        return Place(number, text.start(2) + 1, max(len(text[2]), 1))
    return Place(number, at + 1, max(len(line[at:].split("#")[0].rstrip()), 1))
