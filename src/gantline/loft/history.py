"""What a file was earlier: one line of JSON a state, added before the file itself changes, so that nothing is lost.

The lines stand in `.gantline/NAME.earlier` beside the rigs. A line that a crash cut short is passed over. Past MOST
bytes only the newest states stay, as many as fit into half of that.
"""

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import msgspec
from msgspec import Struct

from gantline.output import files

from .asked import Keep

ENDING = ".earlier"
MOST = 2 * 1024 * 1024
LONGEST_WORDS = 200


class Entry(Struct, frozen=True, omit_defaults=True):
    """A state: when it was kept (UTC), what was done, its text, and the group of states it belongs to."""

    at: str
    says: str
    text: str
    group: str = ""


def add(hidden: int, asked: Keep, data: bytes, before: bytes | None) -> None:
    """Notes a state that is about to be kept, and the one before it where another program made that."""
    name = asked.name
    known = _read(hidden, name + ENDING)
    last = next(_backwards(known), None)
    fresh = []
    if before is not None and (last is None or last.text != _text(before)):
        fresh.append(Entry(_now(), "As it stood in the folder", _text(before)))
    fresh.append(Entry(_now(), asked.says[:LONGEST_WORDS], _text(data), asked.group[:LONGEST_WORDS]))
    lines = b"".join(msgspec.json.encode(entry) + b"\n" for entry in fresh)
    if len(known) + len(lines) > MOST:
        files.replace_in(hidden, name + ENDING, _newest(known, MOST // 2) + lines)
    else:
        files.append_in(hidden, name + ENDING, lines if not known or known.endswith(b"\n") else b"\n" + lines)


def entries(folder: int, path: str) -> list[dict[str, Any]]:
    """Every state that can be gone back to, the newest first; of those that follow each other in a group the last."""
    found: list[Entry] = []
    for entry in _backwards(_read(folder, path + ENDING)):
        if not (found and entry.group and entry.group == found[-1].group):
            found.append(entry)
    return [{"at": entry.at, "says": entry.says, "text": entry.text} for entry in found]


def _read(folder: int, path: str) -> bytes:
    try:
        handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW, dir_fd=folder)
    except OSError:
        return b""
    with open(handle, "rb") as file:
        return file.read(2 * MOST)


def _backwards(lines: bytes) -> Iterator[Entry]:
    for line in reversed(lines.split(b"\n")):
        try:
            yield msgspec.json.decode(line, type=Entry)
        except msgspec.MsgspecError:
            continue


def _newest(lines: bytes, room: int) -> bytes:
    """The last whole lines that fit."""
    kept = lines[-room:]
    return kept[kept.find(b"\n") + 1 :] if len(lines) > room else lines


def _text(data: bytes) -> str:
    return data.decode("utf-8", "replace")


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="seconds")
