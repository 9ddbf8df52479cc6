"""Shared by the tests of films: acts from the shelf, boards, and pictures as pixels."""

from functools import cache
from importlib.resources import files

import numpy as np
import pyvips
from msgspec.structs import replace

from gantline.account import Account, explain
from gantline.film import Act, Box, Layer, Picture, Storyboard, Take, board, takes
from gantline.mechanics import solve
from gantline.notation import parse
from gantline.output import film_svg, png
from gantline.rig import read

BACK = 255
SHELF = sorted(
    entry.name.removesuffix(".rig")
    for entry in files("gantline").joinpath("shelf").iterdir()
    if entry.name.endswith(".rig")
)


@cache
def act(name: str) -> Act:
    tree, _ = parse(files("gantline").joinpath(f"shelf/{name}.rig").read_text("utf-8"))
    rig, problems = read(tree)
    assert rig is not None, problems
    answer = solve(rig)
    account = explain(rig, answer)
    assert isinstance(account, Account)
    return Act(name, rig, answer, account)


@cache
def story(*names: str) -> Storyboard:
    return board([act(name) for name in names])


@cache
def shots(format: str, *names: str) -> tuple[Take, ...]:
    return takes(story(*names), format)


def only(picture: Picture, keep) -> Picture:
    """The picture with those marks alone that `keep` says yes to."""
    layers = [replace(layer, marks=tuple(mark for mark in layer.marks if keep(mark))) for layer in picture.layers]
    return replace(picture, layers=tuple(layers))


def pixels(picture: Picture, scale: float, zone: Box | None = None) -> np.ndarray:
    """How dark each pixel of a part of the frame is, as a drawing program sees it, `scale` px for each of the frame."""
    png.use_packaged_fonts()
    drawn = film_svg.write(picture, "light", zone).encode()
    image = pyvips.Image.svgload_buffer(drawn, scale=scale, unlimited=True).extract_band(1)
    return BACK - np.frombuffer(image.write_to_memory(), np.uint8).reshape(image.height, image.width)


def middle(picture: Picture, keep, zone: Box, scale: float = 2.0) -> tuple[float, float]:
    """The centre of what `keep` keeps, weighed by darkness, in px of the frame."""
    dark = pixels(only(picture, keep), scale, zone)
    rows, columns = np.nonzero(dark)
    assert rows.size, "nothing to see"
    weights = dark[rows, columns].astype(float)
    x, y = (float(((at + 0.5) * weights).sum() / weights.sum() / scale) for at in (columns, rows))
    return zone[0] + x, zone[1] + y


def layer(picture: Picture, name: str) -> Layer:
    return next(one for one in picture.layers if one.name == name)
