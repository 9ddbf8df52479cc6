"""The shelf for the page: every ready rig with what it teaches, its words, and a small figure of it."""

from functools import cache
from importlib.resources import files
from typing import Any

from gantline import api

from .asked import Refused, Thumbnail

_SAID = {"# Teaches: ": "teaches", "# Wrong ideas: ": "wrong_ideas"}


@cache
def listed() -> tuple[dict[str, Any], ...]:
    """Name, title, what it teaches, which wrong ideas it shows, and the text, of every ready rig."""
    return tuple(_entry(name) for name in _names())


def thumbnail(asked: Thumbnail) -> str:
    """The bare figure of a ready rig as SVG. Raises Refused for a rig that is none."""
    from gantline.figure import NotDrawable, draw  # a worker's: the server itself draws nothing
    from gantline.output.svg import write

    if asked.name not in _names():
        raise Refused(404, "There is no such rig on the shelf.")
    rig, _ = api.read(_text(asked.name))
    assert rig is not None
    try:
        return write(draw(rig, api.solve(rig).answer, "bare", caption=False), asked.theme)
    except NotDrawable as reason:
        raise Refused(404, reason.sentence) from None


def gains() -> dict[str, str]:
    """What every ready rig gains, by its name: `gain 4`, the pull of one in letters, or how it stands."""
    from .answering import gain  # a worker's, like the figures

    solved = {name: api.read(_text(name))[0] for name in _names()}
    return {name: gain(rig, api.solve(rig).answer) for name, rig in solved.items() if rig}


def _entry(name: str) -> dict[str, Any]:
    text = _text(name)
    said = {
        key: line[len(head) :] for line in text.splitlines() for head, key in _SAID.items() if line.startswith(head)
    }
    title = next((line.split(None, 1)[1].strip() for line in text.splitlines() if line.startswith("title")), name)
    return {"name": name, "title": title, "teaches": "", "wrong_ideas": "", **said, "text": text}


@cache
def _names() -> tuple[str, ...]:
    shelf = files("gantline").joinpath("shelf")
    return tuple(sorted(e.name.removesuffix(".rig") for e in shelf.iterdir() if e.name.endswith(".rig")))


def _text(name: str) -> str:
    return files("gantline").joinpath(f"shelf/{name}.rig").read_text(encoding="utf-8")
