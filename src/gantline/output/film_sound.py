"""Sound of a film: any audio file as one plain track, and that track as AAC or Opus."""

import io
from itertools import chain
from pathlib import Path

from msgspec import Struct

RATE = 48_000  # samples a second


class Sound(Struct, frozen=True):
    """One channel of sound: 16-bit samples, little end first, RATE a second."""

    pcm: bytes

    @property
    def seconds(self) -> float:
        return len(self.pcm) / 2 / RATE


def read(path: Path) -> Sound:
    """The first sound track of a file (WAV, MP3, M4A, WebM and more), mixed to one channel.

    Raises OSError where it cannot be opened, ValueError where it holds no sound, ImportError without PyAV.
    """
    import av

    path.stat()  # a missing file is an OSError with its name
    try:
        with av.open(str(path)) as file:
            if not file.streams.audio:
                raise ValueError(f"{path.name} holds no sound")
            resampler = av.AudioResampler(format="s16", layout="mono", rate=RATE)
            whole = io.BytesIO()
            for frame in chain(file.decode(file.streams.audio[0]), [None]):
                for piece in resampler.resample(frame):
                    whole.write(memoryview(piece.planes[0])[: piece.samples * 2])
    except av.error.FFmpegError as error:
        raise ValueError(f"{path.name} is no sound that can be read") from error
    return Sound(whole.getvalue())
