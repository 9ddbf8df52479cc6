"""A lesson as one page that needs nothing from anywhere: style, player, typefaces and plates are in it."""

from gantline.lesson import Lesson, Part

from . import sections
from .document import document, packaged, player
from .markup import Markup, element
from .stage import stage


def write(lesson: Lesson) -> str:
    """The whole page. The same lesson gives the same text."""
    body = [
        element("a", "Skip to the lesson", href="#main", class_="skip"),
        _header(lesson),
        element(
            "main", _opening(lesson), [_part(part, lesson) for part in lesson.parts], sections.recap(lesson), id="main"
        ),
        _footer(lesson),
    ]
    return document(lesson.title, packaged("style.css"), player(), body)


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
    return element("div", element("h1", lesson.title), class_="opening")


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
