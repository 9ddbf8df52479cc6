"""What a figure can show, one view a file, and the table of them."""

from collections.abc import Callable
from typing import Literal

from msgspec import Struct

from . import (
    as_built,
    ask,
    balance,
    bare,
    cut,
    displacement,
    equal,
    free_body,
    gain,
    labelled,
    motion,
    newton,
    numbered,
    solve,
    tensions,
    tip,
    tried,
    units,
    work,
)


class View(Struct, frozen=True):
    """How a view draws on a plate, the frame it has by itself, what more it takes, whether it is public."""

    draw: Callable[..., None]
    frame: Literal["tight", "steps"] = "tight"
    takes: Literal["", "way", "hand"] = ""
    public: bool = True


VIEWS: dict[str, View] = {
    "bare": View(bare.draw),
    "labelled": View(labelled.draw),
    "numbered": View(numbered.draw),
    "cut": View(cut.draw),
    "free-body": View(free_body.draw),
    "displacement": View(displacement.draw),
    "tensions": View(tensions.draw, takes="way"),
    "motion": View(motion.draw),
    "as-built": View(as_built.draw),
    "tried": View(tried.draw, takes="hand"),
    "ask": View(ask.draw, "steps", public=False),
    "count": View(cut.draw_count, "steps", public=False),
    "equal": View(equal.draw, "steps", public=False),
    "balance": View(balance.draw, "steps", public=False),
    "solve": View(solve.draw, "steps", public=False),
    "gain": View(gain.draw, "steps", public=False),
    "work": View(work.draw, "steps", takes="way", public=False),
    "units": View(units.draw, "steps", public=False),
    "tip": View(tip.draw, "steps", public=False),
    "newton": View(newton.draw, "steps", public=False),
}
