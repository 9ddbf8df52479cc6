"""Formulas beside the rig: set out as the page sets them, in the plates' own type, as large as the room allows."""

from collections.abc import Mapping
from itertools import pairwise

from msgspec import Struct

from gantline.figure import Run
from gantline.quantity import (
    Equation,
    Letter,
    Number,
    Numeral,
    Raised,
    Row,
    Set,
    Shown,
    Sign,
    Stacked,
    Symbol,
    Words,
    set_out,
)

from .pen import Pen, width

WEIGHT = 500
AXIS, BAR, GAP = 0.26, 0.045, 0.12  # of the size: the bar's height over the baseline, its thickness, space about it
HIGH, LOW = 0.70, 0.22  # of the size: above and below the baseline
INDEX, INDEX_DROP = 0.72, 0.22
BREAKS = 0.84  # of the size: a formula that would have to be smaller is broken, if that helps
MANY = 3  # lines of a formula on one line each: with more it is not read
SMALLER = 1.3  # times its room: a formula wider than this rather has its fractions on one line
SPACES = {"relation": 0.26, "binary": 0.2, "plain": 0.2}
CLOSE = "()/"
Kinds = Mapping[str, str]  # symbol -> the role its letter is written in


class Piece(Struct, frozen=True):
    """A run of a formula, or the bar of a fraction (no run): place from the formula's start, on its baseline, px."""

    x: float
    y: float
    size: float
    run: Run | None
    role: str = "ink-text"
    wide: float = 0.0


class Setting(Struct, frozen=True):
    """A formula at a size: how wide it is, how far it reaches above and below its baseline (px), and its pieces."""

    wide: float
    above: float
    below: float
    pieces: tuple[Piece, ...]

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """With its start at x, on the baseline y."""
        for piece in self.pieces:
            if piece.run is None:
                pen.rect("dot", x + piece.x, y + piece.y, piece.wide, BAR * piece.size)
            else:
                pen.text((piece.run,), x + piece.x, y + piece.y, piece.size, WEIGHT, role=piece.role)


def setting(shown: Shown, size: float, kinds: Kinds) -> Setting:
    """A formula on one line."""
    return _set(set_out(shown), size, kinds)


def lines(shown: Shown, size: float, least: float, room: float, kinds: Kinds) -> list[Setting]:
    """The formula at the largest size, down to `least`, at which it fits into `room` (px): on one line, or, where
    that is small, broken before its equals signs. One that is wider still is broken before its other signs, with its
    fractions on one line if that helps, and past that made smaller. Where it would fill a page, its letter and its
    number stand for it."""
    for now in _sizes(size, least):
        one = setting(shown, now, kinds)
        if one.wide <= room:
            return [one]
        found = [_set(row, now, kinds) for row in _broken(shown)]
        if now <= BREAKS * size and max(each.wide for each in found) <= room:
            return found
    pieces = [piece for row in _broken(shown) for piece in _pieces(row)]
    found = _filled(pieces, least, room, kinds)
    widest = max(each.wide for each in found)
    if widest <= room:
        return found
    if widest <= SMALLER * room:
        return _all_smaller(pieces, least, room, kinds)
    found = flat(shown, least, room, kinds)
    if len(found) > MANY and isinstance(shown, Equation) and isinstance(shown.sides[-1], Number):
        kept = tuple(side for side in shown.sides if isinstance(side, Symbol | Number))
        return lines(Equation(kept), size, least, room, kinds) if len(kept) < len(shown.sides) else found
    return found


def flat(shown: Shown, size: float, room: float, kinds: Kinds) -> list[Setting]:
    """The formula with its fractions on one line, in as few lines as hold it; smaller where a piece is too wide."""
    pieces = [piece for row in _broken(shown) for piece in _pieces(_level(row))]
    return _all_smaller(pieces, size, room, kinds)


