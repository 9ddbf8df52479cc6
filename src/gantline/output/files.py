"""Files written so that a reader finds the old one or the new one, whole: never a half, and never an edit lost."""

import hashlib
import json
import os
import secrets
import shutil
import stat
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from msgspec import Struct

MANIFEST = ".gantline.json"  # the hash of every file as it was made, so that an edit is seen
_FORMAT = "gantline-files/1"
Content = bytes | Path  # of a file: what is in it, or where a file stands that is copied


class Busy(OSError):
    """Another build is writing this folder."""


class Kept(Struct, frozen=True):
    """A file that the user has edited: it stays as it is. `beside` holds what would have been written."""

    file: str
    beside: str


class Built(Struct, frozen=True):
    """What a folder build did."""

    folder: Path
    kept: tuple[Kept, ...] = ()


def digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _digest_of(content: Content) -> str:
    if not isinstance(content, Path):
        return digest(content)
    with open(content, "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def write(path: Path, data: bytes) -> None:
    """One file, whole or not at all. A link stays a link, and an existing file keeps its mode. Raises OSError."""
    target = Path(os.path.realpath(path))
    folder = os.open(target.parent, os.O_RDONLY)
    try:
        replace_in(folder, target.name, data)
    finally:
        os.close(folder)


def replace_in(folder: int, name: str, data: bytes) -> None:
    """`write` for a plain name in a folder that is held open: what stands there is never followed as a link."""
    mode = _mode_in(folder, name)
    aside = f".{name[:40]}.{secrets.token_hex(6)}.part"
    handle = os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600, dir_fd=folder)
    try:
        with os.fdopen(handle, "wb") as file:
            _fill(file.fileno(), data)
            os.fchmod(file.fileno(), mode)
        os.replace(aside, name, src_dir_fd=folder, dst_dir_fd=folder)
    except BaseException:
        with suppress(OSError):
            os.unlink(aside, dir_fd=folder)
        raise
    os.fsync(folder)


def append_in(folder: int, name: str, data: bytes) -> None:
    """Adds to the end of a file in a folder that is held open, made where it is missing; never through a link."""
    handle = os.open(name, os.O_WRONLY | os.O_APPEND | os.O_CREAT | os.O_NOFOLLOW, 0o600, dir_fd=folder)
    with os.fdopen(handle, "wb") as file:
        _fill(file.fileno(), data)


def _mode_in(folder: int, name: str) -> int:
    """The mode of the file there, or that of a new one. Raises PermissionError for one that may not be written."""
    try:
        mode = os.stat(name, dir_fd=folder, follow_symlinks=False).st_mode
    except FileNotFoundError:
        return 0o666 & ~_umask()
    if not stat.S_ISREG(mode):
        raise FileExistsError(17, "what stands there is not a file", name)
    if not os.access(name, os.W_OK, dir_fd=folder):
        raise PermissionError(13, "the file is read-only", name)
    return stat.S_IMODE(mode)


def build(folder: Path, files: Mapping[str, Content], merged: Collection[str] = ()) -> Built:
    """A folder of files, whole or not there: written aside in the same parent, then moved into place.

    Files of an earlier build that the user edited are kept, and the new ones written beside them (`NAME.new.EXT`);
    files that no build made are left alone; files of an earlier build that are no longer made go. `merged` names files
    that have the user's edits in them already, and are written over. The same files give the same bytes. What is large
    may be given as the path of a file, which is copied.
    Raises Busy while another build writes there, OSError where it cannot be written.
    """
    folder = Path(os.path.realpath(folder))
    if folder.exists() and not folder.is_dir():
        raise NotADirectoryError(20, "there is a file of that name", str(folder))
    folder.parent.mkdir(parents=True, exist_ok=True)
    with _lock(folder):
        _clear(folder)
        made = manifest(folder)
        named, kept = _around_edits(folder, files, made, merged)
        marks = {name: _digest_of(data) for name, data in sorted({**named, **files}.items())}
        aside = folder.parent / f".{folder.name}.part"
        aside.mkdir(mode=_mode(folder))
        try:
            _carry_over(folder, aside, {name for name in made if _unedited(folder / name, made[name])} | set(named))
            _write_all(aside, folder, {**named, MANIFEST: _manifest(marks)})
            _swap(folder, aside)
        except BaseException:
            shutil.rmtree(aside, ignore_errors=True)
            raise
    return Built(folder, kept)


def manifest(folder: Path) -> dict[str, str]:
    """The hash of every file the last build made there; empty where none can be read."""
    try:
        record = json.loads((folder / MANIFEST).read_bytes())
        made = record["files"] if record["format"] == _FORMAT else {}
        return {str(name): str(mark) for name, mark in made.items() if _inside(str(name))}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


