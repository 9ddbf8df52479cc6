"""Random rigs, drawn as sketches that can be written out as text in several equivalent ways."""

import random
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from hypothesis import strategies as st

Attribute = tuple[str, Fraction, str]  # keyword, number, unit

_OTHER_UNITS = {
    "N": ("kN", Fraction(1, 1000)), "kg": ("g", Fraction(1000)), "m": ("cm", Fraction(100)),
    "%": ("%", Fraction(1)), "kg m2": ("kg m2", Fraction(1)),
}  # fmt: skip


@dataclass(frozen=True)
class Piece:
    """A part: `kind` is fixed, moving or load; `sheaves` counts those that ropes run over."""

    kind: str
    name: str
    sheaves: int = 0
    attributes: tuple[Attribute, ...] = ()
    carries: str | None = None


@dataclass(frozen=True)
class Sketch:
    """A rig to be written out. `paths` are contacts: `hand`, `hand at X`, `X`, `over X.n`, `under X.n`."""

    pieces: tuple[Piece, ...]
    paths: tuple[tuple[str, tuple[str, ...]], ...]
    asked: tuple[str, str, Fraction] | None = None
    effort: Fraction | None = None

    def text(self, other_units: bool = False, order: int | None = None) -> str:
        """The `.rig` text; in other units, or with its statements shuffled, it says the same."""
        unit = _other if other_units else _as_is
        lines = [_piece(piece, unit) for piece in self.pieces]
        lines += [f"rope {name}: {', '.join(path)}" for name, path in self.paths]
        if self.asked:
            sense, name, number = self.asked
            lines.append(f"{sense} {name} {unit(number, 'm')}")
        if self.effort is not None:
            lines.append(f"effort {unit(self.effort, 'N')}")
        if order is not None:
            random.Random(order).shuffle(lines)
        return "\n".join(lines) + "\n"

    def renamed(self, new: Callable[[str], str]) -> "Sketch":
        """The same with every part and rope called otherwise."""

        def in_path(contact: str) -> str:
            side, _, name = contact.rpartition(" ")
            if contact == "hand":
                return contact
            part, dot, index = name.partition(".")
            return f"{side} {new(part)}{dot}{index}".strip()

        return replace(
            self,
            pieces=tuple(replace(p, name=new(p.name), carries=p.carries and new(p.carries)) for p in self.pieces),
            paths=tuple((new(name), tuple(map(in_path, path))) for name, path in self.paths),
            asked=self.asked and (self.asked[0], new(self.asked[1]), self.asked[2]),
        )

    def reversed(self) -> "Sketch":
        """The same with every rope read from its other end."""
        return replace(self, paths=tuple((name, path[::-1]) for name, path in self.paths))

    def scaled(self, factor: int) -> "Sketch":
        """The same with every weight, mass, wheel's mass and given pull so many times as large."""
        heavy = {"weight", "mass", "disc", "inertia"}

        def grown(piece: Piece) -> Piece:
            grown = ((k, n * factor if k in heavy else n, u) for k, n, u in piece.attributes)
            return replace(piece, attributes=tuple(grown))

        effort = None if self.effort is None else self.effort * factor
        return replace(self, pieces=tuple(map(grown, self.pieces)), effort=effort)

    def with_efficiency(self, number: Fraction | None) -> "Sketch":
        """The same with every sheave of this efficiency (in per cent), or with none said."""

        def lossy(piece: Piece) -> Piece:
            kept = tuple(a for a in piece.attributes if a[0] != "efficiency")
            said = (("efficiency", number, "%"),) if piece.sheaves and number is not None else ()
            return replace(piece, attributes=kept + said)

        return replace(self, pieces=tuple(map(lossy, self.pieces)))


def _as_is(number: Fraction, unit: str) -> str:
    return f"{number} {unit}"


def _other(number: Fraction, unit: str) -> str:
    name, factor = _OTHER_UNITS[unit]
    return f"{number * factor} {name}"


def _piece(piece: Piece, unit: Callable[[Fraction, str], str]) -> str:
    said = [f"sheaves {piece.sheaves}"] if piece.sheaves else []
    said += [f"{keyword} {unit(number, name)}" for keyword, number, name in piece.attributes]
    said += [f"carries {piece.carries}"] if piece.carries else []
    return f"{piece.kind} {piece.name} {', '.join(said)}".strip()


# -- what the parts weigh ---------------------------------------------------------------------------------------------

_numbers = st.fractions(min_value=1, max_value=400, max_denominator=4)


@st.composite
def heavy(draw: st.DrawFn, least: int = 1) -> tuple[Attribute, ...]:
    """A weight or a mass, sometimes of no weight at all where `least` is 0."""
    keyword, unit = draw(st.sampled_from((("weight", "N"), ("mass", "kg"))))
    number = draw(_numbers)
    return ((keyword, Fraction(0) if least == 0 and number < 20 else number, unit),)


