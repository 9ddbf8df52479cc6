"""A lesson as one page that needs nothing from anywhere: style, player, typefaces and plates are in it."""

import hashlib
from base64 import b64encode
from functools import cache
from importlib.resources import files

from gantline.lesson import Lesson, Part

from . import sections
from .markup import Markup, element
from .plates import rules
from .stage import stage

_TEXT = [("STIX Two Text", f"STIXTwoText-{weight}{'i' if italic else ''}", weight, italic)
         for weight in (400, 500, 600) for italic in (False, True)]  # fmt: skip
_FACES = [
    *_TEXT,
    *(("Libre Franklin", f"LibreFranklin-{weight}", weight, False) for weight in (400, 500, 600)),
    ("STIX Two Math", "STIXTwoMath", 400, False),
]


def write(lesson: Lesson) -> str:
    """The whole page. The same lesson gives the same text."""
    style, script = _style(), _packaged("player.js")
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=_policy(style, script)),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("meta", name="generator", content="Gantline"),
        element("title", lesson.title),
        element("style", Markup(style)),
    )
    body = element(
        "body",
        element("a", "Skip to the lesson", href="#main", class_="skip"),
        _header(lesson),
        element(
            "main", _opening(lesson), [_part(part, lesson) for part in lesson.parts], sections.recap(lesson), id="main"
        ),
        _footer(lesson),
        element("script", Markup(script)),
    )
    return f"<!DOCTYPE html>\n{element('html', head, body, lang='en')}"


def alone(lesson: Lesson) -> bool:
    """Whether the lesson is about a single rig: then its title is the page's."""
    return len(lesson.parts) == 1


def _header(lesson: Lesson) -> Markup:
    ground = element("button", "Dark page", type="button", class_="quiet ground", hidden=True)
    return element(
        "header",
        element("p", "Gantline lesson", class_="running"),
        element("a", "Contents", href="#contents", class_="to-contents quiet"),
        element("nav", _links(lesson), class_="places", aria_label="Contents of this page"),
        ground,
        class_="head",
    )


def _links(lesson: Lesson) -> Markup:
    """The five places of one rig; of several, the rigs and the recap."""
    if alone(lesson):
        links = [*sections.places(lesson.parts[0]), ("recap", "Recap")]
    else:
        links = [*((part.key, part.title) for part in lesson.parts), ("recap", "Recap")]
    return element("ul", [element("li", element("a", name, href=f"#{place}")) for place, name in links])


def _opening(lesson: Lesson) -> Markup | None:
    if alone(lesson):
        return None
    rigs = [element("li", element("a", part.title, href=f"#{part.key}"), ": ", part.says) for part in lesson.parts]
    return element("div", element("h1", lesson.title), element("ul", rigs, class_="rigs"), class_="opening")


def _part(part: Part, lesson: Lesson) -> Markup:
    level = 1 if alone(lesson) else 2
    own = None
    if not alone(lesson):
        links = [element("li", element("a", name, href=f"#{place}")) for place, name in sections.places(part)]
        own = element("nav", element("ul", links), class_="places own", aria_label=f"Parts: {part.title}")
    return element(
        "div", own, stage(part, level), sections.ways(part, level), sections.worked(part, level),
        sections.trial(part, level), class_="rig", id=part.key,
    )  # fmt: skip


def _footer(lesson: Lesson) -> Markup:
    nav = element("nav", element("h2", "Contents"), _links(lesson), id="contents", aria_label="Contents, again")
    return element("footer", nav, element("p", "Made by Gantline from a rig in words. Every number is the rig's own."))


def _style() -> str:
    return "\n".join([*map(_face, _FACES), rules(), _packaged("style.css")])


def _face(face: tuple[str, str, int, bool]) -> str:
    family, file, weight, italic = face
    return (
        f"@font-face{{font-family:'{family}';font-weight:{weight};font-style:{'italic' if italic else 'normal'};"
        f"font-display:block;src:url(data:font/woff2;base64,{_font(file)}) format('woff2')}}"
    )


@cache
def _font(file: str) -> str:
    return b64encode(files("gantline").joinpath(f"assets/{file}.woff2").read_bytes()).decode("ascii")


@cache
def _packaged(name: str) -> str:
    return files("gantline").joinpath(f"output/page/{name}").read_text(encoding="utf-8")


def _policy(style: str, script: str) -> str:
    """Nothing is fetched, and only the two texts written here are obeyed."""
    return (
        f"default-src 'none'; style-src '{_hash(style)}'; script-src '{_hash(script)}'; font-src data:; img-src data:; "
        "base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    return "sha256-" + b64encode(hashlib.sha256(text.encode()).digest()).decode("ascii")