def _inside(name: str) -> bool:
    return not Path(name).is_absolute() and ".." not in Path(name).parts and name not in ("", MANIFEST)


def _manifest(made: Mapping[str, str]) -> bytes:
    return (json.dumps({"format": _FORMAT, "files": made}, indent=1, ensure_ascii=False) + "\n").encode()


def _around_edits(
    folder: Path, files: Mapping[str, Content], made: Mapping[str, str], merged: Collection[str]
) -> tuple[dict[str, Content], tuple[Kept, ...]]:
    """What to write where: each file to its place, or beside it where what stands there is not what a build made."""
    named: dict[str, Content] = {}
    kept = []
    for name, data in sorted(files.items()):
        place = name
        while name not in merged and _edited(folder / place, (made.get(place), _digest_of(data))):
            place = str(Path(place).with_suffix(f".new{Path(place).suffix}"))
        named[place] = data
        if place != name:
            kept.append(Kept(name, place))
    return named, tuple(kept)


def _edited(path: Path, known: tuple[str | None, ...]) -> bool:
    return os.path.lexists(path) and not (path.is_file() and _digest_of(path) in known)


def _carry_over(folder: Path, aside: Path, ours: set[str]) -> None:
    """What no build made, and what a build made and the user edited, comes along."""
    for path in sorted(folder.rglob("*")) if folder.exists() else ():
        name = path.relative_to(folder).as_posix()
        to = aside / name
        if name == MANIFEST or name in ours:
            continue
        if path.is_symlink():
            to.parent.mkdir(parents=True, exist_ok=True)
            to.symlink_to(os.readlink(path))
        elif path.is_dir():
            to.mkdir(parents=True, exist_ok=True)
            shutil.copystat(path, to)
        else:
            to.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(path, to)


def _unedited(path: Path, mark: str) -> bool:
    return path.is_file() and _digest_of(path) == mark


def _write_all(aside: Path, folder: Path, files: Mapping[str, Content]) -> None:
    for name, data in files.items():
        path, there = aside / name, folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        with open(path, "wb") as file:
            if isinstance(data, Path):
                with open(data, "rb") as source:
                    shutil.copyfileobj(source, file, 1 << 20)
                file.flush()
                os.fsync(file.fileno())
            else:
                _fill(file.fileno(), data)
        if there.is_file():
            os.chmod(path, stat.S_IMODE(there.stat().st_mode))


def _swap(folder: Path, aside: Path) -> None:
    """Puts the new folder in the place of the old one: in one move where the system can, else in two.

    Between the two, `_clear` of the next build knows how to go back.
    """
    _settle(aside)
    old = folder.parent / f".{folder.name}.old"
    if folder.exists() and not _exchange(folder, aside):
        os.rename(folder, old)
    if old.exists() or not folder.exists():
        os.rename(aside, folder)
    _settle(folder.parent)
    for gone in (aside, old):
        shutil.rmtree(gone, ignore_errors=True)


def _exchange(one: Path, other: Path) -> bool:
    """Swaps two names in a single step (Linux, renameat2 with RENAME_EXCHANGE); False where that cannot be done."""
    import ctypes

    rename = getattr(ctypes.CDLL(None), "renameat2", None)
    if rename is None:
        return False
    here = -100  # AT_FDCWD: names count from the working folder
    return bool(rename(here, os.fsencode(one), here, os.fsencode(other), 2) == 0)


def _clear(folder: Path) -> None:
    """Mends what a build that was killed left behind."""
    aside, old = (folder.parent / f".{folder.name}.{end}" for end in ("part", "old"))
    if old.exists():
        if folder.exists():
            shutil.rmtree(old)
        else:
            os.rename(old, folder)
    if aside.exists():
        shutil.rmtree(aside)


@contextmanager
def _lock(folder: Path) -> Iterator[None]:
    """One build a folder at a time. The system drops the lock with its process, so none is ever stale."""
    import fcntl

    path = folder.parent / f".{folder.name}.lock"
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as busy:
            raise Busy(11, "another build is writing this folder", str(folder)) from busy
        if not path.exists() or os.fstat(handle).st_ino != path.stat().st_ino:  # its owner has just let it go
            raise Busy(11, "another build has only now left this folder", str(folder))
        try:
            yield
        finally:
            with suppress(OSError):
                os.unlink(path)
    finally:
        os.close(handle)


def _fill(handle: int, data: bytes) -> None:
    view = memoryview(data)
    while view:
        view = view[os.write(handle, view) :]
    os.fsync(handle)


def _settle(folder: Path) -> None:
    """Makes the names in a folder last, as `fsync` does for what is in a file."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _mode(folder: Path) -> int:
    return stat.S_IMODE(folder.stat().st_mode) if folder.exists() else 0o777 & ~_umask()


def _umask() -> int:
    mask = os.umask(0o077)
    os.umask(mask)
    return mask
