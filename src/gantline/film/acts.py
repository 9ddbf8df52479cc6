"""What happens in each step: the rig to pencil and ink, then what its view adds, in the order in which it is told."""

from collections.abc import Callable, Mapping, Sequence

from msgspec.structs import replace

from gantline.account import Step
from gantline.figure import Circle, NotDrawable, Path, Primitive, Text, arrow_part
from gantline.quantity import Symbol

from . import groups, side
from .composing import Change, Composer, Scenery
from .picture import Layer
from .stage import Lit, Parts, Stage
from .telling import lossy, panel_of, running_way
from .verbs import drawn, grown, running

PENCIL, INK, RUN, FORMULA, BAG, HAUL, TURN, TIP = 0.3, 0.5, 1.6, 0.3, 1.4, 4.0, 0.2, 0.9
BAGGED = ("cut", "count", "balance")  # views that keep the bag
BIG = ("bare", "ask", "work", "tensions")  # views that need the ledger's room


def first(stage: Stage) -> Scenery:
    """Before the first step: the rig in pencil."""
    made = Composer(stage)
    parts = stage.parts("bare", ())
    made.put(rig=stage.layer("rig", parts.rig))
    made.says = parts.says
    return Scenery(made.picture, (), "bare", False, ())


def step_changes(stage: Stage, step: Step, says: str, before: Scenery) -> tuple[list[Change], Scenery]:
    """The changes of a step's shot, and what it leaves."""
    made = Composer(stage, before.picture)
    step = replace(step, lit=_with_hand(stage, step))
    panel, view = panel_of(stage, step), _view(step)
    if view == "tensions":
        parts = stage.parts(view, step.lit, _marks(step), answer=lossy(stage), way=running_way(stage))
    else:
        said = () if view == "newton" else step.marks  # that view has its own numbers
        parts = stage.parts(view, step.lit, said, step.struck)
    _to_scale(stage, parts)
    made.says = parts.says
    hauled = step.view == "displacement" and before.hauled
    keeps = before.view in BAGGED and step.view in BAGGED
    shows = step.view not in BIG and panel is None and step.id != "recap"
    _to_pencil(made, stage, step, before, hauled, keeps, shows)
    _to_ink(made, stage, step, before, hauled)
    if step.view in BAGGED:
        _bag(made, stage, parts, keeps, step)
    if step.view == "displacement":
        hauled = _haul(made, stage, step, hauled) or hauled
    if step.view == "tip":
        _tip(made, stage, step, parts)
    _over(made, stage, step, view, parts)
    _beside(made, stage, parts)
    asks = _asks(step)
    if asks:
        made.change("set", "question", FORMULA, {"words": side.question(stage.format, says, asks, 0)})
        for gone in range(1, asks + 1):
            made.change("set", "turn", TURN, {"words": side.question(stage.format, says, asks, gone)}, turn=True)
    elif panel is not None:
        for upto, (verb, marks) in enumerate(panel.rows, 1):
            now = panel.layer(upto)
            old = panel.layer(upto - 1).marks
            grow = {"words": lambda share, now=now, old=old, marks=marks: replace(now, marks=old + grown(marks, share))}
            seconds = 1.2 if verb == "grow" else FORMULA
            made.change("grow" if verb == "grow" else "set", "panel", seconds, {"words": now},
                        grow if verb == "grow" else None)  # fmt: skip
    else:
        _formula(made, stage, step, parts, shows)
    rows = _known(stage, step, before.rows)
    return made.changes, Scenery(made.picture, step.lit, step.view, hauled, rows)


def _with_hand(stage: Stage, step: Step) -> Lit:
    """Where a pull is asked for or the rope is hauled, the whole hauled end is in ink: what happens begins there."""
    grip = stage.layout.grip
    if grip is None or step.lit is None or step.view not in ("ask", "displacement"):
        return step.lit
    if step.view == "ask" and "hand" not in step.lit:
        return step.lit
    return tuple(dict.fromkeys((*step.lit, "hand", grip.strand)))


