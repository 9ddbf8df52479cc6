"""How the loft is started: what is opened, where it listens, who may come in, and how the browser learns of it."""

import errno
import os
import socket
import tempfile
import webbrowser
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from msgspec import Struct

from .guard import Keys, loopback, new_token

PORT = 8347  # the same at every start, so that what a browser holds for the page is found again
NEIGHBOURS = 20  # ports tried after it, where no port was asked for


class Opened(Struct, frozen=True):
    """What is asked: the file or folder, and where to listen. Without `listen` only this machine is served."""

    where: str
    port: int | None = None
    listen: str | None = None
    names: tuple[str, ...] = ()
    token: str | None = None
    browser: bool = True


class NotStarted(Exception):
    """It cannot be started: `says` is what is wrong, `do` what to do about it."""

    def __init__(self, says: str, do: str) -> None:
        super().__init__(says)
        self.says = says
        self.do = do


def start(asked: Opened, say: Callable[[str], None]) -> None:
    """Serves until it is stopped. `say` is given the address first, then how to stop. Raises NotStarted."""
    from .serving import Place, serve  # needs the extra: ImportError is the caller's to explain

    folder, file = _place(asked.where)
    with _bind(asked.listen or "127.0.0.1", asked.port) as bound:
        keys = _keys(asked, bound.getsockname()[1])
        address = f"{keys.origins[0]}/?token={keys.token}"
        with _note(address, asked.browser) as show:

            def ready() -> None:
                say(address)
                say("Ctrl+C stops it." + (_OPEN if asked.listen else ""))
                show()

            try:
                serve(Place(bound, folder, file, keys), ready)
            except OSError as error:
                says = f"cannot serve {folder}: {(error.strerror or 'the system refused').lower()}"
                raise NotStarted(says, "Name a folder that you may read and write.") from error


_OPEN = " Everyone who has this address can read and change the rigs of this folder."


def _place(where: str) -> tuple[Path, str | None]:
    """The folder to serve, and the file in it to open first."""
    path = Path(os.path.realpath(where))
    if path.is_dir():
        return path, None
    if not path.parent.is_dir() or (path.exists() and not path.is_file()):
        raise NotStarted(f"there is no folder {where}", "Name a folder, or a .rig file in one.")
    if path.suffix != ".rig":
        raise NotStarted(f"{where} is no rig and no folder", "Name a folder, or a file that ends in .rig.")
    return path.parent, path.name


def _bind(address: str, port: int | None) -> socket.socket:
    """A socket on the port asked for; where none was, on the usual one or the next that is free."""
    wanted = (PORT + n for n in range(NEIGHBOURS)) if port is None else (port,)
    for number in wanted:
        try:
            return _bound(address, number)
        except (OSError, OverflowError) as error:
            last = error
    if isinstance(last, OverflowError):
        raise NotStarted(f"there is no port {port}", "Choose one from 1024 to 65535.") from last
    if last.errno == errno.EADDRINUSE:
        raise NotStarted(f"port {port or PORT} is taken", "Choose another with --port, or stop what uses it.") from last
    raise NotStarted(f"cannot listen on {address}: {last.strerror}", "Give an address of this machine.") from last


def _bound(address: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    # named TCP, so that asyncio sends small answers at once instead of waiting to fill a packet (40 ms an answer)
    bound = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    try:
        bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        bound.bind((address, port))
        bound.listen(512)
    except BaseException:
        bound.close()
        raise
    return bound


def _keys(asked: Opened, port: int) -> Keys:
    """The addresses the server goes by, and its token."""
    own = () if asked.listen in (None, *_ANY) else (f"http://{_host(asked.listen)}:{port}",)
    named = tuple(name.rstrip("/").lower() for name in asked.names)
    if asked.listen in _ANY and not named:
        raise NotStarted(
            f"--listen {asked.listen} means every address of this machine, and none that people could type",
            f"Say with --name what they will type, as in --name http://192.0.2.7:{port}",
        )
    if any(not name.startswith(("http://", "https://")) for name in named):
        raise NotStarted("a --name begins with http:// or https://", "Write it as people will type it in a browser.")
    token = _token(asked.token) if asked.token else new_token()
    cookie = "gantline" if named else f"gantline-{port}"  # browsers do not keep cookies apart by port
    return Keys((*named, *own, *loopback(port)), token, cookie)


_ANY = ("0.0.0.0", "::")


def _host(address: str) -> str:
    return f"[{address}]" if ":" in address else address


def _token(file: str) -> str:
    """The token several servers share. It is long, and nobody else may read its file."""
    try:
        mode, token = os.stat(file).st_mode, Path(file).read_text(encoding="ascii").strip()
    except (OSError, ValueError) as error:
        raise NotStarted(f"cannot read the token in {file}", "It is one line of letters and digits.") from error
    if mode & 0o077:
        raise NotStarted(f"others may read {file}", f"Keep it to yourself: chmod 600 {file}")
    if len(token) < 32 or not token.isascii() or not token.replace("-", "").replace("_", "").isalnum():
        raise NotStarted(f"the token in {file} is no good one", "Write 32 letters and digits or more, drawn by chance.")
    return token


@contextmanager
def _note(address: str, opened: bool) -> Iterator[Callable[[], None]]:
    """Hands the address to the browser in a file that only its owner may read: never as a word of a command, which
    every user of a machine can see. The file goes when the loft stops."""
    if not opened:
        yield lambda: None
        return
    with tempfile.TemporaryDirectory(prefix="gantline-", ignore_cleanup_errors=True) as folder:
        file = Path(folder, "open.html")
        file.touch(0o600)
        file.write_text(f'<!DOCTYPE html><meta http-equiv="refresh" content="0;url={address}">', encoding="ascii")

        def show() -> None:
            with suppress(webbrowser.Error):
                webbrowser.open(file.as_uri())

        yield show
