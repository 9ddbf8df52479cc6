"""An account as it is presented: every step with its plate, so that two windows can go through it without a server."""

from typing import Any

from gantline.account import Account, Refusal, Step, seconds
from gantline.figure import SHOWS, NotDrawable
from gantline.lesson import step_plate
from gantline.output.plates import plate

from .asked import Tell
from .reading import Reading, Unread
from .remedies import told
from .telling import explained, step_record


def present(asked: Tell) -> dict[str, Any]:
    """The steps of an account with their plates; where no method will do, how it stands, and why."""
    try:
        reading, account, _ = explained(asked)
    except Unread as unread:
        return told(unread.problems)
    return {
        "problems": [],
        "title": reading.rig.title,
        "says": reading.says,
        "method": account.method,
        "trying": dict(asked.what_if),
        "steps": _steps(reading, account if isinstance(account, Account) else _refusal(reading, account)),
    }


def _refusal(reading: Reading, refusal: Refusal) -> Account:
    """Where no method will do, that is the account: how it stands, and why it cannot be told this way."""
    said = (("verdict", "how it stands", reading.says), ("why-not", "why not", refusal.reason))
    steps = tuple(
        Step(id, idea, _plain(say), "bare", refusal.parts or None, seconds=seconds(say)) for id, idea, say in said
    )
    return Account(refusal.method, refusal.name, steps, (), None)


def _plain(say: str) -> str:
    """A finished sentence where one with slots is meant."""
    return say.replace("{", "{{").replace("}", "}}")


def _steps(reading: Reading, account: Account) -> list[dict[str, Any]]:
    found = []
    for number, (key, step) in enumerate(zip(account.keys, account.steps, strict=True), 1):
        record = step_record(reading, account, key, step)
        found.append({**record, "shows": SHOWS[step.view][0], "svg": ""})
        if reading.layout is not None:
            try:
                scene = step_plate(reading.rig, reading.answer, reading.layout, step, frame="steps")
                found[-1]["svg"] = str(plate(scene, f"s{number}-"))
            except NotDrawable:
                continue
    return found
