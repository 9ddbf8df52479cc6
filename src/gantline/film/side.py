"""What stands beside the rig: titles, questions, formulas, leaders, the ledger. Words that are spoken are not shown."""

import re
from collections.abc import Sequence

from gantline.quantity import Equation, Number, Shown, Symbol

from .formats import Box, Format
from .formula import Kinds, Setting, lines, setting
from .pen import Pen, plain, width, wrapped
from .picture import Layer

LEADING = 1.18
TURN_WIDE, TURN_HIGH, TURN_PITCH = 5.5, 27.0, 13.5  # units of a pen: a whipping turn on the rope of a question
ROPE_LONG = 616.0
ROOM_FOR_TURNS = 110.0
GAP = 0.35  # between the lines of a formula, of the height of the first


def title(format: Format, words: str, under: str) -> Layer:
    """The title, the rope with three whipping turns under it, and one line more."""
    pen = Pen()
    left, top, right, bottom = format.words
    said, size = _fitted(words, format.title, format.small * 1.2, right - left, 0.62 * (bottom - top))
    below = wrapped(under, format.text, 400, right - left)
    tall = (len(said) - 1) * 1.02 * size + 0.9 * format.title + len(below) * format.text * 1.3
    y = (top + bottom) / 2 - tall / 2 + 0.1 * size
    for number, line in enumerate(said):
        pen.text(plain(line), left, y + number * 1.02 * size, size, 500)
    y += (len(said) - 1) * 1.02 * size + 0.58 * format.title
    _rope(pen, left, min(right, left + ROPE_LONG), y, whipped=True)
    for number, line in enumerate(below):
        pen.text(plain(line), left, y + (1.7 + 1.25 * number) * format.text, format.text)
    return pen.layer("words", format.word_zone)


def _fitted(words: str, size: float, least: float, room: float, tall: float) -> tuple[list[str], float]:
    """The words in lines at the largest size at which they fit the room."""
    for share in (1.0, 0.9, 0.8, 0.7, 0.6, 0.5):
        now = max(size * share, least)
        found = wrapped(words, now, 500, room)
        if len(found) * now * 1.02 <= tall and max(width(line, now, 500) for line in found) <= room:
            return found, now
    found = wrapped(words, least, 500, room)
    return found, least * min(1.0, room / max(width(line, least, 500) for line in found))


def _rope(pen: Pen, left: float, right: float, y: float, whipped: bool = False) -> None:
    pen.rope(left, y, right, y)
    for end in (left, right):
        pen.line("edge", end, y - 6, end, y + 6)
    if whipped:
        for number in range(3):
            x = right - 12 - 7 * number
            pen.line("edge", x, y - 12, x, y + 12)


def question(format: Format, says: str, turns: int, gone: int) -> Layer:
    """The question large, what to do about it under it, and the learner's time as whipping turns on a rope."""
    pen = Pen()
    left, top, right, bottom = format.words
    asked, then = spoken_question(says)
    said, size = _fitted(asked, format.question, format.small * 1.1, right - left, 0.5 * (bottom - top))
    after = wrapped(then, format.text, 400, right - left)
    tall = len(said) * size * LEADING + len(after) * format.text * 1.3 + ROOM_FOR_TURNS
    if tall > bottom - top + ROOM_FOR_TURNS / 2:  # rather fewer words than smaller ones: these are said as well
        after, tall = [], len(said) * size * LEADING + ROOM_FOR_TURNS
    y = max(top + 0.75 * size, (top + bottom) / 2 - tall / 2 - 40)
    for line in said:
        pen.text(plain(line), left, y, size, 500)
        y += size * LEADING
    for line in after:
        pen.text(plain(line), left, y, format.text)
        y += format.text * 1.3
    if turns:
        _turns(pen, left, min(right, left + ROPE_LONG), y + 28, turns, gone)
    return pen.layer("words", format.word_zone)


def spoken_question(says: str) -> tuple[str, str]:
    """The question of a sentence, without what leads up to it; and what is said after it."""
    sentences = [part.strip() for part in says.replace("?", "?|").replace(". ", ".|").split("|") if part.strip()]
    at = next((n for n, sentence in enumerate(sentences) if sentence.endswith("?")), 0)
    asked = sentences[at].rsplit(": ", 1)[-1] if sentences else says
    return asked[:1].upper() + asked[1:], " ".join(sentences[at + 1 :])


