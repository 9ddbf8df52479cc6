"""What a spreadsheet saved, as text: the encoding is known by its mark or its bytes, and never guessed in silence."""

import re

from gantline.problems import Place, Problem

MOST_BYTES = 32 * 1024 * 1024  # about 100,000 rows of thirty cells
_MARKS = ((b"\xef\xbb\xbf", "utf-8"), (b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be"))
_LINE_END = re.compile(r"\r\n?")


class Unreadable(Exception):
    """A file of which nothing can be used; `problem` says why. It never quotes the file: names may stand in it."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.says)
        self.problem = problem


def stop(code: str, line: int, says: str, why: str, do: str, column: int = 1) -> Unreadable:
    return Unreadable(Problem(code, Place(line, column), "", says, why, do))


def text_of(data: bytes) -> tuple[str, str]:
    """The text with LF line ends, and the name of its encoding. Raises Unreadable."""
    if len(data) > MOST_BYTES:
        raise stop(
            "readings-too-large", 1, f"the file has {len(data)} bytes; {MOST_BYTES} are read",
            "readings of a lesson take far less", "keep the rows that are readings.",
        )  # fmt: skip
    mark, encoding = next(((m, name) for m, name in _MARKS if data.startswith(m)), (b"", "utf-8"))
    text, name = _decoded(data[len(mark) :], encoding, len(mark))
    if "\x00" in text:
        at = text.index("\x00")
        raise stop(
            "readings-not-text", text.count("\n", 0, at) + 1, f"character {at + 1} is a NUL",
            "a table of text has none: this is another kind of file, or UTF-16 without its mark",
            "save it from the spreadsheet as CSV (UTF-8).",
        )  # fmt: skip
    return _LINE_END.sub("\n", text), name


def _decoded(data: bytes, encoding: str, skipped: int) -> tuple[str, str]:
    try:
        return data.decode(encoding), encoding.upper()
    except UnicodeDecodeError as error:
        if encoding == "utf-8" and not skipped and b"\x00" not in data:
            return _windows(data)
        raise _undecoded(data, error.start, encoding.upper(), skipped) from error


def _windows(data: bytes) -> tuple[str, str]:
    try:
        return data.decode("cp1252"), "Windows-1252"
    except UnicodeDecodeError as error:
        raise _undecoded(data, error.start, "UTF-8 or Windows-1252", 0) from error


def _undecoded(data: bytes, at: int, encoding: str, skipped: int) -> Unreadable:
    return stop(
        "readings-not-text", data.count(b"\n", 0, at) + 1, f"byte {at + skipped + 1} is no {encoding}",
        "the letters and signs of the table cannot be told", "save it from the spreadsheet as CSV (UTF-8).",
    )  # fmt: skip
