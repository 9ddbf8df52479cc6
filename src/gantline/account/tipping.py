"""That the block will not stay level: the steady tilt, of the file's own measures or of usual ones."""

from fractions import Fraction
from math import degrees

from gantline.mechanics import Value, steady
from gantline.quantity import tenths, value_of
from gantline.rig import Moving

from .facts import Facts
from .writing import Writer

_LEAST = Fraction(1, 2)  # degrees: less is not worth a sentence


def tips(writer: Writer) -> None:
    """How far the block that carries the load tips while it is raised; nothing where that is little or not known."""
    facts = writer.facts
    block = _block(facts)
    if block is None or not writer.tells("tilt") or not any(step.id == "really" for step in writer.steps):
        return
    found = steady(facts.rig)
    tilt = degrees(found.raising.tilt.get(block.name, 0.0)) if found.raising else 0.0
    angle = value_of(tenths(abs(tilt)))
    if found.setup is None or angle < _LEAST:
        return
    writer.tell(tilt=Value(angle, "deg", None))
    sizes = any(one.what in ("spacing", "hook", "radius") for one in found.setup.assumed)
    writer.step(
        "tilt", "tip",
        true={"assumed-sizes"} if sizes else set(), words={"block": writer.nouns[block.name]},
    )  # fmt: skip


def _block(facts: Facts) -> Moving | None:
    """The block of two wheels or more that carries the load asked about, alone."""
    name = facts.rig.bearer(facts.load)
    part = facts.rig.part(name)
    wide = isinstance(part, Moving) and sum(sheave.block == name for sheave in facts.sheaves) > 1
    return part if wide and not facts.rides else None  # type: ignore[return-value]
