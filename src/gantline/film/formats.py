"""The three shapes of a frame. Each lays the same picture out anew; none is a crop of another. Where a machine is wide,
the first shapes have a second layout."""

from msgspec import Struct
from msgspec.structs import replace

LOWERED = 40.0  # px: a rig is not moved for less
Box = tuple[float, float, float, float]  # left, top, right, bottom, px


class Format(Struct, frozen=True):
    """Places and sizes in px of a frame 1080 px on its short side.

    `rig` is where the machine stands, its beam at the height `beam`, a sheave radius at most `most`; `words` is the
    room for words and formulas, `column` and `beside` share it where arrows stand in a column. `ledger` is the box of
    what is known so far, where there is room for one. `captions` are kept free. `small` is the smallest size of words,
    `tight` that of words on strands which are too near each other for it.
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
    tight: float
    text: float
    formula: float
    question: float
    title: float
    count: float

    def lowered(self, free: float) -> "Format":
        """Where words stand over the rig and it leaves `free` px under itself: half of them for the words."""
        extra = max(0.0, free) / 2
        if self.words[3] > self.rig[1] or extra < LOWERED:
            return self

        def longer(box: Box) -> Box:
            return (*box[:3], box[3] + extra)

        left, top, right, bottom = self.rig
        return replace(
            self, rig=(left, top + extra, right, bottom), beam=self.beam + extra, words=longer(self.words),
            column=longer(self.column), beside=longer(self.beside),
        )  # fmt: skip

    @property
    def rig_zone(self) -> Box:
        """What holds the rig and all that is written on it."""
        left, _, right, bottom = self.rig
        return max(0.0, left - 96), 0.0, min(float(self.width), right + 210), bottom + 30

    @property
    def word_zone(self) -> Box:
        """What holds all words and formulas."""
        left, _, _, bottom = self.words
        return max(0.0, left - 90), 0.0, float(self.width), bottom + 36

    @property
    def labels(self) -> Box:
        """Where what is written on the rig may stand."""
        right = self.words[0] - 16 if self.words[0] > self.rig[2] else self.width - 24.0
        return 24.0, self.rig[1] - 40, right, self.rig[3] + 16

    @property
    def caption_line(self) -> float:
        """How far down captions begin, in per cent of the height."""
        return round(100 * self.captions[1] / self.height, 1)


_FORMATS = (
        Format(
            "level", 1920, 1080, rig=(96, 54, 776, 880), beam=98, most=61.8, words=(880, 150, 1824, 860),
            column=(870, 70, 1190, 870), beside=(1240, 320, 1824, 860), ledger=(1386, 84, 1824, 320),
            captions=(96, 900, 1824, 1026), small=46.7, tight=46.7, text=56, formula=104,
            question=96, title=134, count=400,
        ),
        Format(
            "level", 1920, 1080, rig=(96, 54, 1330, 880), beam=98, most=61.8, words=(1410, 96, 1824, 860),
            column=(1410, 96, 1824, 540), beside=(1410, 580, 1824, 860), ledger=None,
            captions=(96, 900, 1824, 1026), small=46.7, tight=46.7, text=50, formula=92,
            question=66, title=84, count=300,
        ),
        Format(
            "square", 1080, 1080, rig=(54, 54, 750, 880), beam=98, most=61.8, words=(780, 96, 1026, 860),
            column=(780, 96, 1026, 520), beside=(780, 560, 1026, 860), ledger=None,
            captions=(54, 900, 1026, 1026), small=47, tight=34, text=47, formula=84, question=56, title=72, count=300,
        ),
        Format(
            "square", 1080, 1080, rig=(54, 54, 1026, 610), beam=98, most=61.8, words=(54, 640, 1026, 880),
            column=(54, 622, 400, 880), beside=(420, 640, 1026, 880), ledger=None,
            captions=(54, 900, 1026, 1026), small=47, tight=34, text=47, formula=84, question=60, title=72, count=220,
        ),
        Format(
            "upright", 1080, 1920, rig=(96, 430, 984, 1520), beam=474, most=81, words=(96, 96, 984, 420),
            column=(96, 60, 440, 424), beside=(460, 96, 984, 420), ledger=None,
            captions=(96, 1540, 984, 1700), small=62, tight=44, text=62, formula=104, question=80, title=104, count=260,
        ),
)  # fmt: skip
FORMATS: dict[str, tuple[Format, ...]] = {
    name: tuple(each for each in _FORMATS if each.name == name) for name in ("level", "square", "upright")
}
