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

ENDING = ".earlier"
MOST = 2 * 1024 * 1024
LONGEST_WORDS = 200


class Entry(Struct, frozen=True):
    """A state: when it was kept (UTC), what was done, and its text."""

    at: str
    says: str
    text: str


def add(hidden: int, name: str, data: bytes, says: str, before: bytes | None) -> None:
    """Notes a state that is about to be kept, and the one before it where another program made that."""
    known = _read(hidden, name + ENDING)
    last = next(_backwards(known), None)
    fresh = []
    if before is not None and (last is None or last.text != _text(before)):
        fresh.append(Entry(_now(), "As it stood in the folder", _text(before)))
    fresh.append(Entry(_now(), says[:LONGEST_WORDS], _text(data)))
    lines = b"".join(msgspec.json.encode(entry) + b"\n" for entry in fresh)
    if len(known) + len(lines) > MOST:
        files.replace_in(hidden, name + ENDING, _newest(known, MOST // 2) + lines)
    else:
        files.append_in(hidden, name + ENDING, lines if not known or known.endswith(b"\n") else b"\n" + lines)


def entries(folder: int, path: str) -> list[dict[str, Any]]:
    """Every state that can be gone back to, the newest first."""
    return [msgspec.structs.asdict(entry) for entry in _backwards(_read(folder, path + ENDING))]


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
