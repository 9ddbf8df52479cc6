"""What will be seen, in the lesson: the true pose, a sheet for a ruler, and two curves."""

from collections.abc import Callable

from gantline.account import READ_AT, Seen, forces_said, seen
from gantline.figure import Axis, Layout, NotDrawable, Scene, Series, chart, draw
from gantline.mechanics import Answer, Moment, Trial, trial
from gantline.quantity import numeral, tenths
from gantline.rig import Rig

from .lesson import Ruler, Sight

_SIZE = (400.0, 290.0)  # of a curve, px
_STEPS = 40  # readings of a curve
_MOST_AXLES = 4  # columns of the sheet; past it the farthest and the nearest stand for the rest


def sight(rig: Rig, answer: Answer, layout: Layout) -> Sight | None:
    """What a trial of the rig shows, None where the model does not reach it."""
    found = seen(rig)
    if found is None:
        return None
    return Sight(
        seen=found,
        stand_in="" if found.standing.share == 1 else
        "The load is too heavy to show: this is what a stand-in of 10 newtons does, its block in proportion.",
        scene=_pose(rig, answer, layout),
        ruler=_ruler(found),
        charts=_charts(found),
    )  # fmt: skip


def _pose(rig: Rig, answer: Answer, layout: Layout) -> Scene | None:
    try:
        return draw(rig, answer, "tried", layout=layout)
    except NotDrawable:
        return None


def _axles(found: Seen) -> tuple[str, ...]:
    """The moving wheels, in the order the rope meets them from its far end: each once."""
    names = tuple(found.trial.history[0].axles)
    hauled = found.trial.setup.spans[0].hauled if found.trial.setup else False
    ordered = names[::-1] if hauled else names
    return ordered if len(ordered) <= _MOST_AXLES else (ordered[0], ordered[-1])


def _ruler(found: Seen) -> Ruler:
    """One row for each length of rope: the pull, how far every axle and load has come up, and what it should be."""
    axles, loads = _axles(found), tuple(found.trial.history[0].load)
    perfect = tuple(_rate(found) * moment.hand for moment in found.trial.history)
    pulls = forces_said(found.standing.rig, [moment.effort for moment in found.trial.history])
    rows = [
        (numeral(1000 * moment.hand), pull, *(_mm(moment.axles[name]) for name in axles),
         *(_mm(moment.load[name]) for name in loads), _mm(rise))
        for moment, pull, rise in zip(found.trial.history, pulls, perfect, strict=True)
    ]  # fmt: skip
    return Ruler(("rope", "pull", *axles, *loads, "perfect"), tuple(rows), perfect)


def _rate(found: Seen) -> float:
    """How far the load asked about rises for each length of rope, if nothing stretches or rubs."""
    assert found.trial.raising is not None
    assert found.trial.setup is not None
    return found.trial.raising.rise_per_hand[found.trial.setup.bodies[found.trial.setup.aim].name]


def _mm(metres: float) -> str:
    return tenths(1000 * metres)


# -- curves -----------------------------------------------------------------------------------------------------------


def _charts(found: Seen) -> tuple[Scene, ...]:
    hands = [READ_AT[-1] * n / _STEPS for n in range(_STEPS + 1)]
    up = trial(found.standing.rig, hands)
    down = trial(found.standing.rig, hands, "lowering", top=READ_AT[-1])
    return (*_rises(found, up), *_pulls(up, down))


def _rises(found: Seen, up: Trial) -> tuple[Scene, ...]:
    """How far the far and the near axle come up as the rope is taken in."""
    axles = _axles(found)
    if not axles or len(up.history) < 2:
        return ()
    shown = dict.fromkeys((axles[0], axles[-1]))
    looks = ("line", "thin") if len(shown) > 1 else ("line",)
    series = [Series(name, look, _curve(up, _axle(name))) for name, look in zip(reversed(shown), looks, strict=True)]
    rate = _rate(found)
    series.append(Series("perfect", "dashes", _curve(up, lambda moment: 1000 * rate * moment.hand)))
    last = up.history[-1]
    ends = ", ".join(f"{name} {_mm(last.axles[name])}" for name in shown)
    perfect = _mm(rate * last.hand)
    words = f"Rise of the axles over rope taken in; after {numeral(1000 * last.hand)} mm: {ends}; perfect {perfect}."
    return (chart("How far the axles rise", words, Axis("rope taken in, mm"), Axis("rise, mm"), series, _SIZE),)


def _axle(name: str) -> Callable[[Moment], float]:
    return lambda moment: 1000 * moment.axles[name]


def _pulls(up: Trial, down: Trial) -> tuple[Scene, ...]:
    """The pull on the way up and on the way down again: a loop."""
    if len(up.history) < 2:
        return ()
    series = [Series("up", "line", _curve(up, lambda moment: moment.effort))]
    words = f"Pull over rope taken in. Hauling, it ends at {numeral(up.history[-1].effort)} N"
    if len(down.history) > 1:
        series.append(Series("down again", "dashes", _curve(down, lambda moment: moment.effort)))
        words += f"; let out again it falls to {numeral(min(moment.effort for moment in down.history))} N"
    return (
        chart("The pull, up and down again", f"{words}.", Axis("rope taken in, mm"), Axis("pull, N"), series, _SIZE),
    )


def _curve(found: Trial, value: Callable[[Moment], float]) -> tuple[tuple[float, float], ...]:
    return tuple((1000 * moment.hand, value(moment)) for moment in found.history)
