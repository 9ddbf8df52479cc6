"""A scene as PNG, drawn with the packaged typefaces only, so that the same scene gives the same bytes."""

import os
import tempfile
from functools import cache
from importlib.resources import as_file, files
from pathlib import Path
from threading import Lock
from xml.sax.saxutils import escape

from gantline.figure import Scene

from . import svg
from .plate_style import THEMES

_FONTCONFIG = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>{fonts}</dir><cachedir>{cache}</cachedir></fontconfig>
"""


_ONCE = Lock()  # a cached function may run twice where two threads call it at once
_LETTER = b'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><text y="9">a</text></svg>'


def write(scene: Scene, theme: str = "light", width: int = 1200) -> bytes:
    """PNG bytes, `width` px wide. Raises ImportError, with what to install, where pyvips is missing."""
    use_packaged_fonts()
    import pyvips

    drawn = svg.write(scene, theme).encode("utf-8")
    image = pyvips.Image.svgload_buffer(drawn, scale=width / scene.width, unlimited=True)
    image = image.flatten(background=_ground(theme))
    return bytes(image.write_to_buffer(".png", compression=9, keep="none"))


def _ground(theme: str) -> list[int]:
    paper = THEMES[theme]["paper"]
    return [int(paper[n : n + 2], 16) for n in (1, 3, 5)]


def use_packaged_fonts() -> None:
    """Has fontconfig read the packaged fonts, once in a process. Raises ImportError, with what to install, as above.

    A process that has drawn letters before keeps the fonts it drew them with.
    """
    with _ONCE:
        _read_fonts()


@cache
def _read_fonts() -> None:
    """Draws one letter while the environment names our fonts; what the process starts later must not inherit them."""
    try:
        import pyvips
    except ImportError as missing:
        raise ImportError("PNG needs pyvips: pip install 'gantline[png]'", name=missing.name) from missing
    before = os.environ.get("FONTCONFIG_FILE")
    os.environ["FONTCONFIG_FILE"] = str(Path(_folder().name, "fonts.conf"))
    try:
        pyvips.Image.svgload_buffer(_LETTER).avg()
    finally:
        if before is None:
            del os.environ["FONTCONFIG_FILE"]
        else:
            os.environ["FONTCONFIG_FILE"] = before


@cache
def _folder() -> tempfile.TemporaryDirectory[str]:
    """A private folder with the configuration and fontconfig's own cache, gone when the process ends."""
    folder = tempfile.TemporaryDirectory(prefix="gantline-fonts-")
    with as_file(files("gantline").joinpath("assets")) as fonts:
        text = _FONTCONFIG.format(fonts=escape(str(fonts)), cache=escape(str(Path(folder.name, "cache"))))
    Path(folder.name, "fonts.conf").write_text(text, encoding="utf-8")
    return folder
