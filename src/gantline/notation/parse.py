"""From text to tree: one statement a line, every problem with its place, none that stops the reading."""

import re
from collections.abc import Callable
from difflib import get_close_matches
from fractions import Fraction

from gantline.problems import Place, Problem
from gantline.quantity import UNITS

from .scan import comment_start, lines_of, words_of
from .tree import Attribute, Contact, Remark, Run, Statement, Tree, Word, Written

MOST_BYTES = 64 * 1024
MOST_CHARACTERS = 40
MOST_EXPONENT = 12

STATEMENTS = ("title", "gravity", "fixed", "moving", "load", "rope", "raise", "lower", "effort")
VALUES = ("weight", "mass", "radius", "disc", "inertia", "efficiency", "spacing")
ATTRIBUTES = ("sheaves", "carries", *VALUES)

_NUMERAL = re.compile(r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?(?:/\d+(?:\.\d*)?)?", re.ASCII)
_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_-]*", re.ASCII)
_SYMBOL = re.compile(r"[A-Za-z][A-Za-z0-9_]*", re.ASCII)


def parse(text: str) -> tuple[Tree, tuple[Problem, ...]]:
    """The tree of a text, with every problem found. Lines that cannot be read are left out of the tree."""
    reading = _Reading(lines_of(text))
    reading.run()
    return Tree(tuple(reading.items), reading.lines), tuple(reading.problems)


class _Stop(Exception):
    """A statement that cannot be read on; its problem is already noted."""


class _Reading:
    def __init__(self, lines: tuple[str, ...]) -> None:
        self.lines = lines
        self.items: list[Statement | Remark] = []
        self.problems: list[Problem] = []

    def run(self) -> None:
        n = 0
        last = len(self.lines) - 1 if self.lines[-1] == "" else len(self.lines)
        while n < last:
            line = self.lines[n]
            cut = comment_start(line)
            if not line[:cut].strip():
                self.items.append(Remark(line[cut + 1 :].strip() if cut < len(line) else None))
                n += 1
                continue
            n = self._statement(n, last)

    def _statement(self, n: int, last: int) -> int:
        """Read the statement that begins on line n (from 0); the next line's number."""
        words: list[Word] = []
        comments: list[str] = []
        while True:
            line = self.lines[n]
            title = not words and line.split(None, 1)[:1] == ["title"]
            cut = comment_start(line)
            comments.append(line[cut + 1 :].strip() if cut < len(line) else "")
            words += words_of(line, n + 1, 0, cut)
            n += 1
            if title or not words or words[-1].text != "," or n >= last:
                break
        try:
            self.items.append(_Statement(self, words, comments).read())
        except _Stop:
            pass
        return n

    def problem(self, code: str, place: Place, says: str, why: str, do: str) -> None:
        self.problems.append(Problem(code, place, self.lines[place.line - 1], says, why, do))


