"""What a whole rig must be before it can be solved: things that no single line shows."""

from collections.abc import Iterator
from itertools import pairwise

from gantline.notation import Notes, did_you_mean

from .parts import Fixed, Hand, Load, Rope, Strand
from .rig import Rig


def check(rig: Rig, hands: tuple[Hand, ...], whole: bool, led: bool, notes: Notes) -> None:
    """Note every problem of a rig. Only where all lines (`whole`) and ropes (`led`) were read, is anything missing."""
    _hands(rig, hands, notes)
    for rope in rig.ropes:
        _path(rig, rope, notes)
    _sheaves_once(rig, notes)
    _carried(rig, whole, notes)
    if whole and led:
        _nothing_hangs_in_the_air(rig, notes)
        _no_circle(rig, notes)


def _hands(rig: Rig, hands: tuple[Hand, ...], notes: Notes) -> None:
    for second in hands[1:]:
        notes.add(
            "two-hands", second.place, "a second hand pulls here", "one pull is asked for, and it is one person's",
            "tie this end to a load whose weight is the second pull.",
        )  # fmt: skip


def _path(rig: Rig, rope: Rope, notes: Notes) -> None:
    """Ends that are made fast, sides in between, level runs between fixed blocks."""
    for contact in (rope.contacts[0], rope.contacts[-1]):
        if contact.sheave is not None:
            notes.add(
                "rope-end-missing", contact.place, f"rope `{rope.name}` ends at a sheave",
                "a rope that only lies on a wheel runs off it",
                "lead it on to a part, where it is made fast, or to `hand`.",
            )  # fmt: skip
    for contact in rope.contacts[1:-1]:
        if contact.part == "hand":
            notes.add(
                "hand-in-mid-rope", contact.place, "the hand stands in the middle of the rope",
                "a rope is hauled at its end",
                "end the path here, or lead it over a sheave instead.",
            )  # fmt: skip
        elif contact.sheave is None:
            sheaves = not isinstance(rig.part(contact.part), Load)
            do = (
                f"write `over {contact.part}` or `under {contact.part}`"
                if sheaves
                else "end this rope here and begin another"
            )
            notes.add(
                "side-missing",
                contact.place, f"rope `{rope.name}` is made fast to `{contact.part}` in the middle of its way",
                "where a rope is made fast it ends", f"{do}.",
            )  # fmt: skip
    _level(rig, rope, notes)
    _both_ends(rig, rope, notes)


def _level(rig: Rig, rope: Rope, notes: Notes) -> None:
    for strand in rope.strands:
        ends = (strand.start.part, strand.end.part)
        if strand.course != "level" or ends[0] == ends[1] or _joined(rig, *ends):
            continue
        if any(not isinstance(rig.part(part), Fixed) for part in ends):
            side = strand.start.side
            notes.add(
                "level-run-moves",
                strand.end.place, f"from {strand.start.name} to {strand.end.name} the rope runs level, {side} both",
                "a level run would pull a moving block aside, and it would not hang plumb",
                f"pass one of them {'under' if side == 'over' else 'over'}, or make both blocks fixed.",
            )  # fmt: skip


def _joined(rig: Rig, first: str, second: str) -> bool:
    """Whether two blocks are one body because they carry the same load."""
    carried = [set(part.carries) for part in rig.moving if part.name in (first, second)]
    return len(carried) == 2 and bool(carried[0] & carried[1])


def _both_ends(rig: Rig, rope: Rope, notes: Notes) -> None:
    """A rope between two fixed parts that nothing moves, or from a part to itself."""
    parts = [contact.part for contact in rope.contacts]
    if "hand" in parts:
        return
    if all(isinstance(rig.part(part), Fixed) for part in parts):
        notes.add(
            "rope-between-fixed", rope.place, f"rope `{rope.name}` touches only fixed parts",
            "nothing that moves hangs on it",
            "lead it under a moving block, to a load, or to `hand`.",
        )  # fmt: skip
    elif len(set(parts)) == 1:
        notes.add(
            "rope-to-itself", rope.place, f"rope `{rope.name}` leads from `{parts[0]}` only to itself",
            "such a rope moves nothing and holds nothing", "lead one end to another part.",
        )  # fmt: skip


