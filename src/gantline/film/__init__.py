"""From accounts to a film: a storyboard of shots, and the picture at every moment. Touches no file."""

from .board import Words, board
from .storyboard import Act, Move, Shot, Storyboard, retimed
from .words import LEVELS

__all__ = ["LEVELS", "Act", "Move", "Shot", "Storyboard", "Words", "board", "retimed"]
