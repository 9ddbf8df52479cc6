"""A picture of a film as SVG: the layers of a frame, or of a part of it."""

from gantline.film import Box, Picture

from .escaping import escape
from .plate_style import FAMILY, THEMES, css
from .svg import Writer, faces

HALO = "paint-order:stroke;stroke:{paper};stroke-width:4;stroke-linejoin:round"


def write(picture: Picture, theme: str = "light", zone: Box | None = None, fonts: bool = False) -> str:
    """SVG text of a frame, in px of a frame 1080 px on its short side; `zone` cuts out a part of it.

    `fonts` embeds the typeface, for a file of its own. Raises KeyError for an unknown theme.
    """
    colours = THEMES[theme]
    writer = Writer("")
    body = "".join(
        f'<g transform="translate({layer.x:.3f} {layer.y:.3f}) scale({layer.scale:.5f})" data-part="{layer.name}">'
        f"{writer.body(layer.marks)}</g>"
        for layer in picture.layers
    )
    rules = [f".{name}{{{css(role, pencil, colours)}}}" for name, role, pencil in writer.classes()]
    rules.append(f"text{{font-family:{FAMILY};font-kerning:none}}")
    rules.append(f'[data-layer="label"] text{{{HALO.format(paper=colours["paper"])}}}')
    if fonts:
        rules = [*faces(mark for layer in picture.layers for mark in layer.marks), *rules]
    left, top, right, bottom = zone or (0, 0, picture.width, picture.height)
    wide, high = right - left, bottom - top
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{left:g} {top:g} {wide:g} {high:g}" width="{wide:g}" '
        f'height="{high:g}" role="img"><title>{escape(picture.says)}</title><style>{"".join(rules)}</style>'
        f'<rect x="{left:g}" y="{top:g}" width="{wide:g}" height="{high:g}" fill="{colours["paper"]}"/>{body}</svg>\n'
    )
