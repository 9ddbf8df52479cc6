"""What is seen at a moment: primitives of a figure in layers, each layer with its scale and its place in the frame."""

from msgspec import Struct

from gantline.figure import Primitive

PEN = 2.0  # px of the frame a unit of a layer of words: lines there are as heavy as those of the rig


class Layer(Struct, frozen=True):
    """Marks, drawn `scale` times their size with their origin at (x, y) of the frame (px)."""

    name: str
    marks: tuple[Primitive, ...]
    scale: float = 1.0
    x: float = 0.0
    y: float = 0.0


class Picture(Struct, frozen=True):
    """A whole frame: its size (px) and its layers, the first one lowest. `says` describes it to who does not see it."""

    width: int
    height: int
    layers: tuple[Layer, ...]
    says: str = ""

    def layer(self, name: str) -> Layer | None:
        return next((layer for layer in self.layers if layer.name == name), None)


class Moment(Struct, frozen=True):
    """A frame: a picture, or `share` (0 to 1) of the way from `picture` to the picture `toward`, all of it alike.

    `zone` is the part of the frame (left, top, right, bottom, px) beyond which nothing moves.
    """

    picture: Picture
    toward: Picture | None = None
    share: float = 0.0
    zone: tuple[float, float, float, float] | None = None
