"""Markup built as a tree of elements: text from anywhere goes in as text, and only what was built here is markup."""

from collections.abc import Sequence
from typing import Union

from .escaping import escape

_VOID = {"br", "hr", "img", "input", "link", "meta", "mspace", "wbr"}
_BLOCKS = {
    "body", "caption", "dd", "details", "div", "dl", "dt", "fieldset", "figcaption", "figure", "footer", "form", "h1",
    "h2", "h3", "head", "header", "html", "li", "link", "main", "meta", "nav", "ol", "p", "script", "section", "style",
    "summary", "svg", "table", "tbody", "td", "th", "thead", "title", "tr", "ul",
}  # fmt: skip


class Markup(str):
    """Text that is markup already, because it was built here."""

    __slots__ = ()


Child = Union[str, Markup, None, "Sequence[Child]"]
Attribute = str | int | bool | None


def element(name: str, /, *children: Child, **attributes: Attribute) -> Markup:
    """One element. Children that are plain text are escaped; None is left out, lists are laid flat.

    Attributes: a trailing underscore is dropped and inner ones become hyphens (`class_`, `data_part`); True writes the
    bare name, False and None write nothing.
    """
    line = "\n" if name in _BLOCKS else ""
    start = f"<{name}{''.join(_attribute(key, value) for key, value in attributes.items())}>"
    return Markup(start + line if name in _VOID else f"{start}{join(*children)}</{name}>{line}")


def join(*children: Child) -> Markup:
    """Children one after the other, text escaped."""
    return Markup("".join(_child(child) for child in children))


def _child(child: Child) -> str:
    if child is None:
        return ""
    if isinstance(child, Markup):
        return child
    return escape(child) if isinstance(child, str) else "".join(_child(each) for each in child)


def _attribute(key: str, value: Attribute) -> str:
    if value is None or value is False:
        return ""
    name = key.rstrip("_").replace("_", "-")
    return f" {name}" if value is True else f' {name}="{escape(str(value))}"'
