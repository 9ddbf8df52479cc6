"""English where it depends on number: counts, plurals, fractions, units, and how long a sentence takes to say."""

import re
from collections.abc import Sequence
from fractions import Fraction

from gantline.quantity import Formula, Number, Power, Product, Quotient, Sum, Symbol, Unit, negative

from ...numbers import Numeral, numeral

_SMALL = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
]
_TENS = ["zero", "ten", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_ORDINALS = ["zeroth", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"]
_PARTS = {2: ("half", "halves"), 3: ("third", "thirds"), 4: ("quarter", "quarters")}
ABOUT = "about "
WORDS_A_SECOND = 2.3
BETWEEN_STEPS = 0.4  # seconds


UNKNOWN = "unknown weight"


def count(number: int) -> str:
    """Things counted: in words up to ten, in figures beyond."""
    return _SMALL[number] if 0 <= number <= 10 else str(number)


def ordinal(number: int) -> str:
    if number <= 10:
        return _ORDINALS[number]
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10 if number % 100 not in (11, 12, 13) else 0, "th")
    return f"{number}{ending}"


def things(number: int, one: str, many: str) -> str:
    """Counted things with their number: one strand, two strands."""
    return f"{count(number)} {one if number == 1 else many}"


def times(number: Fraction) -> str:
    """A multiple in front of what it multiplies: twice, three times, half."""
    if number.denominator == 1:
        whole = int(number)
        return {1: "once", 2: "twice"}.get(whole, f"{count(whole)} times")
    return f"{fraction(number) or _plain(number)} times" if number > 1 else (fraction(number) or _plain(number))


def fraction(number: Fraction) -> str | None:
    """A half, a third, three quarters, one and a half, in words; None where figures are plainer."""
    whole, rest = divmod(abs(number), 1)
    if rest == 0 or rest.denominator not in _PARTS or number < 0 or abs(number.numerator) >= 10:
        return None
    one, many = _PARTS[rest.denominator]
    part = (one if rest.denominator == 2 and not whole else f"a {one}") if rest.numerator == 1 else (
        f"{count(rest.numerator)} {many}"
    )  # fmt: skip
    return f"{count(int(whole))} and {part}" if whole else part


def _plain(number: Fraction) -> str:
    return f"{number.numerator} over {number.denominator}"


def joined(items: Sequence[str]) -> str:
    """a, b and c."""
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} and {items[-1]}"


def article(noun: str) -> str:
    return "an" if noun[:1] in "aeiou" and not noun.startswith(("uni", "eu", "one", "use")) else "a"


def hedge(figure: Numeral) -> str:
    """The word for the rounding: nearly, a little over, about; none where it is exact or cannot be noticed."""
    if abs(figure.off) < Fraction(1, 2000):
        return ""
    if abs(figure.off) > Fraction(2, 100):
        return ABOUT
    return "nearly " if figure.off > 0 else "a little over "


def measured(figure: Numeral, number: Fraction, unit: Unit) -> str:
    """A number with its unit in words: 90 newtons, half a metre, a metre and a half, 10 centimetres."""
    one, many = unit.spoken
    if unit.kind == "length" and (part := fraction(number)):
        if number == Fraction(3, 2):
            return f"{article(one)} {one} and a half"
        whole = number > 1
        return f"{part} {many}" if whole else f"{part} {'a' if part == 'half' else 'of a'} {one}"
    if unit.name == "m" and 0 < number < 1:
        return f"{centimetres(number)} centimetres"
    return f"{figure.text} {one if figure.text == '1' else many}"


def centimetres(number: Fraction) -> str:
    """A length under a metre, as a number of centimetres."""
    return numeral(number * 100).text


def spoken(formula: Formula) -> str:
    """A formula read aloud: W plus w, over 4."""
    match formula:
        case Number(number, shown):
            return shown or (str(number) if number.denominator == 1 else fraction(number) or _plain(number))
        case Symbol(name):
            return name.replace("_", " ")
        case Sum((first, *rest)):
            return spoken(first) + "".join(
                f" plus {spoken(term)}" if (less := negative(term)) is None else f" less {spoken(less)}"
                for term in rest
            )
        case Product(factors):
            return " times ".join(spoken(factor) for factor in factors)
        case Quotient(over, under):
            comma = "," if isinstance(over, Sum) else ""
            return f"{spoken(over)}{comma} over {spoken(under)}"
        case Power(base, exponent):
            return f"{spoken(base)} {'squared' if exponent == 2 else f'to the power of {exponent}'}"
        case _:
            return ""


