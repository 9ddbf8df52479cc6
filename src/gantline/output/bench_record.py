"""The bench plan as a record that programs read, `gantline-bench/1`: every number in SI, exact and as a float."""

from fractions import Fraction
from typing import Any

from gantline.bench import Declined, Plan

from .record import exact

FORMAT = "gantline-bench/1"

_CUT = ("strands", "wraps", "lead", "tail", "knots", "cut")
Record = dict[str, Any]


def plan_record(plan: Plan) -> Record:
    """The whole plan, ready for JSON."""
    held, room = plan.choice.held, plan.room
    return {
        "format": FORMAT,
        "title": plan.rig.title,
        "kit": plan.kit.title,
        "load": {
            "name": plan.rig.loads[0].name, "mass": _q(plan.choice.hung.mass, "kg"),
            "pieces": [{"name": mass.name, "count": count} for count, mass in plan.choice.hung.pieces],
        },
        "scale": {
            "name": held.scale.name, "held": held.way, "span": _q(held.span, "N"), "shows_less": _q(held.less, "N"),
            "zero": _q(held.zero, "N"), "band": [_q(edge, "N") for edge in held.band],
        },
        "efficiency": [_q(share, "1") for share in plan.efficiency],
        "blocks": [{"part": taken.part, "block": taken.block.name} for taken in plan.taken],
        "readings": [
            {
                "way": reading.way, "pull": _q(reading.pull, "N"), "pulls": [_q(pull, "N") for pull in reading.pulls],
                "shown": _q(reading.shown, "N"), "shows": [_q(shown, "N") for shown in reading.shows],
                "well": reading.well,
            }
            for reading in plan.readings
        ],
        "cord": plan.cord.name,
        "cuts": [
            {"rope": cut.rope, **{part: _q(getattr(cut, part), "m") for part in _CUT}} for cut in plan.cuts
        ],
        "room": {
            "height": _q(room.height, "m"), "needed": _q(room.needed, "m"), "rise": _q(plan.rise, "m"),
            "haul": _q(plan.haul, "m"), "most": _q(room.rise, "m"), "meeting": _q(room.meeting, "m"),
            "meet": [room.meets.above, room.meets.below],
        },
        "anchors": [
            {
                "name": anchor.name, "rest": _q(anchor.rest, "N"), "hauling": _q(anchor.hauling, "N"),
                "letting_down": _q(anchor.letting, "N"), "blocks_met": _q(anchor.two_blocked, "N"),
                "sideways": anchor.sideways,
            }
            for anchor in plan.anchors
        ],
        "marks": [
            {"part": mark.part, "per_rise": _q(mark.way, "1"), "sideways": mark.level} for mark in plan.marks
        ],
        "laws": laws_record(plan),
        "seen": plan.seen and {
            "stretch": plan.seen.stretch, "assumed": list(plan.seen.assumed),
            "tilts": [{"block": t.block, "raising": t.raising, "lowering": t.lowering} for t in plan.seen.tilts],
        },
        "cautions": [{"says": caution.says, "source": caution.source} for caution in plan.cautions],
    }  # fmt: skip


def laws_record(plan: Plan) -> list[Record]:
    """The rules for the loss side by side."""
    return [
        {
            "rule": law.name, "source": law.source, "pull": _q(law.pull, "N"), "against": _q(law.against, "1"),
            "unfit": law.unfit or None,
        }
        for law in plan.laws
    ]  # fmt: skip


def declined_record(declined: Declined) -> Record:
    """Why there is no plan."""
    refused = {"code": declined.code, "says": declined.says, "why": declined.why, "do": declined.do}
    return {"format": FORMAT, "refused": refused}


def _q(number: Fraction | None, unit: str) -> Record | None:
    return None if number is None else {"value": float(number), "exact": exact(number), "unit": unit}
