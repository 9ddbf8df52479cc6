"""What is handed out of a rig: the lesson as a page or a whole folder, a figure, the answer, each as one file."""

import io
import tempfile
import zipfile
from base64 import b64encode
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec

from gantline import api
from gantline.figure import NotDrawable, draw
from gantline.lesson import compose
from gantline.output import html, png, svg
from gantline.output.lesson_folder import SCRIPT
from gantline.output.record import answer_record

from .asked import HandOut, Refused
from .folder import SUFFIX, named
from .reading import Reading, Unread, look
from .saying import lesson_script, written

Tell = Callable[[dict[str, Any]], None]
Made = tuple[str, str, bytes]  # the ending of its name, its type, its bytes

_FIRST_DAY = (1980, 1, 1, 0, 0, 0)  # of a zip's calendar: the same rig gives the same bytes
PICTURE_WIDTH = 1600  # px


def hand_out(asked: HandOut, tell: Tell) -> dict[str, str]:
    """The file, in base 64, with its name and its type; `tell` hears what is being made. Raises Refused."""
    named(f"{asked.name}{SUFFIX}")
    try:
        reading = look(asked.text, asked.what_if)
        ending, kind, data = MAKERS[asked.what](reading, asked, lambda says: tell({"says": says}))
    except Unread as unread:
        raise Refused(422, f"Mend line {unread.problems[0].place.line} first: {unread.problems[0].says}.") from None
    except NotDrawable as reason:
        raise Refused(422, reason.sentence) from None
    except ImportError as missing:
        raise Refused(
            422, f"This needs one more package: {missing.name}. pip install 'gantline[png,pdf]' brings it."
        ) from None
    return {"name": f"{asked.name}{ending}", "type": kind, "data": b64encode(data).decode("ascii")}


def _page(reading: Reading, asked: HandOut, say: Callable[[str], None]) -> Made:
    say("composing")
    lesson = compose([(reading.rig, reading.answer)], lesson_script(reading, asked.script))
    say("writing the page")
    return ".html", "text/html", html.write(lesson).encode()


def _lesson(reading: Reading, asked: HandOut, say: Callable[[str], None]) -> Made:
    """The folder that `gantline lesson` builds, packed into one file."""
    with tempfile.TemporaryDirectory() as folder:
        own = lesson_script(reading, asked.script)
        if own:
            Path(folder, "lesson").mkdir()
            Path(folder, "lesson", SCRIPT).write_text(written(reading.rig.title, own), encoding="utf-8")
        api.lesson([api.Solved(reading.rig, reading.answer)], Path(folder, "lesson"), progress=say)
        say("packing")
        return "-lesson.zip", "application/zip", _packed(Path(folder, "lesson"), asked.name)


def _packed(folder: Path, name: str) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as packed:
        for path in sorted(path for path in folder.rglob("*") if path.is_file()):
            entry = zipfile.ZipInfo(f"{name}/{path.relative_to(folder).as_posix()}", _FIRST_DAY)
            entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o644 << 16
            packed.writestr(entry, path.read_bytes())
    return made.getvalue()


def _svg(reading: Reading, asked: HandOut, say: Callable[[str], None]) -> Made:
    scene = draw(reading.rig, reading.answer, asked.view, layout=reading.layout, lit=asked.lit)
    return f"-{asked.view}.svg", "image/svg+xml", svg.write(scene, asked.theme, fonts=True).encode()


def _png(reading: Reading, asked: HandOut, say: Callable[[str], None]) -> Made:
    say("drawing")
    scene = draw(reading.rig, reading.answer, asked.view, layout=reading.layout, lit=asked.lit)
    return f"-{asked.view}.png", "image/png", png.write(scene, asked.theme, PICTURE_WIDTH)


def _answer(reading: Reading, asked: HandOut, say: Callable[[str], None]) -> Made:
    record = answer_record(reading.rig, reading.answer, reading.says)
    return "-answer.json", "application/json", msgspec.json.format(msgspec.json.encode(record), indent=2)


MAKERS: dict[str, Callable[[Reading, HandOut, Callable[[str], None]], Made]] = {
    "page": _page, "lesson": _lesson, "svg": _svg, "png": _png, "answer": _answer,
}  # fmt: skip
