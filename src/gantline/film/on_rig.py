"""What is done with the rig itself: to pencil and ink, cut free and counted, hauled and let back, tipped."""

from collections.abc import Callable, Mapping, Sequence

from msgspec.structs import replace

from gantline.account import Step
from gantline.figure import Circle, NotDrawable, Path, Primitive

from . import groups, side
from .composing import Composer, Passage
from .picture import Layer
from .stage import UNIT, Lit, Parts, Stage
from .storyboard import Verb
from .verbs import drawn, grown, running, tick_at, ticked, within

PENCIL, INK, RUN, FORMULA, BAG, HAUL, GOES, BACK, TIP = 0.3, 0.5, 1.6, 0.3, 1.4, 4.0, 2.0, 2.0, 0.9
DISC, REST = 0.2, 0.2
STANDING = ("way", "label", "force")  # layers of what is said of a rig that stands hauled
ONLY = ("under", "over")  # what a haul adds to the rig: ghosts, paint marks


def to_pencil(made: Composer, at: Passage) -> None:
    """What is done leaves ink, and all that was added leaves; what is known so far stays."""
    stage, lit = at.stage, _both(at.before.lit, at.step.lit)
    layers: dict[str, Layer | None] = dict.fromkeys(("under", "over", "column", "words"))
    layers["ledger"] = made.layers.get("ledger") if at.shows else None  # what is new comes with the ink
    if at.before.hauled:
        layers |= _layers(stage, stage.hauled(1.0, lit))
        if at.stays:
            layers["over"] = _with_ways(made, layers["over"])
    elif at.before.view == "tip":
        layers["rig"] = stage.layer("rig", _tipped(stage, 1.0, lit))
    else:
        layers["rig"] = stage.layer("rig", stage.parts("bare", lit).rig)
    if at.keeps:
        bag = stage.parts("count", lit)
        line = _outline(bag.over) if at.before.view == "cut" else _cut(bag.over)
        layers["under"], layers["over"] = stage.layer("under", bag.under), stage.layer("over", line)
    made.change("pencil", "what is done", PENCIL, layers)


def _with_ways(made: Composer, over: Layer | None) -> Layer | None:
    """The ways of load and hand, or how fast parts gather speed, stay as long as the rig stands there."""
    old = made.layers.get("over")
    kept = tuple(mark for mark in old.marks if mark.layer in STANDING) if old else ()
    return replace(over, marks=over.marks + kept) if over else None


def _layers(stage: Stage, parts: Parts) -> dict[str, Layer | None]:
    """The rig on its way, with its ghosts and its paint marks."""
    return {name: stage.layer(name, getattr(parts, name)) for name in ("under", "rig", "over")}


def _both(one: Lit, other: Lit) -> Lit:
    if one is None or other is None:
        return other if one is None else one
    return tuple(part for part in one if part in other)


def back(made: Composer, at: Passage) -> None:
    """Before a step that needs the rig as it was, the rope is let back, or the block goes level again."""
    stage, lit = at.stage, _both(at.before.lit, at.step.lit)
    if at.returns:
        _carry(made, stage, lit, "rope, back", BACK, lambda share: 1.0 - share)
    elif at.before.view == "tip":
        made.change("tip", "block, back", TIP, {"rig": stage.layer("rig", _tipped(stage, 0.0, lit))},
                    {"rig": lambda share: stage.layer("rig", _tipped(stage, 1.0 - share, lit))})  # fmt: skip


def _carry(
    made: Composer, stage: Stage, lit: Lit, what: str, seconds: float, way: Callable[[float], float],
    verb: Verb = "haul",
) -> None:  # fmt: skip
    """The rope runs by the solved motion: hand, wheels, loads, lay and paint marks, all of it at every frame."""

    at: tuple[float, Parts] | None = None  # the last one: three layers of a frame are of one state

    def parts(share: float) -> Parts:
        nonlocal at
        found = at
        if found is None or found[0] != share:
            found = at = share, stage.hauled(way(share), lit)
        return found[1]

    def partly(name: str) -> Callable[[float], Layer]:
        return lambda share: stage.layer(name, getattr(parts(share), name))

    end = _layers(stage, stage.hauled(way(1.0), lit))
    made.change(verb, what, seconds, end, {name: partly(name) for name in end})


