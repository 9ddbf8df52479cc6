"""One statement, read word by word from left to right."""

import re
from collections.abc import Callable

from gantline.problems import Place

from .problems import Notes, did_you_mean, shown
from .scan import comment_start
from .tree import Attribute, Contact, Run, Statement, Word
from .value import ValueReader

STATEMENTS = (
    "title", "gravity", "fixed", "moving", "load", "rope", "cord", "apart", "lead", "raise", "lower", "effort",
)  # fmt: skip
ATTRIBUTES = (
    "sheaves", "weight", "mass", "carries", "radius", "disc", "inertia", "efficiency", "spacing", "hook", "becket",
    "stiffness", "diameter", "drag",
)  # fmt: skip
RESERVED = ("hand", "over", "under", "round", "left", "right", "level", "plumb", "along", "at", "near")
LONGEST_TITLE = 200
LONGEST_NAME = 64

_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_-]*", re.ASCII)
_MARKS = (",", ":", "=")


class StatementReader(ValueReader):
    """Reads the words of a statement; `comments` are those of its lines."""

    def __init__(self, notes: Notes, words: list[Word], comments: list[str]) -> None:
        super().__init__(notes, words)
        self._comments = comments

    def read(self) -> Statement:
        """The statement. Raises Unreadable once its problem is noted."""
        keyword = self.words[0]
        self.at = 1
        readers: dict[str, Callable[[Word], Statement]] = {
            "title": self._title, "gravity": self._valued, "effort": self._valued, "fixed": self._part,
            "moving": self._part, "load": self._part, "rope": self._rope, "cord": self._part, "apart": self._apart,
            "lead": self._valued, "raise": self._motion, "lower": self._motion,
        }  # fmt: skip
        if keyword.text in readers:
            return readers[keyword.text](keyword)
        raise self.notes.stop(
            "no-such-statement", keyword.place, f"`{shown(keyword)}` begins no statement",
            "each line begins with the word that says what it is about",
            did_you_mean(keyword.text, STATEMENTS, f"begin it with one of: {', '.join(STATEMENTS)}."),
        )  # fmt: skip

    def _done(self, keyword: Word, **fields: object) -> Statement:
        if self.at < len(self.words):
            extra = self.words[self.at]
            raise self.notes.stop(
                "something-left-over", extra.place, f"`{shown(extra)}` is not expected here",
                "the statement is complete without it", "take it away; a further attribute begins with a comma.",
            )  # fmt: skip
        *within, last = self._comments
        return Statement(keyword, comment=last, comments_within=tuple(within), **fields)  # type: ignore[arg-type]

    def _title(self, keyword: Word) -> Statement:
        line = self.notes.lines[keyword.place.line - 1]
        text = line[keyword.place.column - 1 + len("title") : comment_start(line)].strip()
        place = Place(keyword.place.line, keyword.place.column, len(text) + 6)
        if not text:
            raise self.notes.stop(
                "title-missing", self.end(), "the title says nothing", "a lesson and its figures are named by it",
                "write the title behind the word, or leave the line out.",
            )  # fmt: skip
        if len(text) > LONGEST_TITLE:
            raise self.notes.stop(
                "title-too-long", place, f"the title has {len(text)} characters; {LONGEST_TITLE} fit",
                "a title is read at one glance", "shorten it; the rest can stand in a comment.",
            )  # fmt: skip
        self.at = len(self.words)
        return self._done(keyword, title=text)

    def _valued(self, keyword: Word) -> Statement:
        return self._done(keyword, value=self.value(keyword.text))

    def _motion(self, keyword: Word) -> Statement:
        return self._done(keyword, name=self._name("the part that moves"), value=self.value(keyword.text))

    def _apart(self, keyword: Word) -> Statement:
        name, second = self._name("the part above"), self._name("the part below")
        return self._done(keyword, name=name, second=second, value=self.value(keyword.text))

    def _part(self, keyword: Word) -> Statement:
        whose = "the name of the rope" if keyword.text == "cord" else f"the name of the {keyword.text} part"
        name = self._name(whose)
        attributes: list[Attribute] = []
        while self.at < len(self.words):
            if self.peek() == ",":
                self.at += 1
            elif attributes:
                break
            attributes.append(self._attribute(attributes))
        return self._done(keyword, name=name, attributes=tuple(attributes))

    def _attribute(self, before: list[Attribute]) -> Attribute:
        keyword = self.take("attribute-missing", "an attribute", "`weight 50 N`, or end the line without a comma")
        if keyword.text not in ATTRIBUTES:
            raise self.notes.stop(
                "no-such-attribute", keyword.place, f"`{shown(keyword)}` is no attribute",
                "what a part has is said by words the machine knows",
                did_you_mean(keyword.text, ATTRIBUTES, f"an attribute is one of: {', '.join(ATTRIBUTES)}."),
            )  # fmt: skip
        if any(attribute.keyword.text == keyword.text for attribute in before):
            raise self.notes.stop(
                "attribute-twice", keyword.place, f"`{keyword.text}` is said twice of one part",
                "two values for one thing cannot both hold", "keep one of them.",
            )  # fmt: skip
        if keyword.text == "carries":
            names = [self._name("what it carries")]
            while self.peek() == "and":
                self.at += 1
                names.append(self._name("what it carries"))
            return Attribute(keyword, names=tuple(names))
        if keyword.text == "sheaves":
            return Attribute(keyword, value=self.count())
        return Attribute(keyword, value=self.value(keyword.text))

    def _rope(self, keyword: Word) -> Statement:
        name = self._name("the name of the rope")
        if self.peek() != ":":
            raise self.notes.stop(
                "colon-missing", self.place(), "a colon is missing behind the rope's name",
                "it parts the name from the path", f"write `rope {shown(name)}: ...`.",
            )  # fmt: skip
        self.at += 1
        contacts = [self._contact()]
        while self.peek() == ",":
            self.at += 1
            contacts.append(self._contact())
        return self._done(keyword, name=name, contacts=tuple(contacts), runs=(Run(),) * (len(contacts) - 1))

    def _contact(self) -> Contact:
        first = self.take("contact-missing", "the next thing the rope touches", "a part, `over upper` or `hand`")
        if first.text == "hand":
            at = None
            if self.peek() == "at":
                self.at += 1
                at = self._name("who holds the rope")
            return Contact(None, None, None, at, first.place)
        side = first if first.text in ("over", "under") else None
        where = (
            self.take("contact-missing", f"the sheave the rope passes {first.text}", f"`{first.text} upper.1`")
            if side
            else first
        )
        part, dot, index = where.text.partition(".")
        if where.text in _MARKS or not _NAME.fullmatch(part) or (dot and not re.fullmatch(r"[0-9]{1,4}", index)):
            raise self.notes.stop(
                "contact-unreadable", where.place, f"`{shown(where)}` is no place for a rope",
                "a rope is led from part to part, over or under their sheaves",
                "write a part's name, or `over` or `under` and a sheave such as lower.2.",
            )  # fmt: skip
        self._free(Word(part, where.place))
        name = Word(part, Place(where.place.line, where.place.column, len(part)))
        return Contact(side, name, int(index) if dot else None, None, first.place)

    def _name(self, what: str) -> Word:
        word = self.take("name-missing", what, "`fall`" if "rope" in what else "`lower`")
        if not _NAME.fullmatch(word.text) or len(word.text) > LONGEST_NAME:
            raise self.notes.stop(
                "name-unreadable", word.place, f"`{shown(word)}` cannot be {what}",
                f"a name begins with a letter and goes on with letters a to z, digits, - and _, {LONGEST_NAME} at most",
                "write such a name; titles may have any letters.",
            )  # fmt: skip
        self._free(word)
        return word

    def _free(self, word: Word) -> None:
        if word.text in RESERVED:
            raise self.notes.stop(
                "word-reserved", word.place, f"`{word.text}` cannot name a part",
                "the word says how a rope runs", "choose another name, such as what the part does: `runner`.",
            )  # fmt: skip
