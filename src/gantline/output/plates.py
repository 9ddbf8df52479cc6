"""Plates inside a page: each an inline SVG with its own ids, all under one set of rules whose colours the page sets."""

import re
from typing import TYPE_CHECKING

from .markup import Markup
from .plate_style import FAMILY, LOOKS, PAGE, THEMES, css

if TYPE_CHECKING:
    from gantline.figure import Scene

_STYLE = re.compile(r"<style>[^<]*</style>")


def plate(scene: "Scene", prefix: str) -> Markup:
    """A scene as inline SVG. `prefix` keeps its ids apart from those of other plates."""
    from . import svg  # with all that draws: the rules alone are wanted before anything is

    return Markup(_STYLE.sub("", svg.write(scene, "page", prefix), count=1).strip())


def rules() -> str:
    """The CSS of every role a primitive can play, in ink and in pencil, and the colours of each ground and of print."""
    looks = [
        f".plate .{role}{'-p' if pencil else ''}{{{css(role, pencil, PAGE)}}}"
        for role in LOOKS for pencil in (False, True)
    ]  # fmt: skip
    dark = _colours("dark")
    return "\n".join(
        [
            f":root{{{_colours('light')}}}",
            f"@media (prefers-color-scheme:dark){{:root:not([data-ground=light]){{{dark}}}}}",
            f":root[data-ground=dark]{{{dark}}}",
            f"@media print{{:root,:root:not([data-ground=light]),:root[data-ground=dark]{{{_colours('grey')}}}}}",
            f".plate text{{font-family:{FAMILY};font-kerning:none}}",
            *looks,
        ]
    )


def _colours(theme: str) -> str:
    return "".join(f"--plate-{token}:{colour};" for token, colour in THEMES[theme].items())
