"""Formulas as MathML Core: letters italic, digits and units upright, fractions at full size."""

from collections.abc import Mapping

from gantline.quantity import Equation, Letter, Numeral, Raised, Row, Set, Shown, Sign, Stacked, Words, plain, set_out

from .markup import Markup, element, join

Kinds = Mapping[str, str]
_SHORT = 12  # characters of an equation that is never parted


def write(shown: Shown, kinds: Kinds | None = None) -> Markup:
    """A formula, an equation, or a short formula in words as `math` elements, one for each piece that may stand on a
    line of its own: what is before an equals sign, and each equals sign with what follows it.

    `kinds` gives symbols a class by which a page may colour them. The alternative text is the piece on one line.
    """
    pieces = [_math(piece, first, kinds or {}) for first, piece in _pieces(shown)]
    return join(*(join(element("wbr"), piece) if n else piece for n, piece in enumerate(pieces)))


def _pieces(shown: Shown) -> list[tuple[bool, Shown]]:
    """The pieces, and whether each begins a line of thought of its own or goes on with an equals sign."""
    if isinstance(shown, str):
        words = shown.split(", ")
        return [(True, f"{word}," if n < len(words) else word) for n, word in enumerate(words, 1)]
    if isinstance(shown, Equation) and len(shown.sides) > 1:
        first = (
            Equation(shown.sides[:2]) if len(plain(Equation(shown.sides[:2]))) < _SHORT else Equation(shown.sides[:1])
        )
        return [(True, first), *((False, side) for side in shown.sides[len(first.sides) :])]
    return [(True, shown)]


def _math(piece: Shown, first: bool, kinds: Kinds) -> Markup:
    inner = _node(set_out(piece), kinds)
    alt = plain(piece)
    if not first:
        inner, alt = join(element("mo", "=", form="infix"), inner), f"= {alt}"
    return element("math", element("mrow", inner), displaystyle="true", alttext=alt)


def _node(node: Set, kinds: Kinds) -> Markup:
    match node:
        case Letter(name, index):
            return _letter(name, index, kinds)
        case Numeral(digits, unit):
            return join(element("mn", digits), element("mtext", f"\u00a0{unit}") if unit else None)
        case Words(text):
            return element("mtext", text)
        case Sign(sign, role):
            return _sign(sign, role)
        case Stacked(over, under):
            return element("mfrac", _row(over, kinds), _row(under, kinds))
        case Raised(base, exponent):
            return element("msup", _row(base, kinds), element("mn", str(exponent)))
        case Row(parts):
            return join(*(_node(part, kinds) for part in parts))


def _row(node: Set, kinds: Kinds) -> Markup:
    """One element, as a fraction or a power needs it."""
    return element("mrow", _node(node, kinds))


def _letter(name: str, index: str, kinds: Kinds) -> Markup:
    kind = kinds.get(name + index) or kinds.get(f"{name}_{index}")
    if not index:
        return element("mi", name, class_=kind)
    low = element("mn", index) if index.isdigit() else element("mtext", index)
    return element("msub", element("mi", name), low, class_=kind)


def _sign(sign: str, role: str) -> Markup:
    if role == "comma":
        return element("mtext", f"{sign}\u2002")
    if role == "plain":
        return element("mi", sign)
    form = "prefix" if role == "prefix" else None
    return element("mo", sign, form=form, stretchy="false" if role == "bracket" else None)
