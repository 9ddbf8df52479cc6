"""Pieces of video, a voice, captions and chapters as one file."""

import heapq
import struct
from collections.abc import Iterator, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any

from gantline.film import Cue

from .film_pieces import EXACT, Piece
from .film_sound import RATE

MILLISECONDS = Fraction(1, 1000)
SOUND = {"mp4": ("aac", "fltp"), "webm": ("libopus", "flt")}
LEAD = 0.25  # s of sound that may wait for its picture in the file


def write(
    path: Path, kind: str, pieces: Sequence[Piece], folder: Path, rate: int, title: str, cues: Sequence[Cue],
    chapters: Sequence[Cue], sound: Path | None,
) -> None:  # fmt: skip
    """A film of this kind ("mp4" or "webm") from the pieces kept in `folder`. Captions go into an MP4 only; players
    of WebM take them from the file beside it."""
    import av

    with av.open(str(path), "w", format=kind, options=_options(kind)) as out:
        out.metadata["title"] = title
        with av.open(str(folder / f"{pieces[0].key}.{kind}")) as first:
            video: Any = out.add_stream_from_template(first.streams.video[0])
        audio: Any = out.add_stream(SOUND[kind][0], rate=RATE, layout="mono") if sound else None
        text: Any = out.add_mux_stream("mov_text", time_base=MILLISECONDS) if kind == "mp4" and cues else None
        out.set_chapters(_chapters(chapters))
        out.start_encoding()
        sources = [_video(video, kind, pieces, folder, rate)]
        if sound:
            sources.append(_audio(audio, sound, SOUND[kind][1]))
        if text:
            sources.append(_text(text, cues, pieces, rate))
        for _, _, packet in heapq.merge(*(_numbered(n, source) for n, source in enumerate(sources))):
            out.mux(packet)


def _options(kind: str) -> dict[str, str]:
    own = {"movflags": "+faststart"} if kind == "mp4" else {"cues_to_front": "1"}
    return {**own, **EXACT}


def _numbered(source: int, packets: Iterator[tuple[float, Any]]) -> Iterator[tuple[float, tuple[int, int], Any]]:
    for number, (time, packet) in enumerate(packets):
        yield time, (source, number), packet


def _chapters(chapters: Sequence[Cue]) -> list[Any]:
    return [
        {"id": number, "start": round(1000 * cue.start), "end": round(1000 * cue.stop), "time_base": MILLISECONDS,
         "metadata": {"title": " ".join(cue.lines)}}
        for number, cue in enumerate(chapters)
    ]  # fmt: skip


def _video(stream: Any, kind: str, pieces: Sequence[Piece], folder: Path, rate: int) -> Iterator[tuple[float, Any]]:
    """The packets of all pieces, each moved to where its piece begins."""
    import av

    for piece in pieces:
        with av.open(str(folder / f"{piece.key}.{kind}")) as file:
            for packet in file.demux(file.streams.video[0]):
                if packet.dts is not None:
                    yield _moved(packet, stream, Fraction(piece.first, rate))


def _moved(packet: Any, stream: Any, seconds: Fraction) -> tuple[float, Any]:
    shift = round(seconds / packet.time_base)
    packet.pts, packet.dts = packet.pts + shift, packet.dts + shift
    packet.stream = stream
    return float(packet.dts * packet.time_base), packet


def _audio(stream: Any, sound: Path, form: str) -> Iterator[tuple[float, Any]]:
    """The voice, decoded and encoded as it is needed."""
    import av

    resampler = av.AudioResampler(format=form, layout="mono", rate=RATE, frame_size=_frame_size(stream))
    at = 0
    with av.open(str(sound)) as file:
        for frame in _frames(file, resampler):
            frame.pts, frame.time_base = at, Fraction(1, RATE)
            at += frame.samples
            for packet in stream.encode(frame):
                yield float(packet.pts * packet.time_base) - LEAD, packet
    for packet in stream.encode(None):
        yield float(packet.pts * packet.time_base) - LEAD, packet


def _frame_size(stream: Any) -> int:
    return int(stream.codec_context.frame_size or 960)


def _frames(file: Any, resampler: Any) -> Iterator[Any]:
    for frame in file.decode(file.streams.audio[0]):
        frame.pts = None
        yield from resampler.resample(frame)
    yield from resampler.resample(None)


def _text(stream: Any, cues: Sequence[Cue], pieces: Sequence[Piece], rate: int) -> Iterator[tuple[float, Any]]:
    """Captions as timed text: each a length and its letters, and an empty one wherever nothing is said."""
    now = 0
    for cue in cues:
        start, stop = round(1000 * cue.start), round(1000 * cue.stop)
        if start > now:
            yield now / 1000, _timed(stream, now, start, "")
        yield start / 1000, _timed(stream, start, stop, "\n".join(cue.lines))
        now = stop
    end = round(1000 * (pieces[-1].first + pieces[-1].count) / rate)
    if end > now:
        yield now / 1000, _timed(stream, now, end, "")


def _timed(stream: Any, start: int, stop: int, words: str) -> Any:
    import av

    letters = words.encode("utf-8")
    packet = av.Packet(struct.pack(">H", len(letters)) + letters)
    packet.stream, packet.time_base = stream, MILLISECONDS
    packet.pts = packet.dts = start
    packet.duration = stop - start
    return packet
