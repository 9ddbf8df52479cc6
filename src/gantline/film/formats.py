"""The three shapes of a frame. Each lays the same picture out anew; none is a crop of another."""

from msgspec import Struct

Box = tuple[float, float, float, float]  # left, top, right, bottom, px


class Format(Struct, frozen=True):
    """Places and sizes in px of a frame 1080 px on its short side.

    `rig` is where the machine stands, its beam at the height `beam`, a sheave radius at most `most`; `words` is the
    room for words and formulas, `column` and `beside` share it where arrows stand in a column. `ledger` is the box of
    what is known so far, where there is room for one. `captions` are kept free.
    """

    name: str
    width: int
    height: int
    rig: Box
    beam: float
    most: float
    words: Box
    column: Box
    beside: Box
    ledger: Box | None
    captions: Box
    small: float
    text: float
    formula: float
    question: float
    title: float
    count: float

    @property
    def rig_zone(self) -> Box:
        """What holds the rig and all that is written on it."""
        left, _, right, bottom = self.rig
        return max(0.0, left - 96), 0.0, min(float(self.width), right + 210), bottom + 30

    @property
    def word_zone(self) -> Box:
        """What holds all words and formulas."""
        left, _, _, bottom = self.words
        return max(0.0, left - 90), 0.0, float(self.width), max(bottom, self.column[3]) + 36

    @property
    def caption_line(self) -> float:
        """How far down captions begin, in per cent of the height."""
        return round(100 * self.captions[1] / self.height, 1)


FORMATS = {
    each.name: each
    for each in (
        Format(
            "level", 1920, 1080, rig=(96, 54, 776, 880), beam=98, most=61.8, words=(880, 150, 1824, 860),
            column=(890, 320, 1150, 860), beside=(1200, 320, 1824, 860), ledger=(1386, 84, 1824, 320),
            captions=(96, 900, 1824, 1026), small=46.7, text=56, formula=104, question=96, title=134, count=400,
        ),
        Format(
            "square", 1080, 1080, rig=(54, 54, 750, 880), beam=98, most=61.8, words=(780, 96, 1026, 860),
            column=(780, 96, 1026, 520), beside=(780, 560, 1026, 860), ledger=None,
            captions=(54, 900, 1026, 1026), small=47, text=47, formula=84, question=56, title=72, count=300,
        ),
        Format(
            "upright", 1080, 1920, rig=(96, 430, 984, 1520), beam=474, most=81, words=(96, 96, 984, 420),
            column=(96, 96, 420, 420), beside=(480, 96, 984, 420), ledger=None,
            captions=(96, 1540, 984, 1700), small=62, text=62, formula=104, question=80, title=104, count=260,
        ),
    )
}  # fmt: skip
