"""What a `.rig` text says, with the place of every word. Knows no machine and no physics."""

from fractions import Fraction

from msgspec import Struct

from gantline.problems import Place


class Word(Struct, frozen=True):
    text: str
    place: Place


class Written(Struct, frozen=True):
    """A value as written: `348 N`, `W = 348 N`, or `W` alone. `number` is exact and in `unit`, not yet in SI."""

    symbol: Word | None
    number: Fraction | None
    numeral: Word | None  # the digits as typed, kept so that the formatter changes no number
    unit: Word | None
    place: Place


class Attribute(Struct, frozen=True):
    """A keyword with what stands behind it: a value (`weight 12 N`), a count (`sheaves 2`), names (`carries bell`)."""

    keyword: Word
    value: Written | None = None
    names: tuple[Word, ...] = ()


class Contact(Struct, frozen=True):
    """One touch of a rope's path. `side` is `over`, `under` or None (made fast); `part` is None for the hand.

    `sheave` is the number behind the dot, None where it is left out; `at` is who holds the end in `hand at NAME`.
    """

    side: Word | None
    part: Word | None
    sheave: int | None
    at: Word | None
    place: Place


class Run(Struct, frozen=True):
    """What is said of the rope between two contacts: nothing yet; leaning runs will say it here."""


class Statement(Struct, frozen=True):
    """One statement: `keyword` first, then what that takes. `comment` is the text behind `#` on its last line."""

    keyword: Word
    name: Word | None = None
    second: Word | None = None  # the other part, where a statement speaks of two
    title: str = ""
    value: Written | None = None
    attributes: tuple[Attribute, ...] = ()
    contacts: tuple[Contact, ...] = ()
    runs: tuple[Run, ...] = ()
    comment: str = ""
    comments_within: tuple[str, ...] = ()  # of the lines before the last, where a statement goes on over several


class Remark(Struct, frozen=True):
    """A line that says nothing to the machine: a comment (without its `#`), or blank."""

    comment: str | None


class Tree(Struct, frozen=True):
    """A whole file. `lines` are its lines as they stand, so that a problem can show its own.

    `whole` is False where a line could not be read: it may hold what seems to be missing.
    """

    items: tuple[Statement | Remark, ...]
    lines: tuple[str, ...]
    whole: bool = True