def _all_smaller(pieces: list[Row], size: float, room: float, kinds: Kinds) -> list[Setting]:
    """The pieces in as few lines as hold them, all as much smaller as the widest needs."""
    widest = max(_set(piece, size, kinds).wide for piece in pieces)
    return _filled(pieces, size * min(1.0, room / widest), room, kinds)


def _level(part: Row) -> Row:
    """Fractions with a stroke, over and under in brackets where they are sums."""
    made: list[Set] = []
    for one in part.parts:
        match one:
            case Row():
                made += _level(one).parts
            case Stacked(over, under):
                made += (*_bracketed(over), Sign("/", "plain"), *_bracketed(under))
            case _:
                made.append(one)
    return Row(tuple(made))


def _bracketed(part: Set) -> tuple[Set, ...]:
    parts = _level(part if isinstance(part, Row) else Row((part,))).parts
    deep, sums = 0, False
    for one in parts:
        if isinstance(one, Sign):
            deep += (one.sign == "(") - (one.sign == ")")
            sums |= one.role == "binary" and not deep
    if sums:
        return Sign("(", "bracket"), *parts, Sign(")", "bracket")
    return parts


def _pieces(row: Row) -> list[Row]:
    """A line before each of its signs: what is as narrow as a formula can be."""
    flat = [piece for part in row.parts for piece in (part.parts if isinstance(part, Row) else (part,))]
    cuts = [n for n, part in enumerate(flat) if isinstance(part, Sign) and part.role in ("relation", "binary")]
    return [Row(tuple(flat[a:b])) for a, b in pairwise([0, *cuts, len(flat)]) if a < b]


def _filled(pieces: list[Row], size: float, room: float, kinds: Kinds) -> list[Setting]:
    """The pieces in as few lines as hold them."""
    rows: list[Row] = []
    for piece in pieces:
        longer = Row(rows[-1].parts + piece.parts) if rows else piece
        if rows and _set(longer, size, kinds).wide <= room:
            rows[-1] = longer
        else:
            rows.append(piece)
    return [_set(row, size, kinds) for row in rows]


def _sizes(size: float, least: float) -> list[float]:
    return [size * share for share in (1, 0.92, 0.84, 0.76, 0.68, 0.6) if size * share > least] + [min(least, size)]


def _broken(shown: Shown) -> list[Row]:
    """A line for what is before the first sign of equality, and one for each such sign with what follows it."""
    if isinstance(shown, str) and ", " in shown:
        return [set_out(part) for part in shown.split(", ")]
    parts = set_out(shown).parts
    cuts = [n for n, part in enumerate(parts) if isinstance(part, Sign) and part.role == "relation"]
    if isinstance(shown, Equation) and len(cuts) > 1:
        cuts = cuts[1:] if cuts[0] <= 1 else cuts  # a letter alone stays with its sign
    return [Row(parts[a:b]) for a, b in pairwise([0, *cuts, len(parts)]) if a < b]


def _set(part: Set, size: float, kinds: Kinds) -> Setting:
    match part:
        case Row(parts):
            return _row(parts, size, kinds)
        case Letter():
            return _letter(part, size, kinds)
        case Numeral(digits, unit):
            return _run(Run(f"{digits}\u00a0{unit.replace('s2', 's²').replace('m2', 'm²')}" if unit else digits), size)
        case Words(text):
            space = Setting(0.24 * size * text.startswith("\u00a0"), 0.0, 0.0, ())
            return _beside(_beside(space, _run(Run(text.strip()), size), 0.0), space, 0.0)
        case Sign():
            return _run(Run(part.sign), size)
        case Stacked(over, under):
            return _stacked(_set(over, size, kinds), _set(under, size, kinds), size)
        case Raised(base, exponent):
            return _raised(_set(base, size, kinds), exponent, size)


def _run(run: Run, size: float, role: str = "ink-text") -> Setting:
    return Setting(width((run,), size, WEIGHT), HIGH * size, LOW * size, (Piece(0.0, 0.0, size, run, role),))


