"""What makes sense of a kit only as a whole: names that differ, divisions finer than the span, a rating with a name."""

from collections.abc import Iterator

from gantline.notation import Notes

from .kit import DEMONSTRATION, Block, Cord, Kit, Mass, Scale
from .lines import Lines

_Entry = Mass | Cord | Block | Scale


def check(kit: Kit, notes: Notes, lines: Lines) -> None:
    """Notes what does not go together."""
    _names(kit, notes, lines)
    _scales(kit, notes, lines)
    _rating(kit, notes, lines)


def _entries(kit: Kit) -> Iterator[tuple[str, tuple[_Entry, ...]]]:
    yield from (("mass", kit.masses), ("cord", kit.cords), ("block", kit.blocks), ("scale", kit.scales))


def _names(kit: Kit, notes: Notes, lines: Lines) -> None:
    for table, entries in _entries(kit):
        names = [entry.name for entry in entries]
        for n, name in enumerate(names):
            if name in names[:n]:
                notes.add(
                    "kit-name-twice", lines.of(table, n, "name"), f"two of [[{table}]] are called `{name}`",
                    "the plan names what to take from the cupboard", "give each a name of its own.",
                )  # fmt: skip


def _scales(kit: Kit, notes: Notes, lines: Lines) -> None:
    for n, scale in enumerate(kit.scales):
        if scale.division.number >= scale.span.number:  # type: ignore[operator]
            notes.add(
                "kit-scale-too-coarse", lines.of("scale", n, "division"), "a division is as large as the whole span",
                "such a scale shows nothing", "write what lies between two marks, such as division = \"0.2 N\".",
            )  # fmt: skip


def _rating(kit: Kit, notes: Notes, lines: Lines) -> None:
    stand = kit.stand
    if (stand.rated is None) == bool(stand.rated_by):
        key = "rated" if stand.rated else "rated_by"
        notes.add(
            "kit-rating-incomplete", lines.of("stand", 0, key), "a rating has no name, or a name no rating",
            "a rating is worth what whoever gave it is worth",
            "write both `rated` and `rated_by`, or neither.",
        )  # fmt: skip
    if stand.heaviest > DEMONSTRATION.value and stand.rated is None:
        notes.add(
            "kit-limit-unrated", lines.of("stand", 0, "limit"),
            f"`limit` is above {DEMONSTRATION.value} kg, and nobody has rated the anchor",
            "above demonstration loads somebody who may must say what the anchor carries",
            "lower the limit, or add `rated` and `rated_by`.",
        )  # fmt: skip
