"""A scene as SVG: text stays text, every primitive says which part it shows, nothing from a file becomes markup."""

import re
from base64 import b64encode
from collections.abc import Iterable, Sequence
from functools import cache
from importlib.resources import files
from math import ceil, cos, pi, radians, sin

from gantline.figure import Arc, Circle, Line, Path, Primitive, Rect, Run, Scene, Strand, Text, Wrap, text_width

from .escaping import escape
from .plate_style import FAMILY, PAGE, THEMES, css

LAY_ANGLE, LAY_PITCH, HALF_CORE = 34.0, 4.6, 2.1


def write(scene: Scene, theme: str = "light", prefix: str = "", fonts: bool = False) -> str:
    """SVG text of a scene. `theme` is light, dark, grey, or page (colours as custom properties the page sets).

    `prefix` makes ids unique where several stand in one page; `fonts` embeds the typeface in a file of its own.
    Raises KeyError for an unknown theme.
    """
    colours = PAGE if theme == "page" else THEMES[theme]
    writer = Writer(prefix)
    body = writer.body(scene.marks)
    name = f"{prefix}plate"
    rules = [f"#{name} .{klass}{{{css(role, pencil, colours)}}}" for klass, role, pencil in writer.classes()]
    rules.append(f"#{name} text{{font-family:{FAMILY};font-kerning:none}}")
    if any(mark.layer == "label" for mark in scene.marks):  # words keep a rim of paper where they must cross a line
        halo = f"paint-order:stroke;stroke:{colours['paper']};stroke-width:4;stroke-linejoin:round"
        rules.append(f'#{name} [data-layer="label"] text{{{halo}}}')
    if fonts:
        rules = [*faces(scene.marks), *rules]
    wide, high = _n(scene.width), _n(scene.height)
    size = f'viewBox="{_n(scene.left)} {_n(scene.top)} {wide} {high}" width="{wide}" height="{high}"'
    ground = (
        ""
        if theme == "page"
        else (
            f'<rect x="{_n(scene.left)}" y="{_n(scene.top)}" width="{_n(scene.width)}" height="{_n(scene.height)}" '
            f'fill="{colours["paper"]}" data-part="paper"/>'
        )
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" id="{name}" class="plate" {size} role="img" '
        f'aria-labelledby="{prefix}title {prefix}desc" data-view="{escape(scene.view)}">'
        f'<title id="{prefix}title">{escape(scene.title)}</title>'
        f'<desc id="{prefix}desc">{escape(scene.description)}</desc>'
        f"<style>{''.join(rules)}</style>{ground}{body}</svg>\n"
    )


