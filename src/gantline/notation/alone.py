"""A value that stands by itself in a line of another kind of file, read as in a rig."""

from gantline.problems import Place

from .problems import Notes, Unreadable
from .scan import words_of
from .tree import Word, Written
from .value import ValueReader


def alone(of: str, place: Place, notes: Notes) -> Written | None:
    """The value in that stretch of a line of `notes`, or None where a problem was noted. `of` is what it says."""
    start = place.column - 1
    line = " " * start + notes.lines[place.line - 1][start : start + place.length]
    words = [Word(of, Place(place.line, place.column, 1)), *words_of(line, place.line, len(line))]
    reader = ValueReader(notes, words)
    reader.at = 1
    try:
        value = reader.value(of)
        if reader.at < len(words):
            left = words[reader.at]
            raise notes.stop(
                "something-left-over", left.place, f"`{left.text[:40]}` is not expected here",
                "one value stands here", "keep a number and its unit, and take the rest away.",
            )  # fmt: skip
    except Unreadable:
        return None
    return value
