"""A lesson as a folder: the page, the figures, the script, the printed solution and the record, whole or not at all."""

from collections.abc import Callable, Sequence
from pathlib import Path

from msgspec import Struct

from gantline.account import Account
from gantline.lesson import Lesson, Solved, compose
from gantline.problems import Problem

from . import files, html, lesson_json, pdf, png, script, svg
from .own_words import Own, own_words

PAGE, SCRIPT, PRINT, RECORD = "index.html", "script.md", "worked.pdf", lesson_json.NAME
PICTURE_WIDTH = 1200  # px
Progress = Callable[[str], None]


class Made(Struct, frozen=True):
    """What a build did: the page, the files left alone because the user edited them, and what the script cannot say."""

    page: Path
    kept: tuple[files.Kept, ...] = ()
    problems: tuple[Problem, ...] = ()


def build(solved: Sequence[Solved], folder: Path, progress: Progress | None = None, title: str = "") -> Made:
    """Builds the lesson over solved rigs. Sentences the tutor changed in the script are kept and used.

    A sentence that names no number of its account, or whose step has gone, is left in the script, said as a problem,
    and not used. Raises OSError where the folder cannot be written, files.Busy while another build writes it,
    NotDrawable for a rig without a figure, ImportError where an optional library is missing.
    """
    tell = progress or (lambda _: None)
    tell("composing")
    lesson = compose(solved, title=title)
    tutor = _tutor(lesson, folder)
    if tutor.own.said:
        lesson = compose(solved, tutor.own.said, title)
    made = {PAGE: html.write(lesson).encode("utf-8")}
    tell("figures")
    made |= _figures(lesson)
    tell("printed solution")
    made[PRINT] = pdf.write(lesson)
    made[SCRIPT] = tutor.script
    made[RECORD] = lesson_json.write(lesson, made)
    tell("writing")
    done = files.build(folder, made, merged=(SCRIPT,) if tutor.whole else ())
    return Made(done.folder / PAGE, done.kept, tutor.own.problems)


class _Tutor(Struct, frozen=True):
    """What the tutor wrote, the new script, and whether all is in it."""

    own: Own
    script: bytes
    whole: bool


def _tutor(lesson: Lesson, folder: Path) -> _Tutor:
    accounts = {part.key: part.account for part in lesson.parts if isinstance(part.account, Account)}
    old, built = _read(folder / SCRIPT).decode("utf-8", "replace"), lesson_json.built(_read(folder / RECORD))
    own = own_words(old, accounts, built)
    text = script.write(lesson, own.lines, own.kept)
    whole = script.keeps(old, text, [line.say for line in built])
    if whole:  # then problems point at the lines of the script as it is written now
        own = own_words(text, accounts)
    return _Tutor(own, text.encode("utf-8", "replace"), whole)


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError:
        return b""


def _figures(lesson: Lesson) -> dict[str, bytes]:
    """Every plate of the figures folder as SVG with its typeface, and as PNG."""
    made = {}
    for part in lesson.parts:
        for view, scene in part.figures:
            name = f"figures/{part.key}-{view}"
            made[f"{name}.svg"] = svg.write(scene, "light", fonts=True).encode("utf-8")
            made[f"{name}.png"] = png.write(scene, "light", PICTURE_WIDTH)
    return made