@st.composite
def wheels(draw: st.DrawFn, loss: bool, turning: bool = False) -> tuple[Attribute, ...]:
    """What is said of a block's sheaves."""
    if loss and draw(st.booleans()):
        return (("efficiency", draw(st.fractions(min_value=50, max_value=100, max_denominator=2)), "%"),)
    if turning and draw(st.booleans()):
        return (("radius", Fraction(1, 10), "m"), ("inertia", draw(_numbers) / 1000, "kg m2"))
    return ()


class _Reeving:
    """Counts out the sheaves as ropes run over the blocks."""

    def __init__(self) -> None:
        self.used: dict[str, int] = {}

    def over(self, block: str) -> str:
        return self._next("over", block)

    def under(self, block: str) -> str:
        return self._next("under", block)

    def _next(self, side: str, block: str) -> str:
        self.used[block] = self.used.get(block, 0) + 1
        return f"{side} {block}.{self.used[block]}"


# -- families of rigs -------------------------------------------------------------------------------------------------


@st.composite
def tackles(draw: st.DrawFn, loss: bool = True) -> Sketch:
    """A one-rope tackle: any size, dead end above or below, hauled from above or below, with leads after it."""
    reeve, strands = _Reeving(), draw(st.integers(1, 9))
    from_moving = draw(st.booleans()) and strands > 1
    load = "goods"
    below, above = ("lower", "upper") if strands > 1 else (load, "upper")
    path = [above] if strands % 2 == 0 else [below]
    crossings = strands if not from_moving else strands - 1
    side = "under" if path[0] == above else "over"
    for _ in range(crossings):
        path.append(reeve.under("lower") if side == "under" else reeve.over("upper"))
        side = "over" if side == "under" else "under"
    for n in range(draw(st.integers(0, 2))):
        path.append(reeve.over(f"lead{n}") if side == "over" else reeve.under(f"lead{n}"))
        side = "over" if side == "under" else "under"
    rides = draw(st.booleans()) and draw(st.booleans())
    path.append(f"hand at {load}" if rides else "hand")
    pieces = [Piece("fixed", name, n, draw(wheels(loss))) for name, n in reeve.used.items() if name != "lower"]
    if "upper" in path and "upper" not in reeve.used:
        pieces.append(Piece("fixed", "upper"))
    if strands > 1:
        said = draw(heavy(least=0)) + draw(wheels(loss))
        pieces.append(Piece("moving", "lower", reeve.used.get("lower", 0), said, load))
    pieces.append(Piece("load", load, 0, draw(heavy())))
    asked = draw(st.sampled_from((None, ("raise", load, Fraction(3, 4)), ("lower", load, Fraction(1, 2)))))
    return Sketch(tuple(pieces), (("fall", tuple(path)),), asked)


@st.composite
def towers(draw: st.DrawFn, loss: bool = True) -> Sketch:
    """Tackle upon tackle: each fall is hauled by the next tackle's moving block, down to the floor and up again."""
    reeve = _Reeving()
    stages = draw(st.integers(2, 3))
    pieces, paths = [], []
    for stage in range(stages):
        block, fixed = f"block{stage}", f"post{stage}"
        up = stage % 2 == 0  # even stages pull up from a beam, odd ones down to the floor
        turn, back = (reeve.under, reeve.over) if up else (reeve.over, reeve.under)
        path = [fixed] if draw(st.booleans()) else [block, back(fixed)]
        for _ in range(draw(st.integers(1, 2))):
            path += [turn(block), back(fixed)]
        path.append("hand" if stage == stages - 1 else f"block{stage + 1}")
        paths.append((f"rope{stage}", tuple(path)))
        said = draw(heavy(least=0)) + draw(wheels(loss))
        pieces.append(Piece("moving", block, reeve.used[block], said, "goods" if stage == 0 else None))
        pieces.append(Piece("fixed", fixed, reeve.used[fixed], draw(wheels(loss))))
    pieces.append(Piece("load", "goods", 0, draw(heavy())))
    return Sketch(tuple(pieces), tuple(paths), draw(st.sampled_from((None, ("raise", "goods", Fraction(1, 4))))))


@st.composite
def burtons(draw: st.DrawFn, loss: bool = True) -> Sketch:
    """Flyer upon flyer, every rope's end on the load or on the beam; hauled at the last."""
    flyers = draw(st.integers(1, 4))
    to_load = [True, *(draw(st.booleans()) for _ in range(flyers))]
    pieces = [Piece("fixed", "top", 1, draw(wheels(loss)))]
    pieces += [] if all(to_load) else [Piece("fixed", "floor")]
    paths, last = [], "top"
    for n, tied in enumerate(to_load):
        end = "hand" if n == flyers else f"flyer{n}"
        paths.append((f"rope{n}", ("goods" if tied else "floor", f"over {last}.1", end)))
        if end != "hand":
            pieces.append(Piece("moving", end, 1, draw(heavy(least=0)) + draw(wheels(loss))))
        last = end
    pieces.append(Piece("load", "goods", 0, draw(heavy())))
    return Sketch(tuple(pieces), tuple(paths), draw(st.sampled_from((None, ("raise", "goods", Fraction(1, 4))))))