class _Statement:
    """The words of one statement, read from left to right."""

    def __init__(self, reading: _Reading, words: list[Word], comments: list[str]) -> None:
        self.reading, self.words, self.comments, self.at = reading, words, comments, 0

    def read(self) -> Statement:
        keyword = self.words[0]
        self.at = 1
        readers: dict[str, Callable[[Word], Statement]] = {
            "title": self._title, "gravity": self._valued, "effort": self._valued, "fixed": self._part,
            "moving": self._part, "load": self._part, "rope": self._rope, "raise": self._motion, "lower": self._motion,
        }  # fmt: skip
        if keyword.text not in readers:
            near = get_close_matches(keyword.text, STATEMENTS, 1, 0.6)
            hint = f"did you mean `{near[0]}`?" if near else f"begin the line with one of: {', '.join(STATEMENTS)}."
            self.stop("no-such-statement", keyword, f"`{keyword.text}` begins no statement", "every line begins with a keyword", hint)
        return readers[keyword.text](keyword)

    # -- statements --

    def _done(self, keyword: Word, **fields: object) -> Statement:
        if self.at < len(self.words):
            extra = self.words[self.at]
            self.stop("something-left-over", extra, f"`{extra.text}` is not expected here", "a statement ends where it is complete", "take it away, or put a comma before the next attribute.")
        return Statement(keyword, comment=self.comments[-1], comments_within=tuple(self.comments[:-1]), **fields)  # type: ignore[arg-type]

    def _title(self, keyword: Word) -> Statement:
        line = self.reading.lines[keyword.place.line - 1]
        text = line[: comment_start(line)][keyword.place.column - 1 + len("title") :].strip()
        self.at = len(self.words)
        return self._done(keyword, title=text)

    def _valued(self, keyword: Word) -> Statement:
        return self._done(keyword, value=self.value())

    def _motion(self, keyword: Word) -> Statement:
        return self._done(keyword, name=self.name(), value=self.value())

    def _part(self, keyword: Word) -> Statement:
        name = self.name()
        attributes = []
        while self.at < len(self.words):
            if attributes or self.peek() == ",":
                self.mark(",")
            attributes.append(self._attribute())
        return self._done(keyword, name=name, attributes=tuple(attributes))

    def _attribute(self) -> Attribute:
        keyword = self.take("an attribute")
        if keyword.text == "carries":
            names = [self.name()]
            while self.peek() == "and":
                self.at += 1
                names.append(self.name())
            return Attribute(keyword, names=tuple(names))
        if keyword.text not in ATTRIBUTES:
            near = get_close_matches(keyword.text, ATTRIBUTES, 1, 0.6)
            hint = f"did you mean `{near[0]}`?" if near else f"an attribute is one of: {', '.join(ATTRIBUTES)}."
            self.stop("no-such-attribute", keyword, f"`{keyword.text}` is no attribute", "a part says what it has in attributes", hint)
        return Attribute(keyword, value=self.value(plain=keyword.text == "sheaves"))

    def _rope(self, keyword: Word) -> Statement:
        name = self.name()
        self.mark(":")
        contacts = [self._contact()]
        while self.at < len(self.words):
            self.mark(",")
            contacts.append(self._contact())
        return self._done(keyword, name=name, contacts=tuple(contacts), runs=(Run(),) * (len(contacts) - 1))

    def _contact(self) -> Contact:
        first = self.take("where the rope goes")
        if first.text == "hand":
            at = None
            if self.peek() == "at":
                self.at += 1
                at = self.name()
            return Contact(None, None, None, at, first.place)
        side = first if first.text in ("over", "under") else None
        where = self.take("the sheave it passes") if side else first
        part, dot, index = where.text.partition(".")
        if not _NAME.fullmatch(part) or (dot and not re.fullmatch(r"\d{1,4}", index, re.ASCII)):
            self.stop("name-unreadable", where, f"`{where.text}` is no name of a part", "a contact names a part, or a sheave as part.number", "write it as lower or lower.2.")
        return Contact(side, Word(part, Place(where.place.line, where.place.column, len(part))), int(index) if dot else None, None, first.place)

    # -- words --

    def stop(self, code: str, word: Word, says: str, why: str, do: str) -> None:
        self.reading.problem(code, word.place, says, why, do)
        raise _Stop

    def peek(self) -> str:
        return self.words[self.at].text if self.at < len(self.words) else ""

    def take(self, what: str) -> Word:
        if self.at >= len(self.words):
            last = self.words[-1].place
            self.stop("line-incomplete", Word("", Place(last.line, last.column + last.length)), f"{what} is missing at the end of the line", "the statement is not complete", "complete it.")
        word = self.words[self.at]
        self.at += 1
        return word

    def mark(self, mark: str) -> None:
        word = self.take(f"`{mark}`")
        if word.text != mark:
            self.stop("mark-missing", word, f"`{mark}` is missing before `{word.text}`", "marks part what belongs apart", f"put `{mark}` before it.")

    def name(self) -> Word:
        word = self.take("a name")
        if not _NAME.fullmatch(word.text):
            self.stop("name-unreadable", word, f"`{word.text}` is no name", "a name begins with a letter and has letters, digits, - and _", "choose another name.")
        return word

    def value(self, plain: bool = False) -> Written:
        first = self.take("a value")
        symbol = None
        if not plain and _SYMBOL.fullmatch(first.text):
            symbol = first
            if self.peek() != "=":
                return Written(symbol, None, None, None, first.place)
            self.at += 1
            first = self.take("a number")
        number = self._number(first)
        unit = None if plain else self._unit()
        last = unit or first
        start = (symbol or first).place
        return Written(symbol, number, first, unit, Place(start.line, start.column, last.place.column + last.place.length - start.column))

    def _number(self, word: Word) -> Fraction:
        match = _NUMERAL.fullmatch(word.text)
        if match is None or len(word.text) > MOST_CHARACTERS:
            self.stop("number-unreadable", word, f"`{word.text[:60]}` is no number", "numbers are decimals or fractions", "write it like 12.5 or 1/3.")
        over, _, under = word.text.partition("/")
        exponent = re.search(r"[eE]([+-]?\d+)$", over)
        if exponent and abs(int(exponent.group(1))) > MOST_EXPONENT:
            self.stop("number-too-large", word, f"`{word.text}` has an exponent past {MOST_EXPONENT}", "nothing that hangs on a rope is that large or small", "write a smaller exponent.")
        if under and Fraction(under) == 0:
            self.stop("number-unreadable", word, f"`{word.text}` divides by zero", "no number results", "write another number.")
        return Fraction(over) / Fraction(under or 1)

    def _unit(self) -> Word:
        word = self.take("a unit")
        if self.peek() and f"{word.text} {self.peek()}" in UNITS:
            second = self.take("a unit")
            word = Word(f"{word.text} {second.text}", Place(word.place.line, word.place.column, second.place.column + second.place.length - word.place.column))
        if word.text not in UNITS:
            near = get_close_matches(word.text, UNITS, 1, 0.5)
            self.stop("no-such-unit", word, f"`{word.text}` is no unit known here", "a number alone says nothing of its size", f"did you mean `{near[0]}`?" if near else f"units are: {', '.join(UNITS)}.")
        return word
