"""A text with the places of its words, and changes that touch only the characters concerned."""

from msgspec import Struct

from gantline.notation import Statement, Tree, Word, comment_start, lines_of, parse, words_of
from gantline.problems import Place

KEYWORD_WIDTH = 9  # where names begin, in a text that has no habit of its own


class Change(Struct, frozen=True):
    """The characters from `start` up to `end` (counted from 0) become `new`."""

    start: int
    end: int
    new: str


class Slip:
    """A text, its tree, and where in the text each word stands. What could not be read is not in the tree."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tree: Tree = parse(text)[0]
        self.lines = lines_of(text.removeprefix("\ufeff"))
        self.break_ = next((mark for mark in ("\r\n", "\n", "\r") if mark in text), "\n")
        self._starts = _starts(text, self.lines)

    def statements(self, *keywords: str) -> list[Statement]:
        """The statements that begin with one of these words, in the order of the text."""
        return [s for s in self.tree.items if isinstance(s, Statement) and s.keyword.text in keywords]

    def part(self, name: str) -> Statement | None:
        """The statement of a part."""
        return next((s for s in self.statements("fixed", "moving", "load") if s.name and s.name.text == name), None)

    def cord(self, rope: str) -> Statement | None:
        """What is said of a rope's cord."""
        return next((s for s in self.statements("cord") if s.name and s.name.text == rope), None)

    def apart(self, names: str) -> Statement | None:
        """How far the two parts of `upper.lower` are said to be apart, whichever is named first."""
        pair = set(names.split("."))
        return next((s for s in self.statements("apart") if {w.text for w in (s.name, s.second) if w} == pair), None)

    def rope(self, name: str) -> Statement | None:
        return next((s for s in self.statements("rope") if s.name and s.name.text == name), None)

    # -- where things stand -----------------------------------------------------------------------------------------

    def at(self, place: Place) -> int:
        """Where a place begins."""
        return self._starts[place.line - 1] + place.column - 1

    def after(self, word: Word) -> int:
        return self.at(word.place) + len(word.text)

    def rows(self, statement: Statement) -> range:
        """The lines of a statement, counted from 1."""
        first = statement.keyword.place.line
        return range(first, first + len(statement.comments_within) + 1)

    def words(self, statement: Statement) -> list[Word]:
        """All words and marks of a statement; a title has only its keyword here."""
        found: list[Word] = []
        for row in self.rows(statement):
            line = self.lines[row - 1]
            found += words_of(line, row, comment_start(line))
        return found

    def pieces(self, statement: Statement) -> list[list[Word]]:
        """What stands between the commas: the attributes of a part, or the contacts of a rope."""
        words = self.words(statement)
        head = [word.text for word in words].index(":") + 1 if statement.keyword.text == "rope" else 2
        found: list[list[Word]] = [[]]
        for word in words[head:]:
            if word.text == ",":
                found.append([])
            else:
                found[-1].append(word)
        return [piece for piece in found if piece]

    def line_end(self, row: int) -> int:
        """Where a line ends, its break not counted."""
        return self._starts[row - 1] + len(self.lines[row - 1])

    # -- changes ----------------------------------------------------------------------------------------------------

    def cut(self, words: list[Word]) -> list[Change]:
        """Takes words away, and every line on which nothing is left. Comments stay where they are."""
        rows: dict[int, list[Word]] = {}
        for word in words:
            rows.setdefault(word.place.line, []).append(word)
        return [change for row, gone in rows.items() for change in self._cut_row(row, gone)]

    def _cut_row(self, row: int, gone: list[Word]) -> list[Change]:
        line, start = self.lines[row - 1], self._starts[row - 1]
        first, last = gone[0].place.column - 1, gone[-1].place.column - 1 + len(gone[-1].text)
        before, behind = line[:first], line[last:]
        if not before.strip() and not behind.strip():
            ends = self._starts[row] if row < len(self.lines) else start + len(line)
            if row == len(self.lines) and row > 1:
                return [Change(self.line_end(row - 1), ends, "")]
            return [Change(start, ends, "")]
        room = len(before) - len(before.rstrip()) if before.strip() and not behind.lstrip().startswith("#") else 0
        if before.strip() and behind.strip() and not behind.lstrip().startswith("#"):
            room, last = 0, last + len(behind) - len(behind.lstrip())  # what follows takes the place
        return [Change(start + first - room, start + last, "")]

    def added(self, line: str, behind: Statement | None) -> Change:
        """A new line behind a statement; None: before the first statement of the text."""
        if behind is not None:
            at = self.line_end(self.rows(behind)[-1])
            return Change(at, at, self.break_ + line)
        first = next((s for s in self.tree.items if isinstance(s, Statement)), None)
        if first is not None:
            at = self._starts[first.keyword.place.line - 1]
            return Change(at, at, line + self.break_)
        gap = "" if not self.lines[-1] else self.break_
        return Change(len(self.text), len(self.text), gap + line + self.break_)

    def set_out(self, keyword: str, name: str = "", rest: str = "") -> str:
        """A line in the columns that this text keeps."""
        first, second = max(self._column(0), len(keyword) + 1), max(self._column(1), len(name) + 1)
        return f"{keyword:<{first}}{f'{name:<{second}}' if name and rest else name}{rest}".rstrip()

    def _column(self, word: int) -> int:
        """How wide the column of keywords (0) or of names (1) is."""
        widths: list[int] = []
        for one in self.statements("fixed", "moving", "load", "rope"):
            words = [each for each in self.words(one) if each.text != ":"][word : word + 2]
            if len(words) == 2 and words[0].place.line == words[1].place.line:
                widths.append(words[1].place.column - words[0].place.column)
        usual = max(set(widths), key=lambda wide: (widths.count(wide), wide)) if widths else 0
        return usual or (KEYWORD_WIDTH if word == 0 else 1)


def _starts(text: str, lines: tuple[str, ...]) -> list[int]:
    """Where each line begins in the text."""
    at = 1 if text.startswith("\ufeff") else 0
    starts = []
    for line in lines:
        starts.append(at)
        at += len(line)
        at += 2 if text[at : at + 2] == "\r\n" else 1
    return starts


def changed(text: str, changes: list[Change]) -> str:
    """The text with its changes made; they do not overlap. Those at one place follow each other as given."""
    made, at = [], 0
    for change in sorted(changes, key=lambda one: one.start):
        made += [text[at : change.start], change.new]
        at = change.end
    return "".join([*made, text[at:]])
