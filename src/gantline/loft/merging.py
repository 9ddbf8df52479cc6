"""Two sets of edits to one text brought together line by line; where both changed the same lines, both are shown."""

import re
from difflib import SequenceMatcher
from typing import Any

from msgspec import Struct


class _Change(Struct, frozen=True):
    """Lines `start` to `end` of the base became `lines`."""

    start: int
    end: int
    lines: tuple[str, ...]


def merge(base: str, yours: str, theirs: str) -> dict[str, Any]:
    """`merged` is the text with both edits, None where they clash; `lines` (from 1) of it came from theirs; `clashes`
    are the places both changed, each with its line in yours and both versions."""
    start = _lines(base)
    mine, other = _changes(start, yours), _changes(start, theirs)
    clashing = [(one, two) for one in mine for two in other if _meet(one, two) and one != two]
    if clashing:
        return {"merged": None, "lines": [], "clashes": [_clash(start, mine, *pair) for pair in clashing]}
    merged: list[str] = []
    came: list[int] = []
    at = 0
    for change in sorted({*mine, *other}, key=lambda change: (change.start, change.end)):
        merged += start[at : change.start]
        if change not in mine:
            came += range(len(merged) + 1, len(merged) + len(change.lines) + 1)
        merged += change.lines
        at = change.end
    return {"merged": "".join([*merged, *start[at:]]), "lines": came, "clashes": []}


def _lines(text: str) -> list[str]:
    """The lines as an editor counts them, each with its end."""
    return re.findall(r"[^\n]*\n|[^\n]+", text)


def _changes(base: list[str], text: str) -> list[_Change]:
    lines = _lines(text)
    matcher = SequenceMatcher(None, base, lines, autojunk=False)
    return [
        _Change(a1, a2, tuple(lines[b1:b2])) for what, a1, a2, b1, b2 in matcher.get_opcodes() if what != "equal"
    ]  # fmt: skip


def _meet(one: _Change, other: _Change) -> bool:
    """Whether two changes touch the same lines, or put lines into the same place."""
    if one.start == one.end or other.start == other.end:
        return one.start <= other.end and other.start <= one.end
    return one.start < other.end and other.start < one.end


def _clash(base: list[str], mine: list[_Change], one: _Change, other: _Change) -> dict[str, Any]:
    moved = sum(len(change.lines) - (change.end - change.start) for change in mine if change.end <= one.start)
    first, last = min(one.start, other.start), max(one.end, other.end)
    return {
        "line": one.start + moved + 1, "was": "".join(base[first:last]),
        "yours": "".join(one.lines), "theirs": "".join(other.lines),
    }  # fmt: skip
