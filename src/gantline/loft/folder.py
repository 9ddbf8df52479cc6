"""The folder the loft was opened on, by its handle: nothing outside it can be named, and no link leads out of it."""

import hashlib
import os
import re
import stat
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from msgspec import Struct

from gantline.notation import MOST_BYTES
from gantline.output import files

from .asked import Refused

SUFFIX = ".rig"
SCRIPT = ".script.md"  # beside a rig: its tutor's own words
_DEVICES = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
_FORBIDDEN = set('/\\:*?"<>|')
_LEFT = re.compile(r"\..*\.(?:rig|md)\.[0-9a-f]{12}\.part")  # what `files.replace_in` writes to before it is whole
LONGEST_NAME = 120  # bytes, so that a name with an ending behind it still fits any file system


class State(Struct, frozen=True):
    """A file as it stood: its bytes and their mark."""

    data: bytes

    @property
    def mark(self) -> str:
        return mark(self.data)


def mark(data: bytes) -> str:
    """What tells one state of a file from another."""
    return hashlib.sha256(data).hexdigest()[:32]


def named(name: str) -> str:
    """A name that may be used: a plain `.rig` file in the folder itself, or the words beside one. Raises Refused with
    what is wrong with it."""
    stem = name.removesuffix(SCRIPT if name.endswith(SCRIPT) else SUFFIX)
    if not name or stem == name or not stem:
        raise Refused(400, "A rig's file has a name that ends in .rig.")
    if len((stem + SUFFIX).encode("utf-8", "surrogatepass")) > LONGEST_NAME:  # the words beside a rig have its limit
        raise Refused(400, f"The name is too long: {LONGEST_NAME} bytes fit.")
    if name.startswith((".", " ", "-")) or stem.endswith((".", " ")) or stem.split(".")[0].lower() in _DEVICES:
        raise Refused(400, "Some systems cannot keep a file of that name. Choose a plain one.")
    if not name.isprintable() or _FORBIDDEN & set(name):
        raise Refused(400, "A name stays inside the folder: letters, digits, spaces and hyphens are enough.")
    return name


class Folder:
    """A folder held open. Names go through `named` first; files are opened from the handle, never through a link."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.handle = os.open(path, os.O_RDONLY | os.O_DIRECTORY)

    def names(self) -> list[str]:
        """The rigs in the folder: plain files, no links, no dot files."""
        with os.scandir(self.handle) as entries:
            return sorted(e.name for e in entries if _is_ours(e.name) and e.is_file(follow_symlinks=False))

    def stamps(self) -> dict[str, tuple[int, int]]:
        """When each rig was changed (ns since 1970), and its length in bytes: another state has another stamp."""
        found = {}
        for name in self.names():
            with suppress(OSError):
                state = os.stat(name, dir_fd=self.handle, follow_symlinks=False)
                found[name] = (state.st_mtime_ns, state.st_size)
        return found

    def read(self, name: str) -> State | None:
        """A file's state, None where there is none. Raises Refused for what is not a plain file."""
        try:
            descriptor = os.open(named(name), os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK, dir_fd=self.handle)
        except FileNotFoundError:
            return None
        except OSError as error:
            raise Refused(
                404, f"{name} is a link, or may not be read: only files of this folder are opened."
            ) from error
        try:
            if not stat.S_ISREG(os.fstat(descriptor).st_mode):
                raise Refused(404, f"{name} is not a file.")
            return State(_all(descriptor))
        finally:
            os.close(descriptor)

    def write(self, name: str, data: bytes) -> None:
        """A file's new state, whole or not at all. Raises OSError where the system will not."""
        files.replace_in(self.handle, named(name), data)

    def sweep(self) -> None:
        """Takes away what a save that was killed left half written. Never the file itself: that was still the old one.

        What is younger than a minute may be a save that is still going on.
        """
        with os.scandir(self.handle) as entries:
            left = [entry.name for entry in entries if _LEFT.fullmatch(entry.name) and _old(entry)]
        for name in left:
            with suppress(OSError):
                os.unlink(name, dir_fd=self.handle)

    @contextmanager
    def inner(self, name: str) -> Iterator[int]:
        """The handle of a hidden folder of ours inside it, made where it is missing."""
        with suppress(FileExistsError):
            os.mkdir(name, 0o700, dir_fd=self.handle)
        handle = os.open(name, os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW, dir_fd=self.handle)
        try:
            yield handle
        finally:
            os.close(handle)


def _old(entry: "os.DirEntry[str]") -> bool:
    return entry.is_file(follow_symlinks=False) and time.time() - entry.stat(follow_symlinks=False).st_mtime > 60


def _all(descriptor: int) -> bytes:
    """The bytes of a file, one more than a rig may have at most."""
    pieces = []
    left = MOST_BYTES + 1
    while left and (piece := os.read(descriptor, left)):
        pieces.append(piece)
        left -= len(piece)
    return b"".join(pieces)


def _is_ours(name: str) -> bool:
    try:
        return named(name).endswith(SUFFIX)
    except Refused:
        return False