def _view(step: Step) -> str:
    """What is drawn: only the bag where a cut is made, and nothing that has not been said yet, is not so here,
    or is told by a panel."""
    early = step.view in ("units", "newton") and not step.marks
    return (
        "bare"
        if early or step.view == "work" or step.id in ("recap", "twist", "answer")
        else {"cut": "count"}.get(step.view, step.view)
    )


def _marks(step: Step) -> tuple[tuple[str, str], ...]:
    """Pulls without their unit, for a number breaks its rope."""
    return tuple((part, text.split("\u00a0")[0].split(" ")[0]) for part, text in step.marks)


def _asks(step: Step) -> int:
    """How many whipping turns the learner has; 0 where nothing is asked."""
    asked = step.view == "ask" or "?" in step.formula_text
    return round(step.pause) if asked and step.pause >= 3 else 0


def _known(stage: Stage, step: Step, rows: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    """What is known after the step: a letter has one row, its newest."""
    if step.id in ("wrong", "twist", "answer"):
        return rows
    found = side.known(step.formula_text or step.formula)
    asked = stage.act.rig.asked
    if asked is not None and step.formula == Symbol(asked.distance.symbol):
        found = [(v.key, v.shown) for v in stage.act.account.values if v.key == asked.distance.symbol]
    fresh = {name for name, _ in found}
    return (*(row for row in rows if row[0] not in fresh), *found)


def _to_pencil(
    made: Composer, stage: Stage, step: Step, before: Scenery, hauled: bool, keeps: bool, shows: bool
) -> None:
    """What is done leaves ink, and all that was added leaves; what is known so far stays."""
    lit = _both(before.lit, step.lit)
    parts = stage.hauled(1.0, lit) if hauled else stage.parts("bare", lit)
    layers = {
        "rig": stage.layer("rig", parts.rig),
        "under": stage.layer("under", parts.under) if hauled else None,
        "over": stage.layer("over", parts.over) if hauled else None,
        "column": None,
        "words": None,
        "ledger": side.ledger(stage.format, before.rows, stage.kinds) if shows else None,
    }
    if keeps:
        bag = stage.parts("count", lit)
        layers["under"], layers["over"] = stage.layer("under", bag.under), stage.layer("over", _cut(bag.over))
    elif hauled:
        old = made.layers.get("over")
        kept = tuple(mark for mark in old.marks if mark.layer == "way" or isinstance(mark, Text)) if old else ()
        layers["over"] = stage.layer("over", parts.over + kept)
    made.change("pencil", "what is done", PENCIL, layers)


def _both(one: Lit, other: Lit) -> Lit:
    if one is None or other is None:
        return other if one is None else one
    return tuple(part for part in one if part in other)


def _to_ink(made: Composer, stage: Stage, step: Step, before: Scenery, hauled: bool) -> None:
    """What is spoken of, all at once; a rope whose path is told runs from end to end."""
    told = _path(stage, step)
    lit = tuple(part for part in step.lit or () if part not in told) if told else step.lit
    if step.view == "count" and not step.struck:
        lit = _uncounted(stage, step)
    parts = stage.hauled(1.0, lit) if hauled else stage.parts("bare", lit)
    made.change("ink", "what is spoken of", INK, {"rig": stage.layer("rig", parts.rig)})
    if told:
        strands = [run.name for run in stage.layout.runs if run.name in told]
        _run(made, stage, step.lit, strands, RUN)


def _path(stage: Stage, step: Step) -> frozenset[str]:
    """The rope a step follows, with its strands: where it lights the rope and every strand of it, and shows no more."""
    ropes = {run.rope for run in stage.layout.runs}
    for rope in ropes & set(step.lit or ()):
        strands = {run.name for run in stage.layout.runs if run.rope == rope}
        if step.view == "bare" and step.lit and strands <= set(step.lit):
            return frozenset(strands | {rope})
    return frozenset()


def _run(made: Composer, stage: Stage, lit: Lit, strands: Sequence[str], seconds: float, back: bool = False) -> None:
    whole = stage.layer("rig", stage.parts("bare", lit).rig)
    made.change(
        "ink", f"along {', '.join(strands)}", seconds, {"rig": whole},
        {"rig": lambda share: replace(whole, marks=running(whole.marks, stage.layout, strands, share, back))},
    )  # fmt: skip


def _cut(marks: Sequence[Primitive]) -> tuple[Primitive, ...]:
    return tuple(mark for mark in marks if mark.layer == "cut")


def _bag(made: Composer, stage: Stage, parts: Parts, keeps: bool, step: Step) -> None:
    """The bag closes from under the load, both ways; then it has its tint."""
    if not keeps and any(mark.role == "cut" for mark in parts.over):
        line = tuple(mark for mark in parts.over if mark.role == "cut")
        if step.struck:  # the bag is only remembered
            made.change("set", "bag", FORMULA, {"over": stage.layer("over", _cut(parts.over))})
            return
        whole = stage.layer("over", line)
        made.change("draw", "bag", BAG, {"over": whole},
                    {"over": lambda share: replace(whole, marks=drawn(line, share))})  # fmt: skip
        crossed = whole if step.view == "cut" else stage.layer("over", _cut(parts.over))
        tint = {"under": stage.layer("under", parts.under), "over": crossed}
        made.change("set", "tint of the bag", FORMULA, tint)


def _uncounted(stage: Stage, step: Step) -> Lit:
    """Before the count the strands to be counted are in pencil outside of the bag."""
    counted = {part for part, _ in step.marks}
    hauled = (stage.layout.grip.strand,) if stage.layout.grip else ()
    return (*(part for part in step.lit or () if part not in counted), *hauled)


def _haul(made: Composer, stage: Stage, step: Step, hauled: bool) -> bool:
    """The rope is hauled by the solved motion: hand, wheels, loads and paint marks, all of it at every frame."""
    if hauled or stage.travel <= 0:
        return False
    end = stage.hauled(1.0, step.lit)
    layers = {name: stage.layer(name, getattr(end, name)) for name in ("under", "rig", "over")}

    def partly(name: str) -> Callable[[float], object]:
        return lambda share: stage.layer(name, getattr(stage.hauled(share, step.lit), name))

    made.change("haul", "rope", HAUL, layers, {name: partly(name) for name in layers})  # type: ignore[misc]
    return True


def _tip(made: Composer, stage: Stage, step: Step, parts: Parts) -> None:
    """The block goes to its solved angle; it stays level where the figure cannot show it."""
    try:
        stage.tipped(1.0, step.lit)
    except NotDrawable:
        return

    def partly(share: float) -> Layer:
        return stage.layer("rig", stage.tipped(share, step.lit).rig)

    made.change("tip", "block", TIP, {"rig": stage.layer("rig", parts.rig)}, {"rig": partly})


def _over(made: Composer, stage: Stage, step: Step, view: str, parts: Parts) -> None:
    """What the view adds over the rig, group by group."""
    if view == "count" and step.view == "count" and step.marks and not step.struck:
        _count(made, stage, step, parts)
        return
    if step.view == "cut":
        return
    if view == "tensions":
        made.change("set", "bands", FORMULA, {"under": stage.layer("under", parts.under)})
    grip = stage.layout.grip
    inward = grip is not None and view in ("equal", "units", "balance")
    extra = [mark for mark in parts.over if mark.layer != "cut"]
    for group in groups.of_rig(_new(made, extra), view, inward):
        _add(made, stage.layer("over", ()), group)


def _new(made: Composer, marks: Sequence[Primitive]) -> list[Primitive]:
    """Marks that are not there already."""
    layer = made.layers.get("over")
    there = set(layer.marks) if layer else set()
    return [mark for mark in marks if mark not in there]


def _add(made: Composer, like: Layer, group: groups.Group) -> None:
    """A group more in the layer that stands like this one."""
    old = made.layers[like.name].marks if like.name in made.layers else ()
    ways: Mapping[str, Callable[..., tuple[Primitive, ...]]] = {"grow": grown, "draw": drawn}
    way = ways.get(group.verb)
    partly = {like.name: lambda share: replace(like, marks=old + way(group.marks, share))} if way else None
    made.change(group.verb, group.what, group.seconds, {like.name: replace(like, marks=old + group.marks)}, partly)


def _count(made: Composer, stage: Stage, step: Step, parts: Parts) -> None:
    """Strand by strand: ink from the bag upward, then its disc and the count; the hauled end last, to pencil."""
    discs = groups.of_rig([mark for mark in parts.over if mark.layer == "disc"], "count", False)
    lit = made_lit = _uncounted(stage, step) or ()
    for number, (strand, _) in enumerate(step.marks, 1):
        made_lit = (*made_lit, strand)
        run = stage.layout.run(strand)
        _run(made, stage, made_lit, [strand], INK, back=run.y2 > run.y1)
        disc = discs[number - 1].marks if number <= len(discs) else ()
        layer = made.layers["over"]
        made.change("set", f"disc {number}", 0.2, {
            "over": replace(layer, marks=layer.marks + disc), "words": side.count(stage.format, number),
        })  # fmt: skip
    grip = stage.layout.grip
    if grip and grip.strand not in (step.lit or ()) and grip.strand in lit:
        out = stage.parts("count", step.lit)
        outside = [g for g in groups.of_rig([m for m in out.over if m.layer == "disc"], "count", False)
                   if any(isinstance(m, Circle) and m.role == "disc-out" for m in g.marks)]  # fmt: skip
        made.change("pencil", "the hauled end", INK, {"rig": stage.layer("rig", out.rig)})
        for group in outside:
            _add(made, stage.layer("over", ()), group)


def _beside(made: Composer, stage: Stage, parts: Parts) -> None:
    """The column; where a frame has none, the arrows on the rig tell it alone."""
    like = stage.beside("column", parts.column)
    for group in groups.of_column(parts.column):
        if made.format.column is None:
            made.change(group.verb, group.what, group.seconds, {})
        else:
            _add(made, like, group)


def _to_scale(stage: Stage, parts: Parts) -> None:
    """Arrows on strands to the scale of those in the column."""
    share = stage.beside("column", parts.column).scale / stage.scale
    if parts.column and share < 1.0:
        parts.over = tuple(
            replace(mark, d=arrow_part(mark.d, share)) if isinstance(mark, Path) and mark.role == "force" else mark
            for mark in parts.over
        )


def _formula(made: Composer, stage: Stage, step: Step, parts: Parts, shows: bool) -> None:
    """Givens with their leaders, or the formula in the room that is left."""
    shown = step.formula or step.formula_text
    if not shown:
        return
    if isinstance(shown, Symbol) and (number := dict(_known(stage, step, ())).get(shown.name)):
        shown = f"{shown.name} = {number}"
    format = stage.format
    named = _givens(stage, step) if isinstance(shown, str) and step.view == "bare" else []
    if named:
        layers = side.givens(format, named, stage.kinds)
        marks: tuple[Primitive, ...] = ()
        for one in layers:
            marks += one.marks
            made.change("set", "name and number", FORMULA, {"words": replace(one, marks=marks)})
        return
    room = format.words
    if parts.column and format.column:
        room = format.beside
    elif shows and format.ledger:
        room = (room[0], format.ledger[3], room[2], room[3])
    made.change("set", "formula", FORMULA, {"words": side.formula(format, shown, stage.kinds, room)}, waits=True)


def _givens(stage: Stage, step: Step) -> list[side.Given]:
    """The parts whose letters a step gives numbers to, from the top down."""
    rig, layout = stage.act.rig, stage.layout
    letters = {}
    for part in rig.parts:
        given = getattr(part, "weight", None) or getattr(part, "mass", None)
        if given:
            letters[given.symbol] = part.name
    found = []
    for letter, number in side.known(step.formula_text):
        if letter not in letters:
            return []
        body = layout.body(letters[letter])
        on_load = letters[letter] in body.loads
        x, y = stage.at(body.x + 1.0, _load_height(stage, body.name)) if on_load else stage.at(body.right, body.y)
        found.append(side.Given(x + 12, y, f"{letter} = {number}", stage.named(letters[letter])))
    return sorted(found, key=lambda one: one.y)


def _load_height(stage: Stage, name: str) -> float:
    """The middle of a load (radii under the beam)."""
    body = stage.layout.body(name)
    hung = body.bar or any(wheel.body == body.name for wheel in stage.layout.wheels)
    return body.y + (1.35 if hung else 0.0) + 1.15
