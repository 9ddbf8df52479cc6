"""A whole page that needs nothing from anywhere: its style, its script, typefaces and plates are in it."""

import hashlib
from base64 import b64encode
from collections.abc import Sequence
from functools import cache
from importlib.resources import files

from .markup import Markup, element
from .plates import rules

_TEXT = [("STIX Two Text", f"STIXTwoText-{weight}{'i' if italic else ''}", weight, italic)
         for weight in (400, 500, 600) for italic in (False, True)]  # fmt: skip
_FACES = [
    *_TEXT,
    *(("Libre Franklin", f"LibreFranklin-{weight}", weight, False) for weight in (400, 500, 600)),
    ("STIX Two Math", "STIXTwoMath", 400, False),
]


def document(title: str, style: str, script: str, body: Sequence[Markup], scripts_from: str = "") -> str:
    """The page. Nothing is fetched, and only the style and the script given here are obeyed.

    `scripts_from` names one more source of scripts, in the words of a Content-Security-Policy.
    """
    styled = "\n".join([*map(_face, _FACES), rules(), style])
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("meta", http_equiv="Content-Security-Policy", content=_policy(styled, script, scripts_from)),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("meta", name="generator", content="Gantline"),
        element("title", title),
        element("style", Markup(styled)),
    )
    whole = element("body", list(body), element("script", Markup(script)))
    return f"<!DOCTYPE html>\n{element('html', head, whole, lang='en')}"


@cache
def packaged(name: str) -> str:
    """A style or a script that lies beside the pages."""
    return files("gantline").joinpath(f"output/page/{name}").read_text(encoding="utf-8")


def player() -> str:
    """The script that leads through the steps of a page, with what it hauls by."""
    return packaged("hauling.js") + packaged("player.js")


def _face(face: tuple[str, str, int, bool]) -> str:
    family, file, weight, italic = face
    return (
        f"@font-face{{font-family:'{family}';font-weight:{weight};font-style:{'italic' if italic else 'normal'};"
        f"font-display:block;src:url(data:font/woff2;base64,{_font(file)}) format('woff2')}}"
    )


@cache
def _font(file: str) -> str:
    return b64encode(files("gantline").joinpath(f"assets/{file}.woff2").read_bytes()).decode("ascii")


def _policy(style: str, script: str, scripts_from: str) -> str:
    more = f" {scripts_from}" if scripts_from else ""
    return (
        f"default-src 'none'; style-src '{_hash(style)}'; script-src '{_hash(script)}'{more}; font-src data:; "
        "img-src data:; base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    return "sha256-" + b64encode(hashlib.sha256(text.encode()).digest()).decode("ascii")
