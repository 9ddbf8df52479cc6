"""What a figure can show, one view a file, and the table of them."""

from collections.abc import Callable
from typing import Literal

from msgspec import Struct

from . import bare


class View(Struct, frozen=True):
    """How a view draws on a plate, the frame it has by itself, whether it takes a regime, whether it is public."""

    draw: Callable[..., None]
    frame: Literal["tight", "steps"] = "tight"
    takes_way: bool = False
    public: bool = True


VIEWS: dict[str, View] = {
    "bare": View(bare.draw),
}
