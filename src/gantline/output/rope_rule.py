"""The level rope with three whipping turns that stands once under a title."""

from .markup import Markup, element

_LONG, _PITCH = 250, 6


def rope_rule() -> Markup:
    """An ornament with a meaning of its own only to the eye: hidden from readers of the page's words."""
    lay = "".join(f"M{x} 8l4-6" for x in range(6, _LONG - 24, _PITCH))
    turns = "".join(f"M{x} 0l-2 10" for x in range(_LONG - 16, _LONG - 4, 4))
    return element(
        "svg",
        element("rect", x="1", y="1", width=str(_LONG - 2), height="8", class_="rope"),
        element("path", d=lay, class_="lay"),
        element("path", d=turns, class_="turns"),
        viewBox=f"0 0 {_LONG} 10", width=str(_LONG), height="10", aria_hidden="true", class_="rope-rule",
    )  # fmt: skip
