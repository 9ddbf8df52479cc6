"""The words beside a film, as text: captions in WebVTT and SRT, chapters, descriptions, and the transcript."""

import re
from collections.abc import Sequence

from gantline.film import Cue, Storyboard, chapters, new_in

_TAG = re.compile(r"<(?=[/!a-zA-Z])")  # what a player of SRT would take for the beginning of a tag


def vtt(cues: Sequence[Cue], line: float | None = None) -> str:
    """WebVTT. `line` is how far down the picture the text begins, in per cent, so that it covers no figure."""
    setting = "" if line is None else f" line:{line:g}%"
    blocks = [
        "\n".join([_name(cue.name), f"{_clock(cue.start, '.')} --> {_clock(cue.stop, '.')}{setting}",
                   *map(_escaped, cue.lines)])
        for cue in cues
    ]  # fmt: skip
    return "\n\n".join(["WEBVTT", *blocks]) + "\n"


def srt(cues: Sequence[Cue]) -> str:
    """SubRip. It knows no escapes: what a player could take for markup is written with other signs."""
    blocks = [
        "\n".join([str(number), f"{_clock(cue.start, ',')} --> {_clock(cue.stop, ',')}", *map(_harmless, cue.lines)])
        for number, cue in enumerate(cues, 1)
    ]
    return "\n\n".join(blocks) + "\n"


def transcript(board: Storyboard, pictures: Sequence[str], voice: str = "") -> str:
    """All that is said and shown, to read; `pictures` shot by shot. `voice` says whose voice it is, where needed."""
    blocks = [f"{board.title}\n{'=' * len(board.title)}", *([voice] if voice else [])]
    for shot, chapter, picture in zip(board.shots, chapters(board), new_in(board, pictures), strict=True):
        shown = f"[Picture: {picture}]" if picture else ""
        head = f"{_minutes(shot.start)}  {chapter.lines[0]}"
        blocks.append("\n".join(line for line in (head, shot.says, shown) if line))
    return "\n\n".join(blocks) + "\n"


def _clock(seconds: float, point: str) -> str:
    minutes, milliseconds = divmod(round(1000 * seconds), 60_000)
    return f"{minutes // 60:02}:{minutes % 60:02}:{milliseconds // 1000:02}{point}{milliseconds % 1000:03}"


def _minutes(seconds: float) -> str:
    return f"{int(seconds) // 60}:{int(seconds) % 60:02}"


def _escaped(line: str) -> str:
    return line.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _name(name: str) -> str:
    return " ".join(name.split()).replace("-->", "→")


def _harmless(line: str) -> str:
    return _TAG.sub("‹", line.replace("-->", "→")).replace("{\\", "(\\")
