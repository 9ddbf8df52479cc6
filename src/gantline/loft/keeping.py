"""Files kept as they are made: each save whole, no state lost, and never over what another program wrote."""

import fcntl
import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from msgspec.structs import replace

from gantline.notation import MOST_BYTES

from . import history
from .asked import Keep, Refused
from .folder import SCRIPT, SUFFIX, Folder, State, mark, named
from .merging import merge

HIDDEN = ".gantline"  # beside the rigs: what they were earlier, and the lock


def opened(folder: Folder, name: str) -> dict[str, Any]:
    """A file for the page, with the words beside it where there are some. Raises Refused where there is none."""
    state = folder.read(name)
    if state is None:
        raise Refused(404, f"There is no {name} in this folder.")
    return {**_record(name, state), "script": _script(folder, name)}


def _script(folder: Folder, name: str) -> dict[str, Any] | None:
    """The tutor's own words beside a rig; none where they cannot be read: then they cannot be changed here either."""
    beside = name.removesuffix(SUFFIX) + SCRIPT
    try:
        state = folder.read(beside) if name.endswith(SUFFIX) else None
        return _record(beside, state) if state else None
    except Refused:
        return None


def _record(name: str, state: State) -> dict[str, Any]:
    return {"name": name, "text": text_of(state.data), "etag": state.mark}


def text_of(data: bytes) -> str:
    """The words of a file, lines ended by a line feed alone. Raises Refused for what is no text."""
    if len(data) > MOST_BYTES:
        raise Refused(413, f"The file is longer than {MOST_BYTES // 1024} KiB.")
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        raise Refused(415, "The file is no text: it is not UTF-8.") from error


def keep(folder: Folder, asked: Keep) -> tuple[int, dict[str, Any]]:
    """Saves a text that began from `asked.base` (None: a new file), unless the file has become another one since.

    Then nothing is written: the answer is 409, with both texts, their difference, and both merged where that is safe.
    """
    named(asked.name)
    asked = replace(asked, text=_whole(asked.text), base=None if asked.base is None else _whole(asked.base))
    try:
        with _alone(folder) as hidden:
            return _kept(folder, hidden, asked)
    except OSError as error:
        raise Refused(
            409, f"{asked.name} cannot be kept: {(error.strerror or 'the system refused').lower()}."
        ) from error


def _whole(text: str) -> str:
    """A text that can be written: where half a character stands, the sign for one that cannot be read."""
    return text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def _kept(folder: Folder, hidden: int, asked: Keep) -> tuple[int, dict[str, Any]]:
    now = folder.read(asked.name)
    data = _bytes(asked.text, now)
    if now is not None and now.data == data:
        return 200, {"name": asked.name, "etag": now.mark}
    if not _unchanged(now, asked.base):
        return 409, _both(asked, now)
    history.add(hidden, asked, data, before=now.data if now else None)
    folder.write(asked.name, data)
    return 200, {"name": asked.name, "etag": mark(data)}


def _bytes(text: str, now: State | None) -> bytes:
    """The words as bytes, with the line ends that the file has."""
    crlf = now is not None and b"\r\n" in now.data
    data = (text.replace("\n", "\r\n") if crlf else text).encode()
    if len(data) > MOST_BYTES:
        raise Refused(413, f"A rig has at most {MOST_BYTES // 1024} KiB.")
    return data


def _unchanged(now: State | None, base: str | None) -> bool:
    if now is None or base is None:
        return now is None and base is None
    return text_of(now.data) == base


def _both(asked: Keep, now: State | None) -> dict[str, Any]:
    theirs = text_of(now.data) if now else None
    merged = None if theirs is None or asked.base is None else merge(asked.base, asked.text, theirs)
    return {
        "says": f"{asked.name} was changed elsewhere. Nothing has been overwritten.",
        "name": asked.name, "etag": now.mark if now else None, "yours": asked.text, "theirs": theirs,
        **(merged or {"merged": None, "lines": [], "clashes": []}),
    }  # fmt: skip


def earlier(folder: Folder, name: str) -> dict[str, Any]:
    """What a file was before, the newest first. Looking makes nothing."""
    return {"name": name, "earlier": history.entries(folder.handle, f"{HIDDEN}/{named(name)}")}


@contextmanager
def _alone(folder: Folder) -> Iterator[int]:
    """One save at a time in a folder, whatever process it comes from; the system drops the lock with its process."""
    with folder.inner(HIDDEN) as hidden:
        lock = os.open("lock", os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW, 0o600, dir_fd=hidden)
        try:
            fcntl.flock(lock, fcntl.LOCK_EX)
            yield hidden
        finally:
            os.close(lock)
