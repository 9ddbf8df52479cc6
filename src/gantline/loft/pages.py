"""The files the page is made of: its own, and the faces and the editor built beside them. Nothing else is served."""

import gzip
import hashlib
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from msgspec import Struct

KINDS = {
    "html": "text/html; charset=utf-8", "css": "text/css; charset=utf-8", "js": "text/javascript; charset=utf-8",
    "woff2": "font/woff2",
}  # fmt: skip
PAGE, ASSETS = "page", "assets"
FOLDERS = {PAGE: "loft/page", ASSETS: "assets"}
START = "loft.html"
PLATE_RULES = "plates.css"
HAULING = "hauling.js"  # the one the lessons have in them, here as a module


class Piece(Struct, frozen=True):
    """A file as it is sent: its bytes, its kind, its mark, and itself made small where that helps."""

    data: bytes
    kind: str
    etag: str
    small: bytes | None


@cache
def pieces(folder: str) -> dict[str, Piece]:
    """Every file of `page` or `assets` by its name, read once."""
    from gantline.output.document import packaged
    from gantline.output.plates import rules  # with all that draws: not before the address is there

    made = {PLATE_RULES: rules(), HAULING: packaged(HAULING) + "\nexport { Hauling };\n"} if folder == PAGE else {}
    made_pieces = {name: _piece(name, text.encode()) for name, text in made.items()}
    return made_pieces | {entry.name: _piece(entry.name, entry.read_bytes()) for entry in _in(FOLDERS[folder])}


def read_all() -> None:
    """Reads every file of the page, so that the first to ask need not wait."""
    for folder in FOLDERS:
        pieces(folder)


def _in(path: str) -> list[Traversable]:
    folder = files("gantline").joinpath(path)
    return [entry for entry in folder.iterdir() if entry.is_file() and entry.name.rpartition(".")[2] in KINDS]


def _piece(name: str, data: bytes) -> Piece:
    ending = name.rpartition(".")[2]
    small = None if ending == "woff2" else gzip.compress(data, 6, mtime=0)
    return Piece(data, KINDS[ending], f'"{hashlib.sha256(data).hexdigest()[:32]}"', small)
