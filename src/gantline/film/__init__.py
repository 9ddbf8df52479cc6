"""From accounts to a film: a storyboard of shots, and the picture at every moment. Touches no file."""

from typing import TYPE_CHECKING, Any

from .board import Words, board
from .captions import Cue, captions, chapters, descriptions, new_in
from .formats import FORMATS, Box, Format
from .picture import Layer, Moment, Picture
from .storyboard import Act, Move, Shot, Storyboard
from .take import Take, takes
from .voice import FRAMES, Piece, Tap, Taps, unlike, voiced
from .words import HOLD, LEVELS

if TYPE_CHECKING:
    from .pauses import hear, matched, pace


def __getattr__(name: str) -> Any:
    """Listening needs arrays, and a film with taps needs no listening."""
    if name not in ("hear", "matched", "pace"):
        raise AttributeError(name)
    from . import pauses

    found = globals()[name] = getattr(pauses, name)
    return found


__all__ = [
    "FORMATS", "FRAMES", "HOLD", "LEVELS", "Act", "Box", "Cue", "Format", "Layer", "Moment", "Move", "Picture", "Piece",
    "Shot", "Storyboard", "Take", "Tap", "Taps", "Words", "board", "captions", "chapters", "descriptions", "hear",
    "matched", "new_in", "pace", "takes", "unlike", "voiced",
]  # fmt: skip