def _turns(pen: Pen, left: float, right: float, y: float, turns: int, gone: int) -> None:
    """Whipping turns: those to come in ink, those gone in dashes."""
    _rope(pen, left, right, y)
    for number in range(turns):
        x = right - 28 - 2 * TURN_PITCH * (turns - number)
        if number < turns - gone:
            pen.path("dot", f"M-{TURN_WIDE / 2} {-TURN_HIGH / 2}h{TURN_WIDE}l2.6 {TURN_HIGH}h-{TURN_WIDE}Z", x, y)
        else:
            pen.line("level", x, y - TURN_HIGH, x + 5, y + TURN_HIGH)


def formula(format: Format, shown: Shown, kinds: Kinds, room: Box, words: str = "") -> Layer:
    """A formula in the middle of the room, as large as it fits; `words` under it say what it is."""
    pen = Pen()
    left, top, right, bottom = room
    size = format.formula
    rows = lines(shown, size, format.small, right - left, kinds)
    while _tall(rows) > bottom - top and size > format.small:
        size *= 0.92
        rows = lines(shown, size, format.small, right - left, kinds)
    _stack(pen, rows, left, (top + bottom) / 2, right - left)
    y = (top + bottom) / 2 + _tall(rows) / 2 + 0.9 * format.text
    for number, line in enumerate(wrapped(words, format.text, 400, right - left)):
        pen.text(plain(line), (left + right) / 2, y + 1.2 * number * format.text, format.text, 400, "middle")
    return pen.layer("words", format.word_zone)


def _tall(rows: Sequence[Setting]) -> float:
    return sum(row.above + row.below for row in rows) + GAP * rows[0].above * (len(rows) - 1)


def _stack(pen: Pen, rows: Sequence[Setting], left: float, middle: float, room: float) -> None:
    """Lines under each other about a height, together centred in the room."""
    tall = _tall(rows)
    x = left + max(0.0, (room - max(row.wide for row in rows)) / 2)
    y = middle - tall / 2
    for row in rows:
        row.draw(pen, x, y + row.above)
        y += row.above + row.below + GAP * rows[0].above


def count(format: Format, number: int) -> Layer:
    """How many strands go through the bag, so far."""
    pen = Pen()
    left, top, right, bottom = format.words
    words = ["strand" if number == 1 else "strands", "through the bag"]
    if right - left < 400:
        words = ["through", "the bag"]
        pen.text(plain(str(number)), (left + right) / 2, (top + bottom) / 2, format.count, 500, "middle")
        for row, line in enumerate(words):
            y = (top + bottom) / 2 + (1.8 + 1.25 * row) * format.text
            pen.text(plain(line), (left + right) / 2, y, format.text, 400, "middle")
        return pen.layer("words", format.word_zone)
    base = (top + bottom) / 2 + 0.32 * format.count
    wide = width(str(number), format.count, 500)
    x = left + max(0.0, (right - left - wide - width(words[1], format.text) - 60) / 2)
    pen.text(plain(str(number)), x, base, format.count, 500)
    for row, line in enumerate(words):
        pen.text(plain(line), x + wide + 60, base - 0.3 * format.count + 1.3 * row * format.text, format.text)
    return pen.layer("words", format.word_zone)


def ledger(format: Format, rows: Sequence[tuple[str, str]], kinds: Kinds) -> Layer | None:
    """What is known so far: three rows at most, the newest last and semibold."""
    if format.ledger is None or not rows:
        return None
    pen = Pen()
    left, top, right, _ = format.ledger
    size, pitch = 54.0, 78.0
    for number, (letter, shown) in enumerate(rows[-3:]):
        y = top + 0.62 * size + number * pitch
        newest = number == min(len(rows), 3) - 1
        setting(letter, size, {}).draw(pen, left, y)
        pen.text(plain(shown), right, y, size, 600 if newest else 500, "end")
        pen.line("leader", left, y + 25, right, y + 25)
    return pen.layer("ledger", format.word_zone)


def known(shown: Shown | None) -> list[tuple[str, str]]:
    """The letters a formula gives a number to, with these numbers."""
    if isinstance(shown, str):
        pairs = [part.split(" = ") for part in shown.split(", ")]
        return [(p[0], p[1]) for p in pairs if len(p) == 2 and _letter(p[0]) and "?" not in p[1]]
    if isinstance(shown, Equation) and isinstance(shown.sides[0], Symbol):
        last = shown.sides[-1]
        if isinstance(last, Number) and _letter(shown.sides[0].name):
            return [(shown.sides[0].name, (last.shown or str(last.value)).replace("s2", "s²"))]
    return []


def _letter(name: str) -> bool:
    """One letter, with an index or without: W, w1, m_b."""
    return re.fullmatch(r"[^\W\d_](\d+|_\w+)?", name) is not None