def to_ink(made: Composer, at: Passage) -> None:
    """What is spoken of, all at once; a rope whose path is told runs from end to end. A rig that is to be hauled gets
    its paint marks with the ink, one that was let back loses them."""
    stage, step = at.stage, at.step
    told = _path(at)
    lit = tuple(part for part in step.lit or () if part not in told) if told else step.lit
    if step.view == "count" and not step.struck:
        lit = _uncounted(stage, step)
    if at.view == "balance":
        layers: dict[str, Layer | None] = {"rig": stage.layer("rig", _inside(stage, step, lit))}
    elif at.stays or at.hauls:
        layers = _layers(stage, stage.hauled(1.0 if at.stays else 0.0, lit))
        if at.stays:
            layers["over"] = _with_ways(made, layers["over"])
    else:
        layers = {"rig": stage.layer("rig", stage.parts("bare", lit).rig)}
        if at.returns:
            layers |= dict.fromkeys(ONLY)
    if at.shows:
        layers["ledger"] = side.ledger(stage.format, at.before.rows, stage.kinds)
    made.change("ink", "what is spoken of", INK, layers)
    if told:
        strands = [run.name for run in stage.layout.runs if run.name in told]
        _run(made, stage, step.lit, strands, RUN)


def _inside(stage: Stage, step: Step, lit: Lit) -> tuple[Primitive, ...]:
    """The rig with rope in ink inside the bag only: outside of it arrows take its place."""
    marks = stage.parts("bare", lit).rig
    line = _outline(stage.parts("balance", lit, step.marks).over)
    return within(marks, line[0].d) if line and isinstance(line[0], Path) else marks


def _path(at: Passage) -> frozenset[str]:
    """The rope a step follows, with its strands: where it lights the rope and every strand of it, and shows no more."""
    lit = set(at.step.lit or ())
    if at.step.view != "bare":
        return frozenset()
    for rope in {run.rope for run in at.stage.layout.runs} & lit:
        strands = {run.name for run in at.stage.layout.runs if run.rope == rope}
        if strands <= lit:
            return frozenset(strands | {rope})
    return frozenset()


def _run(
    made: Composer, stage: Stage, lit: Lit, strands: Sequence[str], seconds: float, back: bool = False,
    tick: Path | None = None,
) -> None:  # fmt: skip
    """Ink along these strands; a tick where one of them crosses the bag comes with it."""
    whole = stage.layer("rig", stage.parts("bare", lit).rig)
    layers = {"rig": whole}
    partly = {"rig": lambda share: replace(whole, marks=running(whole.marks, stage.layout, strands, share, back))}
    if tick is not None:
        line = made.layers["over"]
        layers["over"] = replace(line, marks=(*line.marks, tick))
        partly["over"] = lambda share: replace(line, marks=(*line.marks, ticked(tick, share)))
    made.change("ink", f"along {', '.join(strands)}", seconds, layers, partly)


def _cut(marks: Sequence[Primitive]) -> tuple[Primitive, ...]:
    return tuple(mark for mark in marks if mark.layer == "cut")


def _outline(marks: Sequence[Primitive]) -> tuple[Primitive, ...]:
    return tuple(mark for mark in _cut(marks) if mark.role == "cut")


def cut(made: Composer, at: Passage, parts: Parts) -> None:
    """The bag closes from under the load, both ways; then it has its tint. Ticks come as strands are counted."""
    if at.step.view not in ("cut", "count", "balance") or at.keeps or not _outline(parts.over):
        return
    stage, line = at.stage, _outline(parts.over)
    if at.step.struck:  # the bag is only remembered
        remembered = tuple(replace(mark, pencil=True) for mark in _cut(parts.over))
        made.change("set", "bag", FORMULA, {"over": stage.layer("over", remembered)})
        return
    whole = stage.layer("over", line)
    if at.before.bagged:  # it has been drawn before: here it is again
        again = {"under": stage.layer("under", parts.under), "over": stage.layer("over", _cut(parts.over))}
        made.change("set", "bag", FORMULA, again)
        return
    made.change("draw", "bag", BAG, {"over": whole}, {"over": lambda share: replace(whole, marks=drawn(line, share))})
    counted = at.step.view == "cut" or _counts(at)
    crossed = whole if counted else stage.layer("over", _cut(parts.over))
    made.change("set", "tint of the bag", FORMULA, {"under": stage.layer("under", parts.under), "over": crossed})


def _counts(at: Passage) -> bool:
    return at.step.view == "count" and bool(at.step.marks) and not at.step.struck


def _uncounted(stage: Stage, step: Step) -> Lit:
    """Before the count the strands to be counted are in pencil outside of the bag."""
    counted = {part for part, _ in step.marks}
    hauled = (stage.layout.grip.strand,) if stage.layout.grip else ()
    return (*(part for part in step.lit or () if part not in counted), *hauled)


