"""Every ready rig's captions as files, read back by parsers of others: each step's come with it, and none overlap."""

from importlib.resources import files
from io import StringIO
from itertools import pairwise
from pathlib import Path

import av
import pytest
import webvtt
from filmed import act

from gantline.film import Storyboard, board, captions
from gantline.output import captions as written

NAMES = sorted(path.name.removesuffix(".rig") for path in files("gantline").joinpath("shelf").iterdir()
               if path.name.endswith(".rig"))  # fmt: skip
SOON = 0.1  # s after its step that a caption may come
Times = list[tuple[float, float]]


def vtt_times(text: str) -> Times:
    read = webvtt.from_buffer(StringIO(text))
    return [tuple(time.in_milliseconds() / 1000 for time in (cue.start_time, cue.end_time)) for cue in read]


def srt_times(text: str, folder: Path) -> Times:
    """As FFmpeg reads them."""
    path = folder / "captions.srt"
    path.write_text(text, encoding="utf-8")
    with av.open(str(path)) as file:
        packets = [packet for packet in file.demux() if packet.size]
    base = [float(packet.time_base) for packet in packets]
    return [(p.pts * unit, (p.pts + p.duration) * unit) for p, unit in zip(packets, base, strict=True)]


def faults(story: Storyboard, times: Times) -> list[str]:
    """What is wrong with captions from a file: steps without one at their start, and captions that overlap."""
    starts = [start for start, _ in times]
    late = [
        shot.id for shot in story.shots
        if shot.written and not any(0 <= start - shot.start + 0.001 <= SOON for start in starts)
    ]  # fmt: skip
    return late + [f"two at {start:.3f} s" for (_, stop), (start, _) in pairwise(times) if start < stop - 1e-6]


@pytest.mark.parametrize("name", NAMES)
def test_captions_of_every_ready_rig_come_with_their_steps_and_never_overlap(name: str, tmp_path: Path) -> None:
    story = board([act(name)])
    cues, problems = captions(story)
    assert problems == ()
    for times in (vtt_times(written.vtt(cues, 83.5)), srt_times(written.srt(cues), tmp_path)):
        assert len(times) == len(cues)
        assert faults(story, times) == []


def test_late_and_overlapping_captions_would_be_found_out() -> None:
    """The test above can fail."""
    story = board([act("runner-up")])
    times = vtt_times(written.vtt(captions(story)[0], 83.5))
    later = [(start + 0.15, stop + 0.15) for start, stop in times]
    assert len(faults(story, later)) == sum(bool(shot.written) for shot in story.shots)
    assert faults(story, [*times[:3], (times[2][0], times[2][1] + 9), *times[3:]])
