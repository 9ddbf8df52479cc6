"""Frames of a film as pixels: each picture drawn once, held as long as it stands, and only what moves drawn anew."""

from collections import OrderedDict
from typing import TYPE_CHECKING, Any

from gantline.film import Box, Moment, Picture

from . import film_svg, png

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Pixels = NDArray[np.uint8]  # planes of YUV 4:2:0 one under the other: height * 3/2 rows of the frame's width

SHORT = 1080  # px of the short side that pictures are made for
ROWS = 64  # reckoned at a time on the way from one frame to another: they stay in the processor's cache
KEPT = 3  # pictures kept: what a move leads from, what it leads to, and one more


class Painter:
    """Paints moments in one theme and size; one for each thread. Raises ImportError without PyAV and pyvips."""

    def __init__(self, theme: str, size: int) -> None:
        png.use_packaged_fonts()
        import pyvips

        pyvips.cache_set_max(0)  # no frame is drawn twice, so none is kept by the library
        self.theme, self.times = theme, size / SHORT
        self._kept: OrderedDict[int, tuple[Picture, Pixels]] = OrderedDict()
        self._step: tuple[int, int, _Passing] | None = None

    def frame(self, moment: Moment) -> "Pixels":
        """The frame of a moment. The next one of the same move is written over it."""
        if moment.toward is not None:
            return self._between(moment.picture, moment.toward).at(moment.share)
        return self.whole(moment.picture)

    def whole(self, picture: Picture) -> "Pixels":
        """A picture: the last one, with what differs drawn anew."""
        found = self._kept.get(id(picture))
        if found is None:
            found = self._kept[id(picture)] = picture, self._after_last(picture)
            while len(self._kept) > KEPT:
                self._kept.popitem(last=False)
        self._kept.move_to_end(id(picture))
        return found[1]

    def _after_last(self, picture: Picture) -> "Pixels":
        last = next(reversed(self._kept.values()), None)
        zone = last[0].changed(picture) if last else None
        if last is None or zone is None:
            return self._draw(picture, None)
        left, top, right, bottom = (2 * round(edge * self.times / 2) for edge in zone)
        made = last[1].copy()
        if right > left:
            exact = (left / self.times, top / self.times, right / self.times, bottom / self.times)
            _paste(made, self._draw(picture, exact), left, top)
        return made

    def _draw(self, picture: Picture, zone: Box | None) -> "Pixels":
        import av
        import numpy as np
        import pyvips

        drawn = film_svg.write(picture, self.theme, zone).encode("utf-8")
        image = pyvips.Image.svgload_buffer(drawn, scale=self.times, unlimited=True).extract_band(0, n=3)
        pixels: Any = np.frombuffer(image.write_to_memory(), np.uint8).reshape(image.height, image.width, 3)
        frame = av.VideoFrame.from_numpy_buffer(pixels, format="rgb24")
        return np.asarray(frame.reformat(format="yuv420p", dst_colorspace="ITU709").to_ndarray(), np.uint8)

    def _between(self, one: Picture, other: Picture) -> "_Passing":
        if self._step is None or self._step[:2] != (id(one), id(other)):
            self._step = None  # the way before this one goes first
            self._step = id(one), id(other), _Passing(self.whole(one), self.whole(other))
        return self._step[2]


class _Passing:
    """The way from one frame to another, all pixels alike; only what differs is reckoned, a few rows at a time."""

    def __init__(self, one: "Pixels", other: "Pixels") -> None:
        import numpy as np

        rows, columns = (np.flatnonzero((one != other).any(axis=axis)) for axis in (1, 0))
        part = np.s_[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1] if rows.size else np.s_[0:0, 0:0]
        self.made = one.copy()
        self.parts = one[part], other[part], self.made[part]
        self.room = np.empty((ROWS, self.parts[0].shape[1]), np.int16)

    def at(self, share: float) -> "Pixels":
        import numpy as np

        weight = np.int16(round(share * 64))
        for top in range(0, len(self.parts[0]), ROWS):
            one, other, made = (part[top : top + ROWS] for part in self.parts)
            step = self.room[: len(one)]
            np.subtract(other, one, out=step, dtype=np.int16)
            np.multiply(step, weight, out=step)
            np.right_shift(step, 6, out=step)
            np.add(step, one, out=step)
            made[:] = step
        return self.made


def _paste(base: "Pixels", patch: "Pixels", left: int, top: int) -> None:
    """Puts planes of a part into those of the whole, at an even place."""
    for whole, part, half in zip(_planes(base), _planes(patch), (1, 2, 2), strict=True):
        x, y = left // half, top // half
        whole[y : y + part.shape[0], x : x + part.shape[1]] = part


def _planes(pixels: "Pixels") -> "tuple[Pixels, Pixels, Pixels]":
    """Views of brightness and of the two colour planes."""
    rows, wide = pixels.shape
    high = rows * 2 // 3
    colour = pixels[high:].reshape(2, high // 2, wide // 2)
    return pixels[:high], colour[0], colour[1]
