"""Reads figures back from their SVG text, and finds what is wrong with them. Shares nothing with the drawing code."""

import re
from dataclasses import dataclass
from math import atan2, degrees, hypot
from xml.etree import ElementTree

NAMESPACE = "{http://www.w3.org/2000/svg}"
UNIT = 30.0


@dataclass(frozen=True)
class Run:
    name: str
    x1: float
    y1: float
    x2: float
    y2: float


@dataclass(frozen=True)
class Arc:
    sheave: str
    x1: float
    y1: float
    x2: float
    y2: float
    r: float
    sweep: int


@dataclass(frozen=True)
class Words:
    text: str
    x: float
    y: float
    size: float


def root(svg: str) -> ElementTree.Element:
    return ElementTree.fromstring(svg)


def runs(svg: str) -> list[Run]:
    """Every strand's casing, in paint order."""
    found = []
    for line in root(svg).iter(f"{NAMESPACE}line"):
        if "data-strand" in line.attrib and re.search(r"-case(-p)?$", line.attrib["class"]):
            found.append(Run(line.attrib["data-strand"], *(float(line.attrib[k]) for k in ("x1", "y1", "x2", "y2"))))
    return found


def arcs(svg: str) -> list[Arc]:
    """Every wrap's casing."""
    found = []
    for path in root(svg).iter(f"{NAMESPACE}path"):
        if "data-wrap" in path.attrib and re.search(r"-case(-p)?$", path.attrib["class"]):
            n = [float(v) for v in re.findall(r"-?[\d.]+", path.attrib["d"])]
            found.append(Arc(path.attrib["data-sheave"], n[0], n[1], n[7], n[8], n[2], int(n[6])))
    return found


def words(svg: str) -> list[Words]:
    found = []
    for text in root(svg).iter(f"{NAMESPACE}text"):
        size = float(text.attrib["font-size"])
        low = [float(span.attrib["font-size"]) for span in text if "font-size" in span.attrib]
        place = float(text.attrib["x"]), float(text.attrib["y"])
        found.append(Words("".join(text.itertext()), *place, min([size, *low])))
    return found


def view_box(svg: str) -> tuple[float, float, float, float]:
    left, top, width, height = (float(n) for n in root(svg).attrib["viewBox"].split())
    return left, top, left + width, top + height


def loose_joints(svg: str) -> list[str]:
    """Ends of wraps that no strand meets, or meets off the tangent (0.05 px, 0.2 degrees)."""
    straight = runs(svg)
    wrong = []
    for arc in arcs(svg):
        x, y = _centre(arc)
        for px, py in ((arc.x1, arc.y1), (arc.x2, arc.y2)):
            met = [run for run in straight if _touches(run, px, py)]
            if not met:
                wrong.append(f"{arc.sheave}: nothing meets its wrap at {px:.1f}, {py:.1f}")
            wrong += [
                f"{run.name} is not tangent to {arc.sheave}" for run in met if not _tangent(run, px - x, py - y, arc.r)
            ]
    return wrong


def _touches(run: Run, x: float, y: float) -> bool:
    return min(hypot(run.x1 - x, run.y1 - y), hypot(run.x2 - x, run.y2 - y)) < 0.05


def _tangent(run: Run, dx: float, dy: float, r: float) -> bool:
    along = degrees(atan2(run.y2 - run.y1, run.x2 - run.x1)) % 180
    across = (degrees(atan2(dy, dx)) + 90) % 180
    return abs(hypot(dx, dy) - r) < 0.05 and min(abs(along - across), 180 - abs(along - across)) < 0.2


def _centre(arc: Arc) -> tuple[float, float]:
    """The centre of an arc of at most half a turn."""
    mx, my = (arc.x1 + arc.x2) / 2, (arc.y1 + arc.y2) / 2
    dx, dy = arc.x2 - arc.x1, arc.y2 - arc.y1
    half = hypot(dx, dy) / 2
    away = max(arc.r**2 - half**2, 0.0) ** 0.5 if arc.r - half > 0.05 else 0.0
    sign = -1 if arc.sweep == 0 else 1
    return mx - sign * away * dy / (2 * half), my + sign * away * dx / (2 * half)


def crowded(svg: str) -> list[str]:
    """Pairs of plumb strands that share a height and stand closer than 0.85 radii."""
    plumb = [run for run in runs(svg) if run.x1 == run.x2]
    wrong = []
    for number, one in enumerate(plumb):
        for other in plumb[number + 1 :]:
            share = min(max(one.y1, one.y2), max(other.y1, other.y2)) - max(
                min(one.y1, one.y2), min(other.y1, other.y2)
            )
            if share > 0.1 and abs(one.x1 - other.x1) < 0.85 * UNIT - 0.05:
                wrong.append(f"{one.name} and {other.name}")
    return wrong


def through_wheels(svg: str) -> list[str]:
    """Strands that pass over a wheel they are not on, or closer than 0.55 radii to its rim."""
    wrong = []
    for arc in arcs(svg):
        x, y = _centre(arc)
        for run in runs(svg):
            if run.x1 != run.x2 or _touches(run, arc.x1, arc.y1) or _touches(run, arc.x2, arc.y2):
                continue
            low, high = min(run.y1, run.y2), max(run.y1, run.y2)
            if low < y + arc.r - 0.1 and high > y - arc.r + 0.1 and abs(run.x1 - x) < arc.r + 0.55 * UNIT - 0.05:
                wrong.append(f"{run.name} over {arc.sheave}")
    return wrong
