"""From accounts to a film: a storyboard of shots, and the picture at every moment. Touches no file."""

from .board import Words, board
from .captions import Cue, captions, chapters, descriptions
from .formats import FORMATS, Box, Format
from .picture import Layer, Moment, Picture
from .storyboard import Act, Move, Shot, Storyboard, retimed
from .take import Take, takes
from .words import LEVELS

__all__ = [
    "FORMATS", "LEVELS", "Act", "Box", "Cue", "Format", "Layer", "Moment", "Move", "Picture", "Shot", "Storyboard",
    "Take", "Words", "board", "captions", "chapters", "descriptions", "retimed", "takes",
]  # fmt: skip
