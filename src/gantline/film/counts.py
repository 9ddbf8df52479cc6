"""A wrong answer and the right one, each with its reckoning at the same size; with what each counted, where it did."""

from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from gantline.quantity import Number, Quotient, Shown

from .formula import Setting
from .panels import Panel, Row, in_row, stacked
from .pen import Pen, plain, width, wrapped
from .stage import Stage

HEAD = 84.0
MOST = 12  # strands that are drawn as discs
DISC = 0.7  # of the size of words: the radius of a disc
PITCH = 1.62  # of the size of words: from disc to disc


class Reckoned(Struct, frozen=True):
    """An answer with its formula; `count` is how many strands it counts (0: none), `right` how many there are."""

    shown: Shown
    count: int = 0
    right: int = 0


def counted(formula: object) -> int:
    """What a formula divides by, where that is a count."""
    under = formula.under if isinstance(formula, Quotient) else None
    number = under.value if isinstance(under, Number) else Fraction(0)
    return int(number) if number.denominator == 1 and 0 < number <= MOST else 0


def wrong(stage: Stage, heading: str, answers: Sequence[Reckoned], size: float) -> Panel:
    """The heading, then a row an answer."""
    left, _, right, bottom = stage.format.words
    rows: list[Row] = []
    y = _heading(stage, heading, rows)
    pitch = min(340.0 if right - left < 400 else 230.0, (bottom - y) / len(answers))
    size, place = _fitted(stage, answers, size, pitch)
    for number, one in enumerate(answers):
        pen, middle = Pen(), y + pitch * (number + 0.5)
        if number:
            pen.line("leader", left, y + pitch * number, right, y + pitch * number)
        made = in_row(stage, one.shown, size, (0.5 if place == "over" else 0.92) * pitch)
        x = right - max(row.wide for row in made) if place == "aside" else left
        if place == "over":
            middle += DISC * stage.format.text + 8
            _draw_discs(pen, one, left, middle - _tall(made) / 2 - DISC * stage.format.text - 8, stage.format.text)
        elif place == "aside":
            _draw_discs(pen, one, left, middle, stage.format.text)
        stacked(pen, made, x, middle - _tall(made) / 2 + made[0].above)
        rows.append(("set", tuple(pen.marks)))
    return Panel(tuple(rows), stage.format.word_zone)


def _fitted(stage: Stage, answers: Sequence[Reckoned], size: float, pitch: float) -> tuple[float, str]:
    """The size of the formulas, and where the discs stand: aside of them, over them, or nowhere ("")."""
    left, _, right, _ = stage.format.words
    across = max(_discs(one, stage.format.text) for one in answers)
    for share in (1.0, 0.9, 0.8):
        now = max(share * size, stage.format.small)
        wide = max(row.wide for one in answers for row in in_row(stage, one.shown, now, 0.92 * pitch))
        if across and across + 40 + wide <= right - left:
            return now, "aside"
    tall = 2 * DISC * stage.format.text + 16 + 1.2 * stage.format.small
    return size, "over" if across and across <= right - left and tall <= pitch else ""


def _heading(stage: Stage, heading: str, rows: list[Row]) -> float:
    """The heading as the first row; returns where the next one begins."""
    left, top, right, bottom = stage.format.words
    narrow, pen = right - left < 400, Pen()
    said = wrapped(heading, stage.format.small if narrow else HEAD, 500, right - left)
    head = stage.format.small if narrow else min(HEAD, HEAD * (right - left) / width(said[0], HEAD, 500))
    y = top + head if narrow or bottom - top < 500 else max(top, (top + bottom) / 2 - 250) + head
    for line in said:
        pen.text(plain(line), left, y, head, 500)
        y += 1.1 * head
    rows.append(("set", tuple(pen.marks)))
    return y - 0.6 * head


def _tall(made: Sequence[Setting]) -> float:
    return sum(row.above + row.below for row in made)


def _discs(one: Reckoned, size: float) -> float:
    """How wide the discs of an answer are (px)."""
    return ((one.count - 1) * PITCH + 2 * DISC) * size if one.count else 0.0


def _draw_discs(pen: Pen, one: Reckoned, left: float, y: float, size: float) -> None:
    """A disc a strand; those that should not have been counted dashed, with one stroke through them."""
    for number in range(1, one.count + 1):
        x = left + (DISC + (number - 1) * PITCH) * size
        odd = number > one.right
        pen.circle("disc-out" if odd else "disc", x, y, DISC * size)
        role = "mid-text" if odd else "ink-text"
        pen.text(plain(str(number)), x, y + 0.34 * size, 0.84 * size, 600, "middle", role)
        if odd:
            across = 1.2 * DISC * size
            pen.line("strike", x - across, y + 0.62 * across, x + across, y - 0.62 * across)
