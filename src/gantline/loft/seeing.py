"""The whole of what the page shows at a keystroke, from one request: figure, answer, parts."""

from typing import Any

from msgspec.structs import replace

from gantline.account import Account, explain
from gantline.figure import VIEWS, Layout, NotDrawable, Scene, draw
from gantline.lesson import hauling, step_plate
from gantline.notation import parse
from gantline.output.plates import plate
from gantline.output.record import answer_record
from gantline.problems import Problem

from .answering import plain_answer, wheels
from .asked import Refused, See, StepOf
from .givens import givens, records
from .lettering import lettered
from .making import draft, undrawn
from .parts import listed
from .reading import Reading, Unread, look
from .remedies import told
from .trying import tried

PREFIX = "rig-"  # of ids in the plate


def see(asked: See) -> dict[str, Any]:
    """The rig as it is seen. A text with problems gives those alone; a view that cannot be drawn gives its reason."""
    if asked.view not in VIEWS or not VIEWS[asked.view].public:
        raise Refused(400, f"No view is called {asked.view[:40]}.")
    try:
        reading = look(asked.text, asked.what_if)
    except Unread as unread:
        return {**told(unread.problems), **_drafted(asked.text), "still": _standing(asked, unread.problems)}
    rig, answer = reading.rig, reading.answer
    regime = (answer.regime(asked.way) or answer.ideal) if answer.regimes else None
    return {
        "problems": [],
        "title": rig.title,
        "status": answer.status,
        "says": reading.says,
        "answer": plain_answer(rig, answer, asked.way),
        "wheels": wheels(rig, answer),
        "record": answer_record(rig, answer, reading.says),
        **_figure(reading, asked),
        "parts": listed(reading, regime),
        "givens": records(reading.given),
    }


def _standing(asked: See, problems: tuple[Problem, ...]) -> dict[str, Any] | None:
    """What can still be seen while one value is at fault: the rig with a letter in its place."""
    text = lettered(asked.text, problems)
    seen = see(replace(asked, text=text, what_if={})) if text else None
    return {"text": text, **seen} if seen and not seen["problems"] else None


def _drafted(text: str) -> dict[str, Any]:
    """What is seen of a rig still in the making, where the text is one: its figure, and its parts as far as they go."""
    found = draft(text)
    if found is None:
        return {"svg": "", "alt": "", "title": "", "parts": [], "givens": []}
    tree, _ = parse(text)
    given = givens(tree, found.rig)
    reading = Reading(text, tree, found.rig, found.answer, "", given, found.layout, "")
    return {
        "svg": str(plate(found.scene, PREFIX)), "alt": found.scene.description, "title": found.rig.title,
        "parts": listed(reading, None), "givens": records(given),
    }  # fmt: skip


def _figure(reading: Reading, asked: See) -> dict[str, Any]:
    """The figure asked for, else why there is none."""
    motion = trial = None
    try:
        if reading.layout is None:
            raise NotDrawable(reading.undrawn)
        hauled = hauling(reading.rig, reading.answer, reading.layout) if asked.view == "motion" else None
        loose = not asked.step and asked.view in ("bare", "labelled") and undrawn(reading.rig)
        if loose and (found := draft(asked.text)):
            scene = found.scene  # it has parts that no rope touches yet
        elif asked.step:
            scene = _step(reading, reading.layout, asked.step)
        elif asked.view == "tried":
            scene, trial = tried(reading, reading.layout, asked.hand)
        elif hauled:
            scene, motion = hauled.scene, {"rates": hauled.motion, "ways": hauled.ways}
        else:
            scene = _view(reading, reading.layout, asked)
    except NotDrawable as reason:
        return {"svg": "", "undrawn": reason.sentence, "alt": "", "motion": None, "tried": None}
    return {
        "svg": str(plate(scene, PREFIX)), "undrawn": "", "alt": scene.description, "motion": motion, "tried": trial,
    }  # fmt: skip


def _view(reading: Reading, layout: Layout, asked: See) -> Scene:
    before = look(asked.text, {}) if asked.what_if else None
    earlier = (before.rig, before.answer) if before else None
    try:
        return draw(
            reading.rig, reading.answer, asked.view, layout=layout, lit=asked.lit, caption=False, way=asked.way,
            earlier=earlier,
        )  # fmt: skip
    except ValueError as error:
        raise Refused(400, f"{str(error)[:1].upper()}{str(error)[1:200]}.") from error


def _step(reading: Reading, layout: Layout, of: StepOf) -> Scene:
    """The plate of a step of an account."""
    try:
        account = explain(reading.rig, reading.answer, of.method)
    except KeyError:
        raise Refused(400, f"No method is called {of.method[:40]}.") from None
    steps = dict(zip(account.keys, account.steps, strict=True)) if isinstance(account, Account) else {}
    step = steps.get(of.id)
    if step is None:
        raise NotDrawable("This account has no such step here.")
    return step_plate(reading.rig, reading.answer, layout, step)