def _sheaves_once(rig: Rig, notes: Notes) -> None:
    met: dict[str, int] = {}
    for rope in rig.ropes:
        for contact in rope.contacts:
            if contact.sheave is None:
                continue
            if contact.name in met:
                notes.add(
                    "sheave-twice",
                    contact.place, f"sheave {contact.name} has a rope already (line {met[contact.name]})",
                    "a wheel has one groove", f"give `{contact.part}` another sheave and use that.",
                )  # fmt: skip
            met.setdefault(contact.name, contact.place.line)


def _carried(rig: Rig, whole: bool, notes: Notes) -> None:
    names = {part.name for part in rig.parts}
    for block in rig.moving:
        for name in dict.fromkeys(block.carries):
            if name not in names:
                says, do = (
                    f"`{block.name}` carries `{name}`, which is no part",
                    did_you_mean(name, tuple(load.name for load in rig.loads), f"add `load {name} weight ...`."),
                )
            elif not isinstance(rig.part(name), Load):
                says, do = (
                    f"`{block.name}` carries `{name}`, which is no load",
                    "carry a load, or join the two with a rope.",
                )
            else:
                continue
            notes.add("carries-no-load", block.place, says, "a block carries loads on its hook", do)
        if len(set(block.carries)) < len(block.carries):
            notes.add(
                "carried-twice",
                block.place,
                f"`{block.name}` names a load twice",
                "a load hangs there once",
                "name it once.",
            )


def _nothing_hangs_in_the_air(rig: Rig, notes: Notes) -> None:
    if not rig.ropes:
        place = rig.parts[0].place if rig.parts else rig.gravity.place
        notes.add("no-rope", place, "no rope is described", "without a rope nothing is held or moved",
                  "add a line such as `rope fall: beam, under lower, hand`, with your own names.")  # fmt: skip
        return
    if not rig.movers:
        notes.add("nothing-moves", rig.ropes[0].place, "nothing here can move",
        "a rope needs a load or a moving block to act on",
                  "add a load, and tie it to the rope or let a block carry it.")  # fmt: skip
    touched = {contact.part for rope in rig.ropes for contact in rope.contacts}
    if rig.hand and rig.hand.rides:
        touched.add(rig.hand.rides)
    borne = touched | {load for block in rig.moving if block.name in touched for load in block.carries}
    for part in rig.movers:
        if part.name not in borne:
            notes.add(
                "held-by-nothing", part.place, f"no rope holds `{part.name}`", "it would simply fall",
                f"tie a rope to `{part.name}`, or let a block carry it." if isinstance(part, Load) else
                f"lead a rope under, over or to `{part.name}`, or leave it out.",
            )  # fmt: skip


def _no_circle(rig: Rig, notes: Notes) -> None:
    """No part may have to hang below itself."""
    below: dict[str, set[str]] = {}
    for rope in rig.ropes:
        for strand in rope.strands:
            pair = _high_low(rig, strand)
            if pair is not None:
                below.setdefault(pair[0], set()).add(pair[1])
    circle = next((found for name in below if (found := _circle(name, below))), None)
    if circle is None:
        return
    places = {part.name: part.place for part in rig.parts}
    chain = ", ".join(f"`{high}` (line {places[high].line}) above `{low}`" for high, low in pairwise(circle))
    notes.add(
        "hangs-in-a-circle", places[circle[0]], f"parts would have to hang from each other: {chain}",
        "nothing can be above and below the same thing",
        "turn one `over` into `under`, or lead the rope to another part.",
    )  # fmt: skip


def _high_low(rig: Rig, strand: Strand) -> tuple[str, str] | None:
    if strand.course == "level" or "hand" in (strand.start.part, strand.end.part):
        return None
    first, second = rig.bearer(strand.start.part), rig.bearer(strand.end.part)
    if first == second:
        return None
    return (first, second) if strand.course == "down" else (second, first)


def _circle(start: str, below: dict[str, set[str]]) -> list[str] | None:
    """A way down from a part that comes back to it, without recursion."""
    trail: list[tuple[str, Iterator[str]]] = [(start, iter(sorted(below.get(start, ()))))]
    seen = {start}
    while trail:
        name = next(trail[-1][1], None)
        if name is None:
            trail.pop()
        elif name == start:
            return [each for each, _ in trail] + [start]
        elif name not in seen:
            seen.add(name)
            trail.append((name, iter(sorted(below.get(name, ())))))
    return None