def haul(made: Composer, at: Passage) -> bool:
    """The rope is hauled, or let go where things gather speed, once; the rig then stands so."""
    if at.hauls and at.view == "newton":
        _carry(made, at.stage, at.step.lit, "all that is let go", GOES, lambda share: share, "run")
    elif at.hauls:
        _carry(made, at.stage, at.step.lit, "rope", HAUL, lambda share: share)
    return at.hauls


def tip(made: Composer, at: Passage, parts: Parts) -> None:
    """The block goes to its solved angle; it stays level where the figure cannot show it."""
    if at.step.view != "tip":
        return
    stage, lit = at.stage, at.step.lit
    try:
        stage.tipped(1.0, lit)
    except NotDrawable:
        return
    made.change("tip", "block", TIP, {"rig": stage.layer("rig", parts.rig)},
                {"rig": lambda share: stage.layer("rig", stage.tipped(share, lit).rig)})  # fmt: skip


def _tipped(stage: Stage, share: float, lit: Lit) -> tuple[Primitive, ...]:
    """The rig with so much of its tilt; level where the figure cannot show it."""
    try:
        return stage.tipped(share, lit).rig
    except NotDrawable:
        return stage.parts("bare", lit).rig


def over(made: Composer, at: Passage, parts: Parts) -> None:
    """What the view adds over the rig, group by group."""
    stage, view = at.stage, at.view
    if at.step.view == "cut":
        return
    if _counts(at):
        _count(made, stage, at.step, parts)
        return
    if view == "tensions":
        made.change("set", "bands", FORMULA, {"under": stage.layer("under", parts.under)})
    inward = stage.layout.grip is not None and view in ("equal", "units", "balance")
    extra = [mark for mark in parts.over if mark.layer != "cut"]
    for group in groups.of_rig(_new(made, extra), view, inward):
        add(made, stage.layer("over", ()), group)


def _new(made: Composer, marks: Sequence[Primitive]) -> list[Primitive]:
    """Marks that are not there already."""
    layer = made.layers.get("over")
    there = set(layer.marks) if layer else set()
    return [mark for mark in marks if mark not in there]


def add(made: Composer, like: Layer, group: groups.Group) -> None:
    """A group more in the layer that stands like this one."""
    old = made.layers[like.name].marks if like.name in made.layers else ()
    ways: Mapping[str, Callable[..., tuple[Primitive, ...]]] = {"grow": grown, "draw": drawn}
    way = ways.get(group.verb)
    partly = {like.name: lambda share: replace(like, marks=old + way(group.marks, share))} if way else None
    made.change(group.verb, group.what, group.seconds, {like.name: replace(like, marks=old + group.marks)}, partly)


def _count(made: Composer, stage: Stage, step: Step, parts: Parts) -> None:
    """Strand by strand: tick, and ink from the bag upward, then its disc and the count; the hauled end last, to
    pencil."""
    discs = groups.of_rig([mark for mark in parts.over if mark.layer == "disc"], "count", False)
    ticks = [mark for mark in _cut(parts.over) if isinstance(mark, Path) and mark.role == "tick"]
    lit = made_lit = _uncounted(stage, step) or ()
    for number, (strand, _) in enumerate(step.marks, 1):
        made_lit = (*made_lit, strand)
        run = stage.layout.run(strand)
        tick = next((one for one in ticks if abs(tick_at(one) - run.x1 * UNIT) < 1.0), None)
        _run(made, stage, made_lit, [strand], INK, back=run.y2 > run.y1, tick=tick)
        disc = discs[number - 1].marks if number <= len(discs) else ()
        layer = made.layers["over"]
        shown = {"over": replace(layer, marks=layer.marks + disc), "words": side.count(stage.format, number)}
        made.change("set", f"disc {number}", DISC, shown, rest=REST)
    grip = stage.layout.grip
    if grip and grip.strand not in (step.lit or ()) and grip.strand in lit:
        _outside(made, stage, step)


def _outside(made: Composer, stage: Stage, step: Step) -> None:
    """The hauled end, which does not count: to pencil, with its dashed disc."""
    out = stage.parts("count", step.lit)
    made.change("pencil", "the hauled end", INK, {"rig": stage.layer("rig", out.rig)})
    for group in groups.of_rig([mark for mark in out.over if mark.layer == "disc"], "count", False):
        if any(isinstance(mark, Circle) and mark.role == "disc-out" for mark in group.marks):
            add(made, stage.layer("over", ()), group)
