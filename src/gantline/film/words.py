"""How long words take: by level of the learners, and as captions that can be read in time."""

from msgspec import Struct

from gantline.account import spoken_words


class Level(Struct, frozen=True):
    """A level of learners. `pace` is how fast a sentence is said (words a second); `most` how fast captions may be.

    `letters` is the most a second. Limits: the Captioning Key of the Described and Captioned Media Program (lower
    level 130 words a minute, middle 140, upper 160; lines of 32 letters, two at a time) and, for letters a second,
    common practice on the web (12 to 17).
    """

    name: str
    pace: float
    most: float
    letters: float


LEVELS = {
    level.name: level
    for level in (Level("lower", 2.0, 130.0, 15.0), Level("middle", 2.2, 140.0, 16.0), Level("upper", 2.4, 160.0, 17.0))
}
BREATH, HOLD, LEAST = 0.8, 0.6, 2.5  # s: after a sentence, after a step, the shortest step
TITLE, RECAP = 3.0, 6.0
GRID = 10  # lengths are whole tenths of a second, so that no shot moves the frames of the next


def speech(words: str, level: str) -> float:
    """The seconds a sentence takes at this level; 0 where nothing is said. KeyError for an unknown level."""
    return spoken_words(words) / LEVELS[level].pace + BREATH if words else 0.0


def on_grid(seconds: float) -> float:
    """The next whole tenth of a second."""
    return -int(-round(seconds * GRID, 6) // 1) / GRID
