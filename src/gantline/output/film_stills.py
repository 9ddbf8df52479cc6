"""The still of every step as PNG and SVG, the poster, and all stills on one contact sheet."""

import hashlib
from collections.abc import Sequence
from pathlib import Path

from gantline.film import Picture, Take

from . import files, film_svg, png
from .film_pieces import Look

ACROSS, GAP = 4, 16  # stills in a row of the contact sheet, px between them
THUMB = 480  # px wide


def make(takes: Sequence[Take], look: Look, cache: Path) -> dict[str, files.Content]:
    """The stills by file name, in order, with the poster and the contact sheet."""
    made: dict[str, files.Content] = {}
    shown = []
    for number, take in enumerate(takes):
        name = f"stills/{number:02}-{_plain(take.shot.id)}"
        made[f"{name}.svg"] = film_svg.write(take.still, look.theme, fonts=True).encode("utf-8")
        path = _pixels(take.still, look, cache)
        made[f"{name}.png"] = path
        shown.append(path)
    made["poster.png"] = shown[0]
    made["contact-sheet.png"] = _sheet(shown, look)
    return made


def _plain(id: str) -> str:
    """A shot's id as a file may be called anywhere."""
    return id.replace("/", "-").replace(":", "-")


def _pixels(picture: Picture, look: Look, cache: Path) -> Path:
    """A still as PNG, drawn where it is not kept yet."""
    drawn = film_svg.write(picture, look.theme).encode("utf-8")
    path = cache / f"{hashlib.sha256(drawn + str(look.size).encode()).hexdigest()[:32]}.png"
    if not path.exists():
        png.use_packaged_fonts()
        import pyvips

        image = pyvips.Image.svgload_buffer(drawn, scale=look.frame[0] / picture.width).extract_band(0, n=3)
        files.write(path, bytes(image.write_to_buffer(".png", compression=6, keep="none")))
    return path


def _sheet(paths: Sequence[Path], look: Look) -> bytes:
    """All stills, small, in rows on a ground between light and dark."""
    import pyvips

    thumbs = [pyvips.Image.thumbnail(str(path), THUMB).copy_memory() for path in paths]  # no file stays open
    sheet = pyvips.Image.arrayjoin(thumbs, across=ACROSS, shim=GAP, background=[104, 114, 125])
    return bytes(sheet.write_to_buffer(".png", compression=6, keep="none"))
