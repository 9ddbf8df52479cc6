"""The figure of a rig in the making: the whole rig's figure without what was only added to make it whole."""

from msgspec import Struct
from msgspec.structs import replace

from gantline.figure import Layout, Line, NotDrawable, Path, Primitive, Scene, Strand, Wrap, draw, lay_out
from gantline.mechanics import Answer, solve
from gantline.notation import Tree, parse
from gantline.rig import Rig, read

from .completing import ALOFT, Completed, complete

UNIT = 30.0  # px a sheave radius, as every scene has it
CAST_HIGH = 53.5  # px, from the shoulder of a load to the floor it stands on
HATCH, HATCH_HIGH, FLOOR_OVER = 7.0, 12.6, 16.0  # px: pitch and height of the floor's hatching, its reach past a load


class End(Struct, frozen=True):
    """Where a rope's laid part ends, px, and the way it hangs on from there."""

    rope: str
    x: float
    y: float
    going: str


class Draft(Struct, frozen=True):
    """A rig in the making. `rig` is what the text says so far, ropes as far as laid; `layout` that of the whole rig."""

    rig: Rig
    answer: Answer
    layout: Layout
    scene: Scene
    ends: tuple[End, ...]


def draft(text: str) -> Draft | None:
    """The figure of a text in the making; None where its rig is whole and drawn in full, or something else is wrong."""
    tree, problems = parse(text)
    if problems:
        return None
    rig = read(tree)[0]
    return None if rig is not None and not undrawn(rig) else drafted(tree)


def undrawn(rig: Rig) -> bool:
    """Whether a part of a whole rig is touched by nothing, so that its own figure would not show it."""
    touched = {contact.part for rope in rig.ropes for contact in rope.contacts}
    return any(part.name not in touched and rig.bearer(part.name) not in touched for part in rig.parts)


def drafted(tree: Tree) -> Draft | None:
    """The same for any tree that has its lines whole, also where its rig is."""
    whole = complete(tree)
    if whole is None:
        return None
    answer = solve(whole.rig)
    try:
        layout = lay_out(whole.rig, answer)
    except NotDrawable:
        return None
    return Draft(_laid(whole), answer, layout, _scene(whole, answer, layout), tuple(_free_ends(whole, layout)))


def _laid(whole: Completed) -> Rig:
    """The rig without what was added."""
    ropes = tuple(
        replace(rope, contacts=rope.contacts[: (n := whole.laid[rope.name])], strands=rope.strands[: max(n - 1, 0)])
        for rope in whole.rig.ropes if rope.name in whole.laid
    )  # fmt: skip
    return replace(whole.rig, parts=tuple(part for part in whole.rig.parts if not _hidden(part.name)), ropes=ropes)


def _hidden(name: str) -> bool:
    return name.startswith("·")


def _free_ends(whole: Completed, layout: Layout) -> list[End]:
    found = []
    for rope in whole.rig.ropes:
        laid = whole.laid.get(rope.name, len(rope.contacts))
        if laid < len(rope.contacts):
            run = layout.run(rope.strands[laid - 1].name)
            found.append(End(rope.name, run.x1 * UNIT, run.y1 * UNIT, rope.strands[laid - 1].course))
    return found


def _scene(whole: Completed, answer: Answer, layout: Layout) -> Scene:
    shown = {s.name for rope in whole.rig.ropes for s in rope.strands if s.index < whole.laid.get(rope.name, 0)}
    seen = _seen(whole, layout, shown)
    scene = draw(whole.rig, answer, "bare", layout=seen, caption=False)
    unseen = [(e.x * UNIT, e.y * UNIT) for e in layout.ends if not _is_laid(whole, e.rope, e.strand, e.part)]
    marks = tuple(_of_the_beam(mark) for mark in scene.marks if _stays(mark, shown, unseen))
    return replace(scene, marks=(*marks, *_floors(whole, marks)), description=_description(whole))


def _is_laid(whole: Completed, rope: str, strand: str, part: str) -> bool:
    """Whether a rope's end is one that the text has: its first, or its last where the rope is whole."""
    index, count = int(strand.rpartition(":")[2]), whole.laid.get(rope, 0)
    return not _hidden(part) and (index < count or (index == 1 and count == 1))


def _seen(whole: Completed, layout: Layout, shown: set[str]) -> Layout:
    """The layout without unseen bodies, runs and ends. Unseen wheels stay; what they are rove with does not matter."""
    runs = tuple(r for r in layout.runs if r.name in shown or (r.rope in whole.laid and r.name.endswith(":1")))
    runs = runs or layout.runs[:1]
    own = runs[0].rope
    bodies = tuple(b for b in layout.bodies if not _hidden(b.name) or b.name == ALOFT)
    ends = tuple(end for end in layout.ends if _is_laid(whole, end.rope, end.strand, end.part))
    ropes = {run.rope for run in runs}
    if not any(b.side == "ceiling" and b.name != ALOFT for b in bodies):
        ends += tuple(replace(e, rope=own) for e in layout.ends if e.part == ALOFT)[:1]
    else:
        bodies = tuple(b for b in bodies if b.name != ALOFT)
    wheels = tuple(w if w.rope in ropes else replace(w, rope=own) for w in layout.wheels)
    return replace(layout, runs=runs, bodies=bodies, ends=ends, wheels=wheels)


def _stays(mark: Primitive, shown: set[str], unseen_ends: list[tuple[float, float]]) -> bool:
    if isinstance(mark, Strand | Wrap):
        return mark.name in shown
    if isinstance(mark, Path) and mark.role.startswith(("eye", "turns")):
        return not any(abs(mark.x - x) < 0.1 and abs(mark.y - y) < UNIT for x, y in unseen_ends)
    return True


def _of_the_beam(mark: Primitive) -> Primitive:
    return replace(mark, part="beam", body="") if mark.part == ALOFT else mark


def _floors(whole: Completed, marks: tuple[Primitive, ...]) -> list[Primitive]:
    """The floor under loads that hang on nothing yet."""
    rig = whole.rig
    held = {contact.part for rope in rig.ropes if rope.name in whole.laid for contact in rope.contacts}
    loose = {load.name for load in rig.loads if not held & {load.name, rig.bearer(load.name)}}
    casts = (mark for mark in marks if isinstance(mark, Path) and mark.role == "load" and mark.part in loose)
    return [part for cast in casts for part in _floor(cast.x, cast.y + CAST_HIGH)]


def _floor(x: float, y: float) -> list[Primitive]:
    left, right = x - UNIT - FLOOR_OVER, x + UNIT + FLOOR_OVER
    places = (left + n * HATCH for n in range(int((right - left) / HATCH) - 1))
    hatch = "".join(f"M{place:.1f} {y + HATCH_HIGH:.1f}l{HATCH_HIGH:.1f} {-HATCH_HIGH:.1f}" for place in places)
    return [
        Path(part="floor", role="hair", layer="ground", d=hatch),
        Line(part="floor", role="shade", layer="ground", x1=left, y1=y, x2=right, y2=y),
    ]


def _description(whole: Completed) -> str:
    names = [part.name for part in whole.rig.parts if not _hidden(part.name)]
    ropes = [name for name, count in whole.laid.items() if count]
    led = f" Ropes led so far: {', '.join(ropes)}." if ropes else " No rope is led yet."
    return f"A rig in the making: {', '.join(names)}.{led}"
