"""English: frames, nouns, and all that depends on number."""

from .carry import CARRY
from .closing import CLOSING
from .count import COUNT
from .frame import Frame, Frames
from .free_body import FREE_BODY
from .newton import NEWTON
from .nouns import Noun, motions, noun, pulls, rope_nouns, wheel
from .opening import OPENING
from .price import PRICE
from .refusals import REFUSALS
from .rope_length import ROPE_LENGTH
from .route import route
from .stages import STAGES
from .verdict import VERDICT
from .words import (
    ABOUT,
    BETWEEN_STEPS,
    UNKNOWN,
    WORDS_A_SECOND,
    cardinal,
    count,
    fraction,
    hedge,
    joined,
    losses,
    measured,
    moved,
    multiple,
    off,
    ordinal,
    share,
    spoken,
    spoken_words,
    things,
    times,
    units,
    units_times,
)
from .work import WORK
from .wrong import WRONG

METHOD_NAMES = {
    "count": "Counting the strands",
    "free-body": "Balancing each body",
    "carry": "Carrying the pull along the rope",
    "rope-length": "Keeping account of the rope",
    "work": "Work in, work out",
    "stages": "Multiplying the stages",
    "newton": "Newton for each body",
    "verdict": "How it stands",
}
CONNECTIVES = frozenset(("So", "Now", "And", "But", "Here", "Then"))
FRAMES: dict[str, Frames] = {
    "common": OPENING | PRICE | CLOSING,
    "carry": CARRY,
    "count": COUNT,
    "free-body": FREE_BODY,
    "newton": NEWTON,
    "rope-length": ROPE_LENGTH,
    "stages": STAGES,
    "verdict": VERDICT,
    "work": WORK,
}


def seconds(sentence: str) -> float:
    """How long a sentence takes to say, to a tenth of a second."""
    return round(spoken_words(sentence) / WORDS_A_SECOND + BETWEEN_STEPS, 1)


__all__ = [
    "ABOUT", "CONNECTIVES", "FRAMES", "METHOD_NAMES", "REFUSALS", "UNKNOWN", "WRONG", "Frame", "Frames", "Noun",
    "cardinal", "count", "fraction", "hedge", "joined", "losses", "measured", "motions", "moved", "multiple", "noun",
    "off", "ordinal", "pulls", "rope_nouns", "route", "seconds", "share", "spoken", "spoken_words", "things", "times",
    "units", "units_times", "wheel",
]  # fmt: skip
