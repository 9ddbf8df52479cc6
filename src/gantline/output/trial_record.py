"""A trial as a record that programs read, `gantline-trial/1`.

Quantities as in the answer record, but all are floating-point numbers: `exact` and `formula` are null. Lengths in m,
angles in degrees; a tilt is positive where it lifts the right-hand side. Readers ignore keys they do not know.
"""

from collections.abc import Mapping
from math import degrees
from typing import Any

from gantline.account import assumed_says, trial_says
from gantline.mechanics import Assumed, Ending, Event, Meeting, Moment, Setup, Steady, Trial
from gantline.rig import Rig

FORMAT = "gantline-trial/1"

Record = dict[str, Any]


def trial_record(rig: Rig, trial: Trial) -> Record:
    """The whole trial, ready for JSON."""
    ending = trial.ending
    return {
        "format": FORMAT,
        "title": rig.title,
        "status": "followed" if ending is None else ending.kind,
        "says": trial_says(rig, trial),
        "numbers": "floating point",
        "way": trial.way,
        "begins": _length(trial.begins),
        "hauled_side": _hauled_side(trial.setup) if trial.setup else None,
        "assumed": list(assumed_says(trial)),
        "measures_assumed": [_assumed(one) for one in trial.setup.assumed] if trial.setup else [],
        "stretch_before_rise": _length(trial.raising.stretch) if trial.raising else None,
        "steady": {"raising": _steady(trial.raising), "lowering": _steady(trial.lowering)},
        "leaves_floor": _optional(trial.leaves_floor),
        "all_turning": _optional(trial.all_turning),
        "blocks": _blocks(trial),
        "events": [_event(event) for event in trial.events],
        "strand_names": [span.name for span in trial.setup.spans] if trial.setup else [],
        "history": [_moment(moment) for moment in trial.history],
        "stopped": _moment(trial.stopped) if trial.stopped else None,
        "unread": [_length(hand) for hand in trial.unread],
        "meets": _meeting(trial.meets) if trial.meets else None,
        "endings": [_ending(one) for one in trial.endings],
    }


def quantity(value: float, unit: str) -> Record:
    """A floating-point number with its unit."""
    return {"value": value + 0.0, "exact": None, "unit": unit, "formula": None}


def _length(way: float) -> Record:
    return quantity(way, "m")


def _optional(way: float | None) -> Record | None:
    return None if way is None else _length(way)


def _angle(angle: float) -> Record:
    return quantity(degrees(angle), "deg")


def _hauled_side(setup: Setup) -> str:
    """The side on which the hauled run leaves the last thing it touches."""
    span = next(span for span in setup.spans if span.hauled)
    touch = span.start if span.end.part == "hand" else span.end
    return "left" if touch.x + touch.side * touch.radius < 0 else "right"


def _blocks(trial: Trial) -> list[Record]:
    """The blocks that tilt."""
    names = [body.name for body in trial.setup.bodies if body.tilts] if trial.setup else []
    return [
        {
            "name": name,
            "tilt_raising": _angle(trial.raising.tilt[name]) if trial.raising else None,
            "tilt_lowering": _angle(trial.lowering.tilt[name]) if trial.lowering else None,
            "tilt_peak": _angle(trial.peak[name]) if name in trial.peak else None,
        }
        for name in names
    ]


def _steady(state: Steady | None) -> Record | None:
    if state is None:
        return None
    return {
        "effort": quantity(state.effort, "N"),
        "strands": [quantity(pull, "N") for pull in state.tensions.values()],
        "stretch": _length(state.stretch),
        "rise_per_hand": dict(state.rise_per_hand),
    }


def _event(event: Event) -> Record:
    return {"hand": _length(event.hand), "part": event.part, "what": event.what}


def _moment(moment: Moment) -> Record:
    return {
        "hand": _length(moment.hand),
        "effort": quantity(moment.effort, "N"),
        "strands": [quantity(pull, "N") for pull in moment.tensions.values()],
        "shortened": _lengths(moment.shortened),
        "tilt": {name: _angle(tilt) for name, tilt in moment.tilt.items()},
        "axles": _lengths(moment.axles),
        "load": _lengths(moment.load),
        "turns": {name: _angle(turn) for name, turn in moment.turns.items()},
        "slips": _lengths(moment.slips),
        "floor": {name: quantity(force, "N") for name, force in moment.floor.items()},
    }


def _meeting(meets: Meeting) -> Record:
    """The rise asked for, the rise there is room for, and the parts that meet."""
    return {
        "load": meets.load, "asked": _length(meets.asked), "rise": _length(meets.rise), "parts": list(meets.parts),
        "apart": _length(meets.apart), "assumed": meets.assumed,
    }  # fmt: skip


def _lengths(ways: Mapping[str, float]) -> Record:
    return {name: _length(way) for name, way in ways.items()}


def _assumed(one: Assumed) -> Record:
    value = None if one.value is None else quantity(one.value, one.unit)
    return {"what": one.what, "parts": list(one.parts), "value": value}


def _ending(one: Ending) -> Record:
    return {
        "kind": one.kind,
        "why": one.why,
        "parts": list(one.parts),
        "hand": _optional(one.hand),
        "way": one.way or None,
    }
