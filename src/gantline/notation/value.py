"""Values as written: a number with its unit, a symbol, or both."""

import re
from fractions import Fraction

from gantline.problems import Place

from .problems import Notes, shown
from .tree import Word, Written

MOST_CHARACTERS = 40
MOST_EXPONENT = 12
MOST_SHEAVES = 1000  # of one block

# Checked on the text before anything is converted: digits are ASCII, an exponent is short.
_NUMERAL = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+(?![0-9.]))?(?:/[0-9]+\.?[0-9]*)?")
_SYMBOL = re.compile(r"[A-Za-z][A-Za-z0-9_]*", re.ASCII)
_LONGEST_SYMBOL = 16
_EXAMPLES = {
    "gravity": "`9.81 m/s2`", "mass": "`5 kg`", "disc": "`0.2 kg`", "radius": "`30 mm`", "spacing": "`60 mm`",
    "inertia": "`0.001 kg m2`", "hook": "`60 mm`", "becket": "`-20 mm`", "stiffness": "`2 kN`", "diameter": "`3 mm`",
    "drag": "`0.02 N`", "apart": "`0.8 m`", "lead": "`1.2 m`", "efficiency": "`95 %`", "raise": "`0.5 m`",
    "lower": "`0.5 m`",
}  # fmt: skip
_NO_NUMBERS = ("nan", "inf", "infinity")
_UNIT = re.compile(r"[A-Za-z%µμ°].*")


class ValueReader:
    """The words of a statement and how far they are read."""

    def __init__(self, notes: Notes, words: list[Word]) -> None:
        self.notes, self.words, self.at = notes, words, 0

    def peek(self) -> str:
        return self.words[self.at].text if self.at < len(self.words) else ""

    def end(self) -> Place:
        """The place just behind the last word read, where what is missing would stand."""
        last = self.words[max(self.at, 1) - 1].place
        return Place(last.line, last.column + last.length)

    def place(self) -> Place:
        """The place of the next word, or where it would stand."""
        return self.words[self.at].place if self.at < len(self.words) else self.end()

    def take(self, code: str, what: str, such_as: str) -> Word:
        """The next word; a comma or the end of the line is none. `such_as` is an example for the advice."""
        if self.at >= len(self.words) or self.words[self.at].text == ",":
            raise self.notes.stop(
                code,
                self.place(),
                f"{what} is missing here",
                "the statement is not complete without it",
                f"write {what}, such as {such_as}.",
            )
        word = self.words[self.at]
        self.at += 1
        return word

    def count(self) -> Written:
        """A whole number without a unit."""
        word = self.take("value-missing", "the number of sheaves", "`sheaves 2`")
        if not re.fullmatch(r"[0-9]{1,4}", word.text) or not 1 <= int(word.text) <= MOST_SHEAVES:
            raise self.notes.stop(
                "count-unreadable", word.place, f"`{shown(word)}` is no number of sheaves",
                f"sheaves are counted: 1, 2, 3 and so on, up to {MOST_SHEAVES} in a block",
                "write a whole number without a unit.",
            )  # fmt: skip
        return Written(None, Fraction(int(word.text)), word, None, word.place)

    def value(self, of: str) -> Written:
        """What is said of `of`: `348 N`, `W = 348 N` or `W`. Whether the unit fits is for others to say."""
        first = self.take("value-missing", f"the value of `{of}`", _EXAMPLES.get(of, "`W = 50 N`"))
        symbol = None
        if _SYMBOL.fullmatch(first.text) and first.text.lower() not in _NO_NUMBERS:
            symbol = self._symbol(first)
            if self.peek() != "=":
                return Written(symbol, None, None, None, first.place)
            self.at += 1
            first = self.take("value-missing", f"the number of `{symbol.text}`", f"`{symbol.text} = 50 N`")
        numeral, rest = self._numeral(first)
        unit = self._unit(rest)
        start, last = (symbol or first).place, unit or numeral
        length = last.place.column + last.place.length - start.column if last.place.line == start.line else start.length
        return Written(symbol, self._number(numeral), numeral, unit, Place(start.line, start.column, length))

    def _symbol(self, word: Word) -> Word:
        if len(word.text) > _LONGEST_SYMBOL:
            raise self.notes.stop(
                "symbol-too-long", word.place, f"the symbol `{shown(word)}` has more than {_LONGEST_SYMBOL} characters",
                "formulas are made of it", "choose a letter or two.",
            )  # fmt: skip
        return word

    def _numeral(self, word: Word) -> tuple[Word, Word | None]:
        """The digits of a word, and what is glued to them."""
        match = _NUMERAL.match(word.text)
        end = match.end() if match else 0
        rest = word.text[end:]
        if match is None or (rest and not _UNIT.fullmatch(rest)):
            raise self._no_number(word)
        self._comma(word)
        at = word.place
        numeral = Word(word.text[:end], Place(at.line, at.column, end))
        return numeral, Word(rest, Place(at.line, at.column + end, len(rest))) if rest else None

    def _no_number(self, word: Word) -> Exception:
        odd = next((c for c in word.text if not c.isascii()), None)
        why = "a number is written in the digits 0 to 9, with a point or as a fraction: 12.5 or 1/3"
        if odd is not None:
            why = f"{why}; U+{ord(odd):04X} is none of them"
        return self.notes.stop(
            "number-unreadable", word.place, f"`{shown(word)}` is no number", why,
            "write it in plain digits, thousands without a separator.",
        )  # fmt: skip

    def _comma(self, word: Word) -> None:
        """2,5 and 1,000: a comma parts attributes, so it cannot stand inside a number."""
        after = self.words[self.at + 1 : self.at + 2] if self.peek() == "," else []
        if after and after[0].text[:1].isdigit():
            raise self.notes.stop(
                "comma-in-number", self.words[self.at].place, "a comma stands inside a number",
                "a comma parts one attribute from the next", f"write {shown(word)}.{shown(after[0])} for a decimal, and"
                " thousands without a separator.",
            )  # fmt: skip

    def _number(self, word: Word) -> Fraction:
        if len(word.text) > MOST_CHARACTERS:
            raise self.notes.stop(
                "number-too-long", word.place, f"a number has {len(word.text)} characters; {MOST_CHARACTERS} are read",
                "no measurement is that fine", "round it.",
            )  # fmt: skip
        over, _, under = word.text.partition("/")
        exponent = re.search(r"[eE]([+-]?[0-9]+)$", over)
        if exponent and abs(int(exponent.group(1))) > MOST_EXPONENT:
            raise self.notes.stop(
                "number-too-large", word.place, f"`{word.text}` has an exponent past {MOST_EXPONENT}",
                "nothing that hangs on a rope is so large or so small", "write a number nearer to life.",
            )  # fmt: skip
        if under and not float(under):
            raise self.notes.stop(
                "division-by-zero",
                word.place,
                f"`{word.text}` divides by zero",
                "that is no number",
                "write another number.",
            )
        return Fraction(over) / Fraction(under or 1)

    def _unit(self, glued: Word | None) -> Word | None:
        """All words up to the next comma: units may have several, `kg m2`."""
        words = [glued] if glued else []
        while self.at < len(self.words) and self.peek() not in (",", ":", "="):
            words.append(self.words[self.at])
            self.at += 1
        if not words:
            return None
        first, last = words[0].place, words[-1].place
        text = " ".join(word.text for word in words)
        if text[:1].isdigit():
            raise self._no_number(words[0])
        return Word(text, Place(first.line, first.column, last.column + last.length - first.column))
