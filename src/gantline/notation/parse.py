"""From text to tree: one statement a line, every problem with its place, none that stops the reading."""

from gantline.problems import Place, Problem

from .problems import Notes, Unreadable
from .scan import comment_start, lines_of, unwelcome, words_of
from .statement import StatementReader
from .tree import Remark, Statement, Tree, Word

MOST_BYTES = 64 * 1024
MOST_PARTS = 400
MOST_CONTACTS = 2000

_OTHERS = {
    b"PK\x03\x04": "a zip archive",
    b"%PDF": "a PDF",
    b"\x89PNG": "a PNG picture",
    b"\xd0\xcf\x11\xe0": "a Word file",
}


def parse_bytes(data: bytes) -> tuple[Tree, tuple[Problem, ...]]:
    """The tree of a file's bytes: UTF-8, with or without a byte-order mark, at most 64 KiB."""
    found = _unreadable(data)
    if found is not None:
        return Tree((), ("",), whole=False), (found,)
    return parse(data.decode("utf-8"))


def parse(text: str) -> tuple[Tree, tuple[Problem, ...]]:
    """The tree of a text, with every problem found. Statements that cannot be read are left out of the tree."""
    size = len(text.encode("utf-8", "surrogatepass"))
    if size > MOST_BYTES:
        return Tree((), ("",), whole=False), (_too_large(size),)
    lines = lines_of(text.removeprefix("\ufeff"))
    notes = Notes(lines)
    items = _items(lines, notes)
    _limits(items, notes)
    problems = notes.all()
    return Tree(tuple(items), lines, whole=not problems), problems


def _items(lines: tuple[str, ...], notes: Notes) -> list[Statement | Remark]:
    items: list[Statement | Remark] = []
    n = 0
    last = len(lines) - 1 if lines[-1] == "" else len(lines)
    while n < last:
        line = lines[n]
        cut = comment_start(line)
        if _refused(line, n, notes):
            n += 1
        elif line[:cut].strip():
            statement, n = _statement(lines, n, last, notes)
            items += [statement] if statement else []
        else:
            items.append(Remark(line[cut + 1 :].strip() if cut < len(line) else None))
            n += 1
    return items


def _refused(line: str, n: int, notes: Notes) -> bool:
    """Whether a line has a character that may stand nowhere, or is a mark left by a merge."""
    bad = unwelcome(line)
    if bad is not None:
        at, name = bad
        notes.add(
            "character-not-allowed", Place(n + 1, at + 1), f"the character {name} stands here",
            "it cannot be seen, or programs do not agree what it does", "delete it, or type a plain character instead.",
        )  # fmt: skip
        return True
    if line.startswith(("<<<<<<<", "=======", ">>>>>>>")):
        notes.add(
            "merge-marks", Place(n + 1, 1, len(line)), "this line is a mark left by a merge",
            "two versions of the file stand here, one after the other", "keep one version and delete the marks.",
        )  # fmt: skip
        return True
    return False


def _statement(lines: tuple[str, ...], n: int, last: int, notes: Notes) -> tuple[Statement | None, int]:
    """Read the statement that begins on line n (from 0), and give the number of the next line."""
    words: list[Word] = []
    comments: list[str] = []
    title = lines[n].split(None, 1)[0] == "title"
    while n < last:
        line = lines[n]
        if comments and _refused(line, n, notes):
            n += 1
            break
        cut = comment_start(line)
        comments.append(line[cut + 1 :].strip() if cut < len(line) else "")
        words += words_of(line, n + 1, cut)
        n += 1
        if title or words[-1].text != ",":
            break
    try:
        return StatementReader(notes, words, comments).read(), n
    except Unreadable:
        return None, n


def _limits(items: list[Statement | Remark], notes: Notes) -> None:
    parts = contacts = 0
    for item in items:
        if not isinstance(item, Statement):
            continue
        parts += item.keyword.text in ("fixed", "moving", "load")
        contacts += len(item.contacts)
        for count, most, what, code in (
            (parts, MOST_PARTS, "parts", "too-many-parts"), (contacts, MOST_CONTACTS, "contacts", "too-many-contacts"),
        ):  # fmt: skip
            if count > most:
                notes.add(
                    code, item.keyword.place, f"the file has more than {most} {what}",
                    "a rig of that size is past what can be drawn or told", "describe a smaller part of the machine.",
                )  # fmt: skip
                return


def _too_large(size: int) -> Problem:
    return Problem(
        "text-too-large", Place(1, 1), "", f"the text has {size} bytes; at most {MOST_BYTES} are read",
        "a rig takes a few lines", "give the file that describes the rig, or a smaller one.",
    )  # fmt: skip


def _unreadable(data: bytes) -> Problem | None:
    """Why bytes are no text of ours, None where they may be one."""
    for mark, name in _OTHERS.items():
        if data.startswith(mark):
            return Problem(
                "not-a-rig-text", Place(1, 1), "", f"this looks like {name}", "a rig is a plain text",
                "give the `.rig` file itself.",
            )  # fmt: skip
    if len(data) > MOST_BYTES:
        return _too_large(len(data))
    try:
        data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8")
        lines = lines_of(before)
        return Problem(
            "text-not-utf8", Place(len(lines), len(lines[-1]) + 1), lines[-1],
            f"byte {error.start + 1} of the file (0x{data[error.start]:02X}) is not UTF-8",
            "letters beyond a to z can only be read if it is known how they are stored",
            "save the file as UTF-8.",
        )  # fmt: skip
    return None