def spoken_words(text: str) -> int:
    """How many words a sentence has when it is read aloud: 224 is five, W is one."""
    total = 0
    for word in re.findall(r"[\w.,’'²/-]+", text):
        word = word.strip(".,'’/")
        if re.fullmatch(r"-?[\d,]*\.?\d+", word):
            total += _number_words(word.lstrip("-").replace(",", ""))
        elif word:
            total += len([part for part in re.split(r"[-/]", word) if part])
    return total


def _number_words(figures: str) -> int:
    whole, _, rest = figures.partition(".")
    return len(re.findall(r"\w+", cardinal(int(whole or 0)))) + (1 + len(rest) if rest else 0)


def cardinal(number: int) -> str:
    """A whole number as read aloud: two hundred and twenty-four."""
    if number < 20:
        return _SMALL[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return _TENS[tens] + (f"-{_SMALL[ones]}" if ones else "")
    if number < 1000:
        hundreds, rest = divmod(number, 100)
        return f"{_SMALL[hundreds]} hundred" + (f" and {cardinal(rest)}" if rest else "")
    size, name = (1000, "thousand") if number < 10**6 else (10**6, "million")
    big, rest = divmod(number, size)
    link = " and " if 0 < rest < 100 else " "
    return f"{cardinal(big)} {name}" + (f"{link}{cardinal(rest)}" if rest else "")


def units(multiple: Fraction, extra: Fraction, key: str) -> str:
    """A pull in units of the hand's: F, two F plus 24, four F less 120; the number stays a live slot."""
    base = (
        "F"
        if multiple == 1
        else f"{count(int(multiple))} F"
        if multiple.denominator == 1
        else f"{_share(multiple)} of F"
    )
    return base if extra == 0 else f"{base} {'plus' if extra > 0 else 'less'} {{{key}_bare}}"


def _share(multiple: Fraction) -> str:
    return fraction(multiple) or f"{multiple.numerator} over {multiple.denominator}"


def units_times(times: int, unit: str) -> str:
    """So many pulls of one kind: F; twice F; three times two F plus 24."""
    return unit if times == 1 else f"{'twice' if times == 2 else f'{count(times)} times'} {unit}"


def off(said: Fraction, right: Fraction) -> str:
    """How far a wrong number is from the right one: 64 per cent too much, half of it, three times too much."""
    ratio = said / right
    if ratio >= 2:
        return f"{numeral(ratio, 2).text} times as much as it takes"
    percent = numeral(abs(ratio - 1) * 100, 2).text
    return f"{percent} per cent too {'much' if ratio > 1 else 'little'}"


def share(part: Fraction) -> str:
    """A part of a whole in words: a half, a quarter, an eighth, two fifths."""
    if part.denominator <= 4 and (said := fraction(part)):
        return "a half" if said == "half" else said
    named = ordinal(part.denominator) if part.denominator <= 10 else f"{part.denominator}th"
    if part.numerator == 1:
        return f"{article(named)} {named}"
    return f"{count(part.numerator)} {named}s"


def multiple(number: Fraction) -> str:
    """A multiple of a small way: 1, 2, 1.5."""
    return str(number) if number.denominator == 1 else numeral(number).text


def moved(weights: Sequence[tuple[str, Fraction]]) -> str:
    """Weights with the ways they go, as live numbers: {W_bare} and {w_bare} by 1, {w1_bare} by 2."""
    ways: dict[Fraction, list[str]] = {}
    for weight, way in weights:
        ways.setdefault(way, []).append(weight)
    return joined([f"{joined(found)} by {multiple(way)}" for way, found in ways.items()]) if ways else "nothing"


def losses(percent: Sequence[Fraction], wheels: int) -> str:
    """What wheels lose: each of them alike, the worst of them, or those that lose at all."""
    if not percent:
        return "none loses anything"
    much = f"{numeral(max(percent)).text} per cent"
    if len(set(percent)) > 1:
        return f"the worst wheel loses {much}"
    if len(percent) == wheels:
        return f"each loses {much}" if wheels > 1 else f"this one loses {much}"
    return f"one of them loses {much}" if len(percent) == 1 else f"{count(len(percent))} of them lose {much}"
