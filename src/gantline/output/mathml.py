"""Formulas as MathML Core: letters italic, digits and units upright, fractions at full size."""

from collections.abc import Mapping

from .markup import Markup, element, join
from .setting import Letter, Numeral, Raised, Row, Set, Shown, Sign, Stacked, Words, plain, set_out

Kinds = Mapping[str, str]


def write(shown: Shown, kinds: Kinds | None = None, alttext: str | None = None) -> Markup:
    """A `math` element of a formula, an equation, or a short formula in words.

    `kinds` gives symbols a class by which a page may colour them. `alttext` is the formula on one
    line unless given.
    """
    alt = plain(shown) if alttext is None else alttext
    return element("math", element("mrow", _node(set_out(shown), kinds or {})), alttext=alt)


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