@st.composite
def runners(draw: st.DrawFn, loss: bool = True) -> Sketch:
    """Powers of two: each runner's fall lifts the next."""
    count = draw(st.integers(1, 5))
    said = [draw(heavy(least=0)) + draw(wheels(loss)) for _ in range(count)]
    pieces = [Piece("moving", f"runner{n}", 1, said[n], "goods" if n == 0 else None) for n in range(count)]
    ends = [*(f"runner{n}" for n in range(1, count)), "hand"]
    paths = tuple((f"rope{n}", ("beam", f"under runner{n}.1", end)) for n, end in enumerate(ends))
    load = Piece("load", "goods", 0, draw(heavy()))
    return Sketch((Piece("fixed", "beam"), *pieces, load), paths, ("raise", "goods", Fraction(1, 2)))


@st.composite
def atwoods(draw: st.DrawFn) -> Sketch:
    """Trees of swing wheels with loads at the leaves, heavy wheels too: they speed up."""
    pieces, paths = [], []

    def hang(depth: int) -> str:
        if depth == 0 or draw(st.booleans()):
            name = f"load{len(pieces)}"
            pieces.append(Piece("load", name, 0, draw(heavy())))
            return name
        name = f"swing{len(pieces)}"
        pieces.append(Piece("moving", name, 1, draw(heavy(least=0))))
        paths.append((f"rope_{name}", (hang(depth - 1), f"over {name}.1", hang(depth - 1))))
        return name

    top = Piece("fixed", "top", 1, draw(wheels(loss=False, turning=True)))
    one, two = draw(st.sampled_from(((1, 1), (2, 0))))
    paths.append(("rope_top", (hang(one), "over top.1", hang(two))))
    return Sketch((top, *pieces), tuple(paths))


@st.composite
def given_pulls(draw: st.DrawFn) -> Sketch:
    """A tackle with a pull that is given, or a counterweight on its fall: it holds, rises or sinks."""
    sketch = draw(tackles(loss=draw(st.booleans())))
    (name, path), *_ = sketch.paths
    if draw(st.booleans()) and path[-1] == "hand" and path[-2].startswith("over"):
        iron = Piece("load", "iron", 0, draw(heavy()))
        return replace(sketch, pieces=(*sketch.pieces, iron), paths=((name, (*path[:-1], "iron")),), asked=None)
    return replace(sketch, effort=draw(_numbers) * draw(st.sampled_from((1, 10))), asked=None)


@st.composite
def level_leads(draw: st.DrawFn) -> Sketch:
    """A lead along the ceiling, or down and along the floor."""
    floor = draw(st.booleans())
    way = ("over top.1", "under near_floor.1", "under far_floor.1") if floor else ("over top.1", "over far_top.1")
    names = {contact.split()[1].partition(".")[0] for contact in way}
    pieces = [Piece("fixed", name, 1, draw(wheels(loss=True))) for name in sorted(names)]
    pieces.append(Piece("load", "goods", 0, draw(heavy())))
    return Sketch(tuple(pieces), (("line", ("goods", *way, "hand")),), ("raise", "goods", Fraction(1)))


@st.composite
def tangles(draw: st.DrawFn) -> Sketch:
    """One to three ropes led anyhow: most cannot work, some are undecided, a few surprise."""
    reeve = _Reeving()
    fixed, moving = ("beam", "post"), tuple(f"block{n}" for n in range(draw(st.integers(1, 3))))
    loads = ("crate", "sack")[: draw(st.integers(1, 2))]
    carried = {load: draw(st.sampled_from((None, *moving))) for load in loads}
    tied = (*fixed, *moving, *loads)
    paths = []
    for n in range(draw(st.integers(1, 3))):
        side = draw(st.booleans())
        path = [draw(st.sampled_from(tied))]
        for _ in range(draw(st.integers(1, 4))):
            block = draw(st.sampled_from((*fixed, *moving)))
            path.append(reeve.over(block) if side else reeve.under(block))
            side = not side
        loose = [load for load in loads if not carried[load]]
        ends = ["hand"] if n == 0 and draw(st.booleans()) else loose or tied
        path.append(draw(st.sampled_from(ends)))
        paths.append((f"rope{n}", tuple(path)))
    touched = {re.sub(r"^\w+ |\.\d+$", "", contact) for _, path in paths for contact in path}
    pieces = [Piece("fixed", name, reeve.used.get(name, 0)) for name in fixed if name in touched]
    for name in moving:
        if name in touched or name in carried.values():
            load = next((load for load, block in carried.items() if block == name), None)
            pieces.append(Piece("moving", name, reeve.used.get(name, 0), draw(heavy(least=0)), load))
    pieces += [Piece("load", name, 0, draw(heavy())) for name in loads]
    return Sketch(tuple(pieces), tuple(paths))


hauled = st.one_of(tackles(), towers(), burtons(), runners(), level_leads())
sketches = st.one_of(tackles(), towers(), burtons(), runners(), level_leads(), atwoods(), given_pulls(), tangles())
