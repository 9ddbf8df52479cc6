"""The steps of the main account as the page tells them, and the question it waits at."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from gantline.account import Account, Refusal, Step, WrongAnswer, measure, turned
from gantline.figure import Frame, Layout, NotDrawable, Scene, draw
from gantline.mechanics import Answer, Value
from gantline.rig import Rig

from .lesson import Beat, Question, Reply

_NEAR = Fraction(1, 100)  # a kept number within 1 % counts as the same


def beats(
    rig: Rig, answer: Answer, layout: Layout, account: Account | Refusal, script: Mapping[str, str],
    asked: Question | None,
) -> tuple[Beat, ...]:  # fmt: skip
    """One beat a step; none where no method will do. `script` has the tutor's sentences by step key."""
    if isinstance(account, Refusal):
        return ()
    ids = [step.id for step in account.steps]
    asks = next((step.id for step in account.steps if step.view == "ask"), "") if asked else ""
    replies = _reply_at(ids, asks) if asks else ""
    hauls = next((id for id in ("pay-hand", "pay") if id in ids), "")
    return tuple(
        Beat(
            step, _say(account, key, step, script), step.formula or step.formula_text or None,
            _plate(rig, answer, layout, step), step.id == asks, step.id == replies, step.id == hauls,
        )
        for key, step in zip(account.keys, account.steps, strict=True)
    )  # fmt: skip


def _reply_at(ids: Sequence[str], asks: str) -> str:
    """Where the page comes back to the kept number: at the wrong answer, else where the pull is found, else last."""
    after = ids[ids.index(asks) + 1 :]
    return next((id for id in ("wrong", "solve") if id in after), after[-1] if after else "")


def _say(account: Account, key: str, step: Step, script: Mapping[str, str]) -> str:
    """The sentence, the tutor's where there is one, with its numbers in place."""
    if key not in script:
        return account.line(step)
    return script[key].format_map({value.key: value.spoken for value in account.values})


def _plate(rig: Rig, answer: Answer, layout: Layout, step: Step) -> Scene:
    """The plate of a step. All plates of a rig have one frame, so it stays where it is."""
    return plate(rig, answer, layout, step, frame="steps")


def plate(rig: Rig, answer: Answer, layout: Layout, step: Step, frame: Frame | None = None) -> Scene:
    """What a step shows; the bare rig where this rig has nothing of what the view would show."""
    other = turned(rig, step)
    try:
        if other is not None:
            return draw(*other, "count", caption=False, frame=frame)
        return draw(
            rig, answer, step.view, layout=layout, lit=step.lit, marks=step.marks, struck=step.struck, caption=False,
            frame=frame,
        )  # fmt: skip
    except NotDrawable:
        return draw(rig, answer, "bare", layout=layout, lit=step.lit, caption=False, frame=frame)


def question(rig: Rig, answer: Answer, wrong: Sequence[WrongAnswer]) -> Question | None:
    """What the page asks: the pull, or the load that a given pull holds. None where there is no number to keep."""
    found = answer.ideal.effort if rig.effort is None else answer.ideal.load
    if rig.hand is None or answer.status != "holds" or found is None or found.number is None:
        return None
    letter = rig.effort_symbol if rig.effort is None else _load_letter(rig)
    low, high = _band(rig, found)
    shown = measure(rig, found.number, found.unit)
    what = "effort" if rig.effort is None else "load"
    replies = tuple(_reply(rig, each) for each in wrong if each.what == what and not each.right_by_luck)
    return Question(letter, shown.unit, low, high, found.formula, shown.near, replies)


def _load_letter(rig: Rig) -> str:
    load = next((load for load in rig.loads if load.name == rig.aim), None)
    given = load and (load.weight or load.mass)
    return given.symbol if given else "W"


def _band(rig: Rig, value: Value) -> tuple[float, float]:
    assert value.number is not None
    inside = measure(rig, value.number, value.unit).number
    return float(inside * (1 - _NEAR)), float(inside * (1 + _NEAR))


def _reply(rig: Rig, wrong: WrongAnswer) -> Reply:
    assert wrong.value.number is not None
    low, high = _band(rig, wrong.value)
    return Reply(wrong.rule, low, high, wrong.overlooked, wrong.formula, measure(rig, wrong.value.number, "N").near)
