"""`lesson.json`: the lesson as a record. Answers, accounts with their steps, the files with their hashes."""

import json
from collections.abc import Mapping
from math import degrees
from typing import Any

from gantline.account import Account, Remedy
from gantline.lesson import Lesson, Part, Sight

from .files import digest
from .record import account_record, answer_record
from .script import Line
from .trial_record import quantity, trial_record

FORMAT, NAME = "gantline-lesson/1", "lesson.json"


def write(lesson: Lesson, files: Mapping[str, bytes]) -> bytes:
    """The record as JSON, keys in a fixed order. `files` are those of the folder beside it."""
    record = {
        "format": FORMAT,
        "title": lesson.title,
        "rigs": [_rig(part) for part in lesson.parts],
        "files": {name: digest(data) for name, data in sorted(files.items())},
    }
    return (json.dumps(record, indent=1, ensure_ascii=False) + "\n").encode("utf-8", "replace")


def built(data: bytes) -> tuple[Line, ...]:
    """The sentences that the build behind a `lesson.json` wrote; none where it cannot be read."""
    try:
        return tuple(
            Line(str(rig["key"]), str(step.get("key", step["id"])), str(step["frame"]))
            for rig in json.loads(data)["rigs"]
            for step in rig["account"].get("steps", ())
        )
    except (ValueError, KeyError, TypeError, AttributeError):
        return ()


def _rig(part: Part) -> dict[str, Any]:
    account = account_record(part.title, part.account, [way.account for way in part.ways if way.account])
    for step, beat in zip(account.get("steps", ()), part.beats, strict=True):
        step |= {"say": beat.say, "frame": beat.step.say}
    values = part.account.values if isinstance(part.account, Account) else ()
    record = {
        "key": part.key,
        "answer": answer_record(part.rig, part.answer, part.says),
        "account": account | {"values": {value.key: value.shown for value in values}},
        "cautions": [{"id": each.id, "says": each.says, "source": each.source} for each in part.trial.cautions],
    }
    if part.trial.answer:
        record["assumed_loss"] = answer_record(part.rig, part.trial.answer, part.trial.note)
    if part.trial.sight:
        record["seen"] = _seen(part.trial.sight)
    return record


def _seen(sight: Sight) -> dict[str, Any]:
    """What will be seen: the trial's own record, of the stand-in where there is one, and the sentences."""
    found = sight.seen
    return {
        "stands_for": str(found.standing.share),
        "says": [*found.sees, found.why],
        "perfect_rises": [quantity(rise, "m") for rise in sight.ruler.perfect],
        "perfect": None if found.perfect is None else quantity(found.perfect, "N"),
        "smaller": [_remedy(one) for one in found.smaller],
        "trial": trial_record(found.standing.rig, found.trial),
    }


def _remedy(one: Remedy) -> dict[str, Any]:
    """A measure before and after, an angle in degrees as everywhere in a trial's record."""
    of, unit = (degrees, "deg") if one.unit == "rad" else (float, one.unit)
    before, after = quantity(of(one.before), unit), quantity(of(one.after), unit)
    return {"id": one.id, "says": one.says, "before": before, "after": after}
