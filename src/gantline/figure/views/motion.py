"""Three states side by side while the rope is hauled: paint marks keep their place on the rope, wheels turn."""

from math import cos, radians, sin

from ..glyphs.rope import angles
from ..kinematics import moved, reach_of
from ..layout import Layout, NotDrawable, Wheel
from ..plate import Plate
from ..scene import Panel, Run
from ..sheet import UNIT
from ..words import plain, symbol, width

STATES, FAR, SHARE, GUTTER = 3, 2.8, 0.92, 46.0
CAPTION = 15.0


def draw(plate: Plate) -> None:
    start = plate.layout
    travel = min(SHARE * reach_of(plate.rig, plate.answer, start), FAR)
    if travel <= 0:
        raise NotDrawable("Nothing can move in this rig, so there is no motion to show.")
    wide = (start.right - start.left) * UNIT + GUTTER
    states = [moved(plate.rig, plate.answer, start, travel * n / (STATES - 1)) for n in range(STATES)]
    low = max(_lowest(state) for state, _ in states)
    high = min([start.top, *(s.grip.y - 2.2 for s, _ in states if s.grip and s.grip.up)])
    places = painted(start)
    for number, (state, turns) in enumerate(states):
        left = number * wide
        plate.sheet.origin = (left - start.left * UNIT, 0.0)
        plate.layout = state
        plate.draw_rig(values=False, turns=turns, index=True)
        plate.sheet.layer = "paint"
        for rope, lengths in places.items():
            for length in lengths:
                paint(plate, state, rope, length)
        words = _words(plate, travel * number / (STATES - 1))
        plate.sheet.layer = "caption"
        middle = left + (wide - GUTTER) / 2
        plate.sheet.text("caption", "ink-text", middle, low * UNIT + 34, words, CAPTION, 400, "middle")
        plate.panels.append(Panel(f"state {number + 1}", left, wide - GUTTER, "".join(run.text for run in words)))
        plate.claim(left, high * UNIT, left + max(wide - GUTTER, width(words, CAPTION)), low * UNIT + 40)
    plate.layout, plate.sheet.origin = start, (0.0, 0.0)


def _lowest(layout: Layout) -> float:
    return layout.bottom


def _words(plate: Plate, travel: float) -> tuple[Run, ...]:
    who = "hand" if plate.layout.grip else "way"
    if not travel:
        return plain(f"{who} 0")
    return (Run(f"{who} {travel:.2g}\u2009"), *symbol("r"))


def painted(layout: Layout) -> dict[str, list[float]]:
    """Three marks a rope, by their length along it from its first end (radii), spread over the part that moves."""
    found = {}
    for rope in dict.fromkeys(run.rope for run in layout.runs):
        whole = sum(length for _, length in _pieces(layout, rope))
        found[rope] = [whole * share for share in (0.28, 0.5, 0.7)]
    return found


Piece = tuple[object, float]


def _pieces(layout: Layout, rope: str) -> list[Piece]:
    """A rope's strands and wraps in turn, with their lengths (radii)."""
    pieces: list[Piece] = []
    wheels = {wheel.before: wheel for wheel in layout.wheels}
    for run in layout.runs:
        if run.rope == rope:
            pieces.append((run, abs(run.x2 - run.x1) + abs(run.y2 - run.y1)))
            wheel = wheels.get(run.name)
            if wheel:
                first, _, last = angles(wheel)
                pieces.append((wheel, abs(radians(last - first)) * wheel.r))
    return pieces


def paint(plate: Plate, layout: Layout, rope: str, length: float) -> None:
    """A mark so far along the rope: square across it."""
    for piece, whole in _pieces(layout, rope):
        if length <= whole:
            x, y, turn = _point(piece, length / whole if whole else 0.0)
            px, py = plate.sheet.at(x, y)
            plate.sheet.path(rope, "paint", "M-4.4-3.6H4.4V3.6H-4.4Z", px, py, turn=turn)
            return
        length -= whole


def _point(piece: object, share: float) -> tuple[float, float, float]:
    if isinstance(piece, Wheel):
        first, _, last = angles(piece)
        angle = first + (last - first) * share
        return piece.x + piece.r * cos(radians(angle)), piece.y + piece.r * sin(radians(angle)), angle
    x1, y1, x2, y2 = (getattr(piece, name) for name in ("x1", "y1", "x2", "y2"))
    return x1 + (x2 - x1) * share, y1 + (y2 - y1) * share, 0.0 if x1 == x2 else 90.0