def _letter(letter: Letter, size: float, kinds: Kinds) -> Setting:
    role = kinds.get(letter.name + letter.index, kinds.get(f"{letter.name}_{letter.index}", "ink-text"))
    first = _run(Run(letter.name, italic=len(letter.name) == 1), size, role)
    if not letter.index:
        return first
    low = _run(Run(letter.index), size * INDEX, role)
    return _beside(first, low, 0.02 * size, INDEX_DROP * size)


def _beside(one: Setting, other: Setting, gap: float, drop: float = 0.0) -> Setting:
    at = one.wide + gap
    moved = tuple(Piece(p.x + at, p.y + drop, p.size, p.run, p.role, p.wide) for p in other.pieces)
    return Setting(at + other.wide, max(one.above, other.above - drop), max(one.below, other.below + drop),
                   one.pieces + moved)  # fmt: skip


def _row(parts: tuple[Set, ...], size: float, kinds: Kinds) -> Setting:
    made = Setting(0.0, HIGH * size, LOW * size, ())
    for number, part in enumerate(parts):
        if isinstance(part, Sign) and part.role == "times":
            made = _beside(made, Setting(0.0, 0.0, 0.0, ()), _thin(parts, number) * size)
        elif isinstance(part, Sign) and part.role in SPACES and part.sign not in CLOSE:
            space = SPACES[part.role] * size
            made = _beside(made, _run(Run(part.sign), size), space if made.pieces else 0.0)
            made = _beside(made, Setting(0.0, 0.0, 0.0, ()), space)
        elif isinstance(part, Sign) and part.role == "comma":
            made = _beside(_beside(made, _run(Run(","), size), 0.0), Setting(0.0, 0.0, 0.0, ()), 0.4 * size)
        else:
            made = _beside(made, _tinted(_set(part, size, kinds), parts, number, kinds), 0.0)
    return made


def _thin(parts: tuple[Set, ...], number: int) -> float:
    """Between letters a thin space; a count stands close to what it counts."""
    return 0.03 if number and isinstance(parts[number - 1], Numeral) else 0.14


def _tinted(made: Setting, parts: tuple[Set, ...], number: int, kinds: Kinds) -> Setting:
    """A whole number in front of a coloured letter has the letter's colour: 4T is one thing."""
    counts = isinstance(parts[number], Numeral) and number + 2 < len(parts)
    after = parts[number + 2] if counts else None
    if not isinstance(after, Letter) or not isinstance(parts[number + 1], Sign):
        return made
    sign = parts[number + 1]
    role = kinds.get(after.name + after.index, "ink-text")
    if not isinstance(sign, Sign) or sign.role != "times" or role == "ink-text":
        return made
    pieces = tuple(Piece(p.x, p.y, p.size, p.run, role, p.wide) for p in made.pieces)
    return Setting(made.wide, made.above, made.below, pieces)


def _stacked(over: Setting, under: Setting, size: float) -> Setting:
    """A fraction: numerator and denominator at full size, a bar of their width between."""
    wide = max(over.wide, under.wide) + 0.12 * size
    up = -(AXIS + GAP) * size - over.below
    down = (-AXIS + BAR + GAP) * size + under.above
    pieces = [Piece(p.x + (wide - over.wide) / 2, p.y + up, p.size, p.run, p.role, p.wide) for p in over.pieces]
    pieces += [Piece(p.x + (wide - under.wide) / 2, p.y + down, p.size, p.run, p.role, p.wide) for p in under.pieces]
    pieces.append(Piece(0.0, -AXIS * size, size, None, wide=wide))
    return Setting(wide, over.above - up, under.below + down, tuple(pieces))


def _raised(base: Setting, exponent: int, size: float) -> Setting:
    return _beside(base, _run(Run(str(exponent)), size * INDEX), 0.02 * size, -0.36 * size)