def _n(value: float) -> str:
    """A number with at most two decimals and no needless ones."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


class Writer:
    """Writes primitives and remembers which classes they use."""

    def __init__(self, prefix: str) -> None:
        self.prefix = prefix
        self.used: dict[tuple[str, bool], str] = {}

    def classes(self) -> list[tuple[str, str, bool]]:
        return [(klass, role, pencil) for (role, pencil), klass in self.used.items()]

    def klass(self, role: str, pencil: bool) -> str:
        name = f"{role}-p" if pencil else role
        self.used[role, pencil] = name
        return name

    def body(self, marks: Sequence[Primitive]) -> str:
        """All marks in paint order; marks of one layer, body and wheel share a group."""
        made: list[str] = []
        now: tuple[str, str, str] | None = None
        for mark in marks:
            key = (mark.layer, mark.body, mark.sheave)
            if key != now:
                made.append(("</g>" if now else "") + self.group(*key))
                now = key
            made.append(self.mark(mark))
        return "".join(made) + ("</g>" if now else "")

    @staticmethod
    def group(layer: str, body: str, sheave: str) -> str:
        moves = f' data-body="{escape(body)}"' if body else ""
        turns = f' data-wheel="{escape(sheave)}"' if sheave else ""
        return f'<g data-layer="{layer}"{moves}{turns}>'

    def mark(self, mark: Primitive) -> str:
        part = f'data-part="{escape(mark.part)}"'
        if mark.sheave:
            part += f' data-sheave="{escape(mark.sheave)}"'
        match mark:
            case Strand():
                return self.strand(mark, part)
            case Wrap():
                return self.wrap(mark, part)
            case Text():
                return self.text(mark, part)
        look = f'class="{self.klass(mark.role, mark.pencil)}" {part}'
        match mark:
            case Line():
                return f'<line {look} x1="{_n(mark.x1)}" y1="{_n(mark.y1)}" x2="{_n(mark.x2)}" y2="{_n(mark.y2)}"/>'
            case Circle():
                return f'<circle {look} cx="{_n(mark.x)}" cy="{_n(mark.y)}" r="{_n(mark.r)}"/>'
            case Rect():
                corner = f' rx="{_n(mark.round)}"' if mark.round else ""
                place = f'x="{_n(mark.x)}" y="{_n(mark.y)}" width="{_n(mark.width)}" height="{_n(mark.height)}"'
                return f"<rect {look} {place}{corner}/>"
            case Arc():
                return f'<path {look} d="{_arc(mark.x, mark.y, mark.r, mark.start, mark.end)}"/>'
            case _:
                return f'<path {look}{_transform(mark)} d="{mark.d}"/>'

    def strand(self, mark: Strand, part: str) -> str:
        """Casing, core and lay: three lines over each other. The lay is a dashed line, skewed so its dashes slant."""
        ends = f'x1="{_n(mark.x1)}" y1="{_n(mark.y1)}" x2="{_n(mark.x2)}" y2="{_n(mark.y2)}"'
        core = ends if not mark.pencil or mark.x1 != mark.x2 else _overlapping(mark)
        part += f' data-strand="{escape(mark.name)}"'
        lines = "".join(
            f'<line class="{self.klass(role, mark.pencil)}" {part} {places}/>'
            for role, places in ((f"rope{mark.lay}-case", ends), (f"rope{mark.lay}", core))
        )
        return lines if mark.pencil else lines + self.lay(mark, part)

    def lay(self, mark: Strand, part: str) -> str:
        look = f'class="{self.klass(f"lay{mark.lay}", False)}" {part}'
        if mark.x1 == mark.x2:
            low, high = sorted((mark.y1, mark.y2))
            frame, line = f"translate({_n(mark.x1)} 0) skewY", f'y1="{_n(low)}" y2="{_n(high)}"'
            across = ("x1", "x2")
        else:
            lean = _lean(mark)
            frame, line = f"{lean[0]} skewY", f'y1="0" y2="{_n(lean[1])}"'
            across = ("x1", "x2")
        angles = {0: (LAY_ANGLE,), 1: (LAY_ANGLE,), 2: (-LAY_ANGLE,), 3: (LAY_ANGLE, -LAY_ANGLE), 4: (0.0,)}[mark.lay]
        begun = mark.run % LAY_PITCH
        line += f' stroke-dashoffset="{_n(-begun)}"' if begun else ""
        made = ""
        for number, angle in enumerate(angles):
            aside = (-HALF_CORE / 2, HALF_CORE / 2)[number] if len(angles) > 1 else 0.0
            at = f' {across[0]}="{_n(aside)}" {across[1]}="{_n(aside)}"' if aside else ""
            made += f'<line {look} transform="{frame}({_n(angle)})"{at} {line}/>'
        return made

    def wrap(self, mark: Wrap, part: str) -> str:
        part += f' data-wrap="{escape(mark.name)}"'
        d = _arc(mark.x, mark.y, mark.r, mark.start, mark.end)
        arcs = "".join(
            f'<path class="{self.klass(role, mark.pencil)}" {part} d="{d}"/>'
            for role in (f"rope{mark.lay}-case", f"rope{mark.lay}")
        )
        if mark.pencil:
            return arcs
        return arcs + f'<path class="{self.klass(f"marks{mark.lay}", False)}" {part} d="{_wrap_marks(mark)}"/>'

    def text(self, mark: Text, part: str) -> str:
        look = f'class="{self.klass(mark.role, mark.pencil)}" {part}'
        anchor = "" if mark.anchor == "start" else f' text-anchor="{mark.anchor}"'
        weight = "" if mark.weight == 400 else f' font-weight="{mark.weight}"'
        spans = "".join(self.spans(mark))
        place = f'x="{_n(mark.x)}" y="{_n(mark.y)}" font-size="{_n(mark.size)}"'
        return f"<text {look} {place}{weight}{anchor}>{spans}</text>"

    @staticmethod
    def spans(mark: Text) -> list[str]:
        made, lowered = [], False
        for run in mark.runs:
            style = ' font-style="italic"' if run.italic else ""
            style += f' font-size="{_n(mark.size * 0.72)}"' if run.low else ""
            fall = 0.22 * mark.size * (run.low - lowered)
            style += f' dy="{_n(fall)}"' if fall else ""
            lowered = run.low
            words = run.text
            if fall and words[:1] == " ":  # a renderer drops a space where the line moves up or down
                style += f' dx="{_n(text_width((Run(" "),), mark.size, mark.weight))}"'
                words = words[1:]
            words = re.sub("^ | $", "\u00a0", words)  # and may drop a plain space at the edge of a run
            made.append(f"<tspan{style}>{escape(words)}</tspan>" if style else escape(words))
        return made


def _arc(x: float, y: float, r: float, start: float, end: float) -> str:
    """An arc as a path; full accuracy, for figures are measured from it."""
    a, b = radians(start), radians(end)
    first = f"M{x + r * cos(a):.3f} {y + r * sin(a):.3f}"
    large, sweep = int(abs(end - start) > 180.0 + 1e-6), int(end > start)
    return f"{first}A{r:.3f} {r:.3f} 0 {large} {sweep} {x + r * cos(b):.3f} {y + r * sin(b):.3f}"


def _wrap_marks(mark: Wrap) -> str:
    """The lay on a wheel: slanting marks (or chevrons, or a thread) along the arc."""
    if mark.lay == 4:
        return _arc(mark.x, mark.y, mark.r, mark.start, mark.end)
    slant = (1.4 / mark.r) * (-1 if mark.lay == 2 else 1)
    made = []
    for angle in _lay_angles(mark):
        if mark.lay == 3:
            ends = [(-HALF_CORE, angle - slant), (0.0, angle + slant), (HALF_CORE, angle - slant)]
        else:
            ends = [(-HALF_CORE, angle - slant), (HALF_CORE, angle + slant)]
        points = [(mark.x + (mark.r + out) * cos(a), mark.y + (mark.r + out) * sin(a)) for out, a in ends]
        made.append("M" + "L".join(f"{px:.1f} {py:.1f}" for px, py in points))
    return "".join(made)


def _lay_angles(mark: Wrap) -> list[float]:
    """Where the marks of the lay stand on an arc (radians): as many on every half turn, carried round by the run."""
    pitch = 180.0 / max(1, round(pi * mark.r / LAY_PITCH))
    low, high = sorted((mark.start, mark.end))
    first = ceil((low - mark.run) / pitch - 0.5)
    found = []
    while (angle := (first + 0.5) * pitch + mark.run) <= high:
        found.append(radians(angle))
        first += 1
    return found if mark.end > mark.start else found[::-1]


def _overlapping(mark: Strand) -> str:
    """A core a little longer than its casing, so that no seam shows where it meets a wrap."""
    over = 0.7 if mark.y2 > mark.y1 else -0.7
    return f'x1="{_n(mark.x1)}" y1="{_n(mark.y1 - over)}" x2="{_n(mark.x2)}" y2="{_n(mark.y2 + over)}"'


def _lean(mark: Strand) -> tuple[str, float]:
    """The frame of a strand that is not plumb: its own y runs along it."""
    from math import atan2, degrees, hypot

    across, down = mark.x2 - mark.x1, mark.y2 - mark.y1
    turn = degrees(atan2(-across, down))
    return f"translate({_n(mark.x1)} {_n(mark.y1)}) rotate({_n(turn)})", hypot(across, down)


def _transform(mark: Path) -> str:
    steps = []
    if mark.x or mark.y:
        steps.append(f"translate({_n(mark.x)} {_n(mark.y)})")
    if mark.turn:
        steps.append(f"rotate({_n(mark.turn)})")
    if mark.flip:
        steps.append("scale(1 -1)")
    return f' transform="{" ".join(steps)}"' if steps else ""


def faces(marks: Iterable[Primitive]) -> list[str]:
    """The typeface rules for the cuts these marks use, with the fonts in them."""
    used = {(mark.weight, run.italic) for mark in marks if isinstance(mark, Text) for run in mark.runs}
    return [
        f"@font-face{{font-family:'STIX Two Text';font-weight:{weight};font-style:{'italic' if italic else 'normal'};"
        f"src:url(data:font/woff2;base64,{_font(f'{weight}i' if italic else str(weight))}) format('woff2')}}"
        for weight, italic in sorted(used)
    ]


@cache
def _font(face: str) -> str:
    return b64encode(files("gantline").joinpath(f"assets/STIXTwoText-{face}.woff2").read_bytes()).decode("ascii")
