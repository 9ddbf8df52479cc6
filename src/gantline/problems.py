"""What is wrong with a file, as values: each with its place, and in three parts (what, why, what to do)."""

from msgspec import Struct


class Place(Struct, frozen=True):
    """A stretch of one line of the text. `line` and `column` count from 1, in characters as an editor shows them."""

    line: int
    column: int
    length: int = 1


class Problem(Struct, frozen=True):
    """One thing wrong with a file. `code` is a short word-slug with a page in docs/problems.md; `text` is the line."""

    code: str
    place: Place
    text: str
    says: str
    why: str
    do: str
