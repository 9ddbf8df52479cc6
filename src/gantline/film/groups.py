"""What a view adds to the bare rig, in the order in which it is told: groups of marks, each with its verb."""

from collections.abc import Sequence

from msgspec import Struct

from gantline.figure import Circle, Line, Path, Primitive, Rect, Text

from .storyboard import Verb

ARROW, LINE, DISC, LABEL, ALL = 0.5, 0.4, 0.2, 0.2, 0.3
SINGLY = 6  # labels up to this many come one by one
ARROWS = 2.4  # s for all arrows of one picture, at most


class Group(Struct, frozen=True):
    """Marks that come together."""

    verb: Verb
    what: str
    seconds: float
    marks: tuple[Primitive, ...]


def of_rig(marks: Sequence[Primitive], view: str, inward: bool) -> list[Group]:
    """Groups of what lies over the rig. `inward`: labels on strands begin at the hand."""
    arrows = _arrows([mark for mark in marks if _arrow(mark)])
    labels = _labels(marks)
    if inward:
        labels = [*(g for g in labels if g.what == "hand"), *[g for g in labels if g.what != "hand"][::-1]]
    rest = _ways(marks) + _discs(marks) + _others(marks)
    if view == "solve":
        return [*(g for g in labels if g.what != "hand"), *arrows, *(g for g in labels if g.what == "hand"), *rest]
    return rest + arrows + (labels if len(labels) <= SINGLY else _together(labels))


def of_column(marks: Sequence[Primitive]) -> list[Group]:
    """Levels and scale, then the arrows, then their letters."""
    frame = tuple(mark for mark in marks if mark.part == "scale")
    arrows = _arrows([mark for mark in marks if _arrow(mark)])
    letters = tuple(mark for mark in marks if isinstance(mark, Text | Rect) and mark.part != "scale")
    made = [Group("set", "level lines and scale", ALL, frame)] if frame else []
    return [*made, *arrows, *([Group("set", "letters", ALL, letters)] if letters else [])]


def _arrow(mark: Primitive) -> bool:
    return isinstance(mark, Path) and mark.role in ("force", "weight")


def _arrows(marks: Sequence[Primitive]) -> list[Group]:
    each = min(ARROW, ARROWS / max(1, len(marks)))
    return [Group("grow", f"arrow at {mark.part}", each, (mark,)) for mark in marks]


def _labels(marks: Sequence[Primitive]) -> list[Group]:
    """Each label, with the paper it clears on its strand."""
    found, before = [], None
    for mark in marks:
        if isinstance(mark, Text) and mark.layer == "label":
            halo = (before,) if isinstance(before, Rect) and before.role == "halo" else ()
            found.append(Group("set", mark.part, LABEL, (*halo, mark)))
        before = mark
    return found


def _together(groups: Sequence[Group]) -> list[Group]:
    return [Group("set", "labels", ALL, tuple(mark for group in groups for mark in group.marks))]


def _discs(marks: Sequence[Primitive]) -> list[Group]:
    """Each disc with its number, and the stroke through it."""
    found: list[list[Primitive]] = []
    for mark in marks:
        if mark.layer == "disc":
            if isinstance(mark, Circle):
                found.append([])
            found[-1].append(mark)
    return [Group("set", "disc", DISC, tuple(disc)) for disc in found]


def _ways(marks: Sequence[Primitive]) -> list[Group]:
    """The dimension of each part that goes somewhere."""
    ways: dict[str, list[Primitive]] = {}
    for mark in marks:
        if mark.layer == "way":
            ways.setdefault(mark.part, []).append(mark)
    return [Group("draw", f"way of {part}", LINE, tuple(own)) for part, own in ways.items()]


def _others(marks: Sequence[Primitive]) -> list[Group]:
    """What is asked for, and arrows of acceleration: set as they are."""
    rest = tuple(
        mark
        for mark in marks
        if mark.layer not in ("way", "disc", "label", "cut", "work")
        and not _arrow(mark)
        and isinstance(mark, Path | Line)
    )
    return [Group("set", "arrows", ALL, rest)] if rest else []
