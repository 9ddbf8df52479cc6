"""What is seen at a moment: primitives of a figure in layers, each layer with its scale and its place in the frame."""

from msgspec import Struct

from gantline.figure import Primitive

PEN = 2.0  # px of the frame a unit of a layer of words: lines there are as heavy as those of the rig


Zone = tuple[float, float, float, float]  # left, top, right, bottom, px


class Layer(Struct, frozen=True):
    """Marks, drawn `scale` times their size with their origin at (x, y) of the frame (px).

    `zone` is the part of the frame that holds them all, with room to spare (None: the whole frame).
    """

    name: str
    marks: tuple[Primitive, ...]
    scale: float = 1.0
    x: float = 0.0
    y: float = 0.0
    zone: Zone | None = None


class Picture(Struct, frozen=True):
    """A whole frame: its size (px) and its layers, the first one lowest. `says` describes it to who does not see it."""

    width: int
    height: int
    layers: tuple[Layer, ...]
    says: str = ""

    def changed(self, other: "Picture") -> Zone | None:
        """The part of the frame in which this picture differs from another: the zones of all layers that are not the
        very same; None where that is the whole frame."""
        ours, theirs = {id(layer): layer for layer in self.layers}, {id(layer): layer for layer in other.layers}
        zones = [layer.zone for key, layer in (ours | theirs).items() if not (key in ours and key in theirs)]
        if not zones:
            return 0.0, 0.0, 0.0, 0.0
        known = [zone for zone in zones if zone is not None]
        if len(known) < len(zones):
            return None
        left, top, right, bottom = zip(*known, strict=True)
        return min(left), min(top), max(right), max(bottom)


class Moment(Struct, frozen=True):
    """A frame: a picture, or `share` (0 to 1) of the way from `picture` to the picture `toward`, all of it alike."""

    picture: Picture
    toward: Picture | None = None
    share: float = 0.0
