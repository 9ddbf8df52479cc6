"""The files the page is made of: its own, and the faces and the editor built beside them. Nothing else is served."""

import gzip
import hashlib
from collections.abc import Callable
from functools import cache
from importlib.resources import files
from threading import Lock

from msgspec import Struct

from .joining import script, sheet

KINDS = {
    "html": "text/html; charset=utf-8", "css": "text/css; charset=utf-8", "js": "text/javascript; charset=utf-8",
    "woff2": "font/woff2",
}  # fmt: skip
PAGE, ASSETS = "page", "assets"
FOLDERS = {PAGE: "loft/page", ASSETS: "assets"}
START = "loft.html"
FIRST = ((PAGE, "loft.css"), (PAGE, "loft.js"), (ASSETS, "codemirror.js"))  # in the order a browser asks for them
BEGUN = '<script type="application/json" id="begun">'  # where the first page says what there is

_JOIN = {"css": sheet, "js": script}
_one_at_a_time = Lock()


class Piece(Struct, frozen=True):
    """A file as it is sent: its bytes, its kind, its mark, and itself made small where that helps."""

    data: bytes
    kind: str
    etag: str
    small: bytes | None


def piece(folder: str, name: str) -> Piece | None:
    """A file of `page` or `assets`, None where there is none; made once, scripts and sheets with all they import."""
    with _one_at_a_time:
        return _piece(folder, name) if name in _names(folder) else None


def read_all() -> None:
    """Makes what every browser asks for first, so that it need not wait."""
    for folder, name in FIRST:
        piece(folder, name)


def begun(record: bytes) -> Piece:
    """The first page, with what there is (JSON) in it: it need not be asked for."""
    head, mark, rest = source(START).partition(BEGUN)
    return _made("html", (head + mark).encode() + record.replace(b"<", rb"\u003c") + rest.encode())


def source(name: str) -> str:
    """The text of a file of the page as it is written, or made of what the lessons have in them."""
    if made := _MADE.get(name):
        return made()
    return files("gantline").joinpath(FOLDERS[PAGE], name).read_text(encoding="utf-8")


def _rules() -> str:
    from gantline.output.plates import rules

    return rules()


def _hauling() -> str:
    from gantline.output.document import packaged

    return packaged("hauling.js") + "\nexport { Hauling, measured };\n"


_MADE: dict[str, Callable[[], str]] = {"plates.css": _rules, "hauling.js": _hauling}


@cache
def _names(folder: str) -> frozenset[str]:
    found = [entry.name for entry in files("gantline").joinpath(FOLDERS[folder]).iterdir() if entry.is_file()]
    own = [name for name in found if name.rpartition(".")[2] in KINDS]
    return frozenset([*own, *_MADE] if folder == PAGE else own)


@cache
def _piece(folder: str, name: str) -> Piece:
    ending = name.rpartition(".")[2]
    if folder == PAGE and ending in _JOIN:
        return _made(ending, _JOIN[ending](name, source).encode())
    return _made(ending, files("gantline").joinpath(FOLDERS[folder], name).read_bytes())


def _made(ending: str, data: bytes) -> Piece:
    small = None if ending == "woff2" else gzip.compress(data, 6, mtime=0)
    return Piece(data, KINDS[ending], f'"{hashlib.sha256(data).hexdigest()[:32]}"', small)
