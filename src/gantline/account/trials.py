"""What is seen when a rig is tried, in sentences; and what was assumed for it."""

from collections.abc import Sequence
from math import degrees

from gantline.mechanics import Assumed, Ending, Steady, Trial
from gantline.quantity import numeral, tenths, value_of
from gantline.rig import Rig, shown_unit

from .phrases.en import joined
from .phrases.en.trials import ASSUMED, ENDINGS, FOLLOWED, KINDS

_LEVEL = 0.05  # degrees: a tilt below it is none that a protractor shows


def trial_says(rig: Rig, trial: Trial) -> str:
    """What is seen, in a few sentences; or why nothing can be said, or where it stops."""
    said = [] if trial.setup is None else [*_onset(trial), *_steady(rig, trial), *meeting_says(trial)]
    ending = trial.ending
    return " ".join([*said, *([ending_says(ending)] if ending is not None else [])])


def meeting_says(trial: Trial) -> list[str]:
    """That the rise asked for is longer than the parts are apart, where it is: one sentence."""
    meets = trial.meets
    if meets is None:
        return []
    rise, asked, apart = (_way(way) for way in (meets.rise, meets.asked, meets.apart))
    return [FOLLOWED["meets-assumed" if meets.assumed else "meets"].format(
        asked=asked, parts=joined(meets.parts), apart=apart, rise=rise, names=" ".join(meets.parts),
    )]  # fmt: skip


def _way(way: float) -> str:
    """A length of the room: from a metre on in metres."""
    return _number(way, "m") if way >= 1 else _number(1000 * way, "mm")


def unread_says(trial: Trial) -> str:
    """Which of the hand travels asked for have no reading, and why; empty where all have."""
    if not trial.unread or trial.setup is None:
        return ""
    if trial.stopped is not None:
        why = FOLLOWED["unread-stopped"].format(hand=millimetres(trial.stopped.hand))
    else:
        why = FOLLOWED["unread-stopped-at-once" if trial.ending is not None else "unread-way"]
    return FOLLOWED["unread"].format(hands=joined([f"{numeral(1000 * hand)} mm" for hand in trial.unread]), why=why)


def ending_says(ending: Ending) -> str:
    """Why a trial has no answer, or stops: one sentence that begins with `Jump` or `Not determined`."""
    why = ENDINGS[ending.why].format(parts=joined(ending.parts or ("it",)), hand=millimetres(ending.hand or 0.0))
    way = f" while {ending.way}" if ending.way else ""
    return f"{KINDS[ending.kind]}{way}: {why}."


def assumed_says(trial: Trial) -> tuple[str, ...]:
    """Every measure that the file does not give, and what was taken for it."""
    if trial.setup is None:
        return ()
    share = trial.setup.preload
    start = "start-leaning" if share else "start"
    return (*map(_assumed, trial.setup.assumed), ASSUMED[start].format(value=_number(100 * share, "%")))


def millimetres(way: float) -> str:
    """A length as a ruler would read it: to a tenth of a millimetre."""
    return f"{numeral(value_of(tenths(1000 * way)))} mm"


def _assumed(one: Assumed) -> str:
    value = one.value or 0.0
    shown = {"m": millimetres(value), "1": _number(100 * value, "%")}.get(one.unit) or _number(value, one.unit)
    return ASSUMED[one.what].format(parts=joined(one.parts), value=shown)


def _onset(trial: Trial) -> list[str]:
    assert trial.setup is not None
    load, off, all_on = trial.setup.bodies[trial.setup.aim].name, trial.leaves_floor, trial.all_turning
    loads = trial.setup.bodies[trial.setup.aim].loads
    words = {"load": joined(loads) if loads else load}
    if not trial.history:
        return []
    if trial.way == "lowering":
        stood = trial.history[0].floor[load] > 0
        return [FOLLOWED["not-lifted"].format(hand=millimetres(trial.begins), **words)] if stood else []
    if off is None:
        stands = trial.history[-1].floor[load] > 0
        return [FOLLOWED["stays" if stands else "hangs"].format(hand=millimetres(trial.history[-1].hand), **words)]
    low = millimetres(trial.begins)
    said = [FOLLOWED["second" if trial.way == "second" else "leaves"].format(off=millimetres(off), low=low, **words)]
    return said + ([FOLLOWED["steady"].format(all=millimetres(all_on))] if all_on is not None else [])


def _steady(rig: Rig, trial: Trial) -> list[str]:
    ways = [state for state in (trial.raising, trial.lowering) if state is not None]
    said = [FOLLOWED[state.way].format(effort=_force(rig, state.effort)) for state in ways]
    shown = trial.lowering if trial.way == "lowering" else trial.raising
    return said + (_tilts(shown) if shown is not None else [])


def _tilts(state: Steady) -> list[str]:
    said = []
    for block, tilt in state.tilt.items():
        angle = degrees(tilt)
        side, shown = ("right" if angle > 0 else "left"), f"{tenths(abs(angle))} degrees"
        said.append(FOLLOWED["tilt" if abs(angle) > _LEVEL else "level"].format(block=block, tilt=shown, side=side))
    return said


def _force(rig: Rig, force: float) -> str:
    unit = shown_unit(rig, "N")
    return _number(force / float(unit.factor), unit.name) if unit else _number(force, "N")


def _number(value: float, unit: str) -> str:
    return f"{numeral(value)} {unit}"


def forces_said(rig: Rig, forces: Sequence[float]) -> list[str]:
    """Forces in the file's unit."""
    return [_force(rig, force) for force in forces]
