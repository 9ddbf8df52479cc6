"""A shot as a piece of video that stands for itself: drawn and encoded once, kept by what is in it, used again."""

import hashlib
import os
from collections.abc import Iterator
from contextlib import ExitStack
from fractions import Fraction
from functools import cache
from importlib.resources import files as package_files
from pathlib import Path
from queue import Queue
from threading import Thread
from typing import TYPE_CHECKING, Any

import msgspec
from msgspec import Struct

from gantline.film import FORMATS, Moment, Take

if TYPE_CHECKING:
    from .film_paint import Painter

# Settings of the encoders: one thread each, so a shot gives the same bytes again; none looks ahead: frames that wait
# are memory, and drawings gain little by it.
CODECS: dict[str, tuple[str, dict[str, str]]] = {
    "mp4": ("libx264", {"preset": "veryfast", "crf": "20", "tune": "animation",
                        "x264-params": "keyint=300:rc-lookahead=0:mbtree=0:bframes=0:ref=1"}),
    "webm": ("libvpx-vp9", {"deadline": "realtime", "cpu-used": "8", "crf": "32", "b": "0", "tune-content": "screen",
                            "lag-in-frames": "0", "g": "300"}),
}  # fmt: skip
BT709 = 1  # in the tables of H.264 and VP9
EXACT = {"fflags": "+bitexact"}  # no date, no chance number: the same frames are the same file
AHEAD = 2  # frames drawn before they are encoded
_DRAWS = {
    "figure": ("hauling.py", "kinematics.py"),
    "film": ("aside.py", "composing.py", "on_rig.py", "strip.py", "verbs.py"),
    "output": ("film_paint.py", "film_pieces.py", "film_svg.py", "plate_style.py", "svg.py"),
}


class Look(Struct, frozen=True):
    """How a film is made: its format, px on its short side, theme, frames a second, and the kinds of file."""

    format: str = "level"
    size: int = 1080
    theme: str = "light"
    rate: int = 30
    kinds: tuple[str, ...] = ("mp4", "webm")

    @property
    def frame(self) -> tuple[int, int]:
        """Width and height in px."""
        shape = FORMATS[self.format][0]
        short = min(shape.width, shape.height)
        return shape.width * self.size // short, shape.height * self.size // short


class Piece(Struct, frozen=True):
    """A shot to encode: its first frame in the film, how many it has, and its name among the kept ones."""

    take: Take
    first: int
    count: int
    key: str


def pieces(takes: tuple[Take, ...], look: Look) -> tuple[Piece, ...]:
    """The pieces of a film, without a gap."""
    found = []
    for take in takes:
        first, after = (round(at * look.rate) for at in (take.shot.start, take.shot.end))
        found.append(Piece(take, first, after - first, _key(take, after - first, look)))
    return tuple(found)


def _key(take: Take, count: int, look: Look) -> str:
    """What the frames of a shot follow from: its pictures, its moves, the look, and the program that draws."""
    seen = [take.before, *(change.after for change in take.changes)]
    halfway = [take.at((move.start + move.end) / 2).picture for move in take.shot.moves]
    layers = [picture.layers for picture in (*seen, *halfway)]
    settings = [CODECS[kind] for kind in look.kinds]
    record = msgspec.msgpack.encode((layers, take.shot.moves, count, look, settings, _program()))
    return hashlib.sha256(record).hexdigest()[:32]


@cache
def _program() -> str:
    """The program as far as it draws what lies between the pictures, so that a newer one draws anew."""
    whole = hashlib.sha256()
    for folder, names in _DRAWS.items():
        for name in names:
            whole.update(package_files("gantline").joinpath(folder, name).read_bytes())
    return whole.hexdigest()


def held(take: Take, count: int, rate: int) -> Iterator[tuple[Moment, int]]:
    """The moments of a shot, and for how many frames each stands."""
    now, times = take.at(0.0), 1
    for number in range(1, count):
        after = take.at(number / rate)
        if after.picture is now.picture and after.toward is now.toward and after.share == now.share:
            times += 1
        else:
            yield now, times
            now, times = after, 1
    yield now, times


def encode(piece: Piece, look: Look, painter: "Painter", folder: Path) -> None:
    """Draws and encodes a piece into `folder`, one file a kind, each there whole or not at all."""
    asides = {kind: folder / f".{piece.key}.{os.getpid()}.{kind}" for kind in look.kinds}
    try:
        with ExitStack() as open_writers:
            writers = [open_writers.enter_context(_Writer(path, kind, look)) for kind, path in asides.items()]
            for moment, times in held(piece.take, piece.count, look.rate):
                pixels = painter.frame(moment).copy()  # the painter goes on while encoders are still at this one
                for writer in writers:
                    writer.frames.put((pixels, times))
        for kind, path in asides.items():
            os.replace(path, folder / f"{piece.key}.{kind}")
    finally:
        for path in asides.values():
            path.unlink(missing_ok=True)


class _Writer:
    """One encoder and its file, in a thread of its own: it takes frames from `frames`, each with how long it stands."""

    def __init__(self, path: Path, kind: str, look: Look) -> None:
        self.path, self.kind, self.look = path, kind, look
        self.frames: Queue[tuple[Any, int] | None] = Queue(AHEAD)
        self.failed: BaseException | None = None
        self.over = False
        self.thread = Thread(target=self._run)

    def __enter__(self) -> "_Writer":
        self.thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.frames.put(None)
        self.thread.join()
        if self.failed is not None:
            raise self.failed

    def _run(self) -> None:
        try:
            self._write()
        except BaseException as error:
            self.failed = error
            for _ in self._given():  # whoever draws must not wait for ever
                pass

    def _given(self) -> Iterator[tuple[Any, int]]:
        """The frames up to the last; none where that has come already."""
        while not self.over and (given := self.frames.get()) is not None:
            yield given
        self.over = True

    def _write(self) -> None:
        import av

        with av.open(str(self.path), "w", format=self.kind, options=EXACT) as file:
            stream, at = _stream(file, self.kind, self.look), 0
            for pixels, times in self._given():
                frame: Any = av.VideoFrame.from_ndarray(pixels, format="yuv420p")
                frame.time_base = stream.codec_context.time_base
                for at in range(at, at + times):  # noqa: B020 - goes on where the last frame ended
                    frame.pts = at
                    file.mux(stream.encode(frame))
                at += 1
            file.mux(stream.encode(None))


def _stream(file: Any, kind: str, look: Look) -> Any:
    codec, options = CODECS[kind]
    stream = file.add_stream(codec, rate=look.rate, options=options)
    stream.width, stream.height = look.frame
    stream.pix_fmt = "yuv420p"
    context = stream.codec_context
    context.thread_count, context.time_base = 1, Fraction(1, look.rate)
    context.colorspace = context.color_primaries = context.color_trc = context.color_range = BT709
    return stream
