"""From accounts to a film: a storyboard of shots, and the picture at every moment. Touches no file."""

from .board import Words, board
from .captions import Cue, captions, chapters, descriptions
from .storyboard import Act, Move, Shot, Storyboard, retimed
from .words import LEVELS

__all__ = [
    "LEVELS", "Act", "Cue", "Move", "Shot", "Storyboard", "Words", "board", "captions", "chapters",
    "descriptions", "retimed",
]  # fmt: skip
