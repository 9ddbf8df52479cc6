"""Many small files of the page sent as one: a style sheet or a script with all that it imports. A browser asks for six
files at a time; with three scores of them the first figure would wait for ten turns."""

import re
from collections.abc import Callable

PLATES = "plates.css"  # what a figure looks like, in its own px
HAIRLINE = 3  # px, and less
TYPE = 16  # px

Source = Callable[[str], str]  # the text of a file of the page, by its name

_SHEET = re.compile(r'^@import "([\w.-]+)";\n', re.M)
_PX = re.compile(r"(?<![\w.-])(-?[\d.]+)px")
_CONDITION = re.compile(r"@media[^{]*\{")
_MODULE = re.compile(r"^import \{ ([^}]*) \} from '\./([\w-]+\.js)';\n", re.M)
_REMARK = re.compile(r"^[ \t]*//.*\n", re.M)
_EXPORTED = re.compile(r"^export (?:\{ ([\w, ]+) \};\n|(?=(?:async )?(?:function|class|const) (\w+)))", re.M)


def sheet(name: str, source: Source) -> str:
    """A style sheet with those it imports in their places.

    Sizes are written in px of a 16 px type, and sent as parts of the type size that is set in the browser, so that all
    grows with it; hairlines and the plate's own measures stay.
    """
    own = source(name) if name == PLATES else _sized(source(name))
    return _SHEET.sub(lambda found: sheet(found[1], source), own)


def script(name: str, source: Source) -> str:
    """A module with all that it imports, each once, before whoever needs it, and its names to itself. Lines that only
    remark on the code stay at home."""
    whole: dict[str, str] = {}
    _join(name, source, whole, ())
    names = _names(source(name))
    return "".join(whole.values()) + (f"export const {{ {names} }} = {_held(name)};\n" if names else "")


def _join(name: str, source: Source, whole: dict[str, str], within: tuple[str, ...]) -> None:
    if name in within:
        raise ValueError(f"{' imports '.join((*within, name))}: modules of the page need each other in turn")
    text = _REMARK.sub("", source(name))
    for _, other in _MODULE.findall(text):
        if other not in whole:
            _join(other, source, whole, (*within, name))
    body = _EXPORTED.sub("", _MODULE.sub(_taken, text))
    whole[name] = f"const {_held(name)} = (() => {{\n{body}\nreturn {{ {_names(text)} }};\n}})();\n"


def _sized(css: str) -> str:
    conditioned = _CONDITION.sub(lambda found: _PX.sub(lambda size: _of_type(size, "em"), found[0]), css)
    return _PX.sub(lambda size: _of_type(size, "rem"), conditioned)


def _of_type(size: "re.Match[str]", unit: str) -> str:
    px = float(size[1])
    return size[0] if abs(px) <= HAIRLINE else f"{px / TYPE:.5f}".rstrip("0").rstrip(".") + unit


def _names(text: str) -> str:
    return ", ".join(one or other for one, other in _EXPORTED.findall(text))


def _taken(found: "re.Match[str]") -> str:
    return f"const {{ {found[1].replace(' as ', ': ')} }} = {_held(found[2])};\n"


def _held(name: str) -> str:
    """The name a module's exports go by: `$plate_tag` for `plate_tag.js`."""
    return "$" + name.removesuffix(".js").replace("-", "_")
