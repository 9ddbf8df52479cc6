"""A trial as calm text, for a terminal: what is seen, then what a ruler reads."""

from collections.abc import Mapping, Sequence
from math import degrees
from textwrap import fill

from gantline.account import assumed_says, forces_said, millimetres, trial_says, unread_says
from gantline.mechanics import Event, Moment, Trial
from gantline.quantity import numeral, tenths
from gantline.rig import Rig

from .plain import Paint, printable, width

ROWS = 40  # events and readings shown at most; the record has them all
_WIDE = 100
_ASKED = 1e-6  # mm: nearer than this to a hundredth, a hand travel was asked for

Row = Sequence[str]


def trial_text(rig: Rig, trial: Trial, paint: Paint) -> str:
    """The sentences, the events, the readings, and what was assumed."""
    heading = [paint("strong", printable(rig.title))] if rig.title else []
    blocks = ["\n".join([*heading, fill(trial_says(rig, trial), _WIDE)])]
    blocks += [_events(trial.events, paint)] if trial.events else []
    blocks += [_readings(rig, trial, paint)] if trial.history or trial.stopped else []
    blocks += [_assumed(assumed_says(trial), paint)] if trial.setup is not None else []
    return "\n\n".join(blocks)


def _events(events: Sequence[Event], paint: Paint) -> str:
    hands = [f"{tenths(1000 * event.hand)} mm" for event in events]
    wide, names = max(map(width, hands)), max(width(event.part) for event in events)
    lines = [
        f"  {' ' * (wide - width(hand))}{hand}  {event.part + ' ' * (names - width(event.part))}  {_what(event)}"
        for hand, event in zip(hands[:ROWS], events, strict=False)
    ]
    return "\n".join([paint("quiet", "what happens, by rope taken up"), *lines, *_more(len(events), "events")])


def _what(event: Event) -> str:
    return {"turns back": "turns back in its block", "steady": "goes on steadily"}.get(event.what, event.what)


def _readings(rig: Rig, trial: Trial, paint: Paint) -> str:
    """One row a reading: hand, pull, tilt of each block, rise of each axle and load, in mm and degrees."""
    moments = [*trial.history, *([trial.stopped] if trial.stopped else [])]
    first = moments[0]
    ways = [f"{name}, mm" for name in (*first.axles, *first.load)]
    head = ["hand", "pull", *(f"{block} tilts" for block in first.tilt), *ways]
    pulls = forces_said(rig, [moment.effort for moment in moments])
    stands = {load: body.name for body in trial.setup.bodies for load in body.loads} if trial.setup else {}
    rows = [_reading(moment, pull, stands) for moment, pull in zip(moments, pulls, strict=True)]
    unread = unread_says(trial)
    said = [fill(unread, _WIDE, initial_indent="  ", subsequent_indent="  ")] if unread else []
    return "\n".join([*_table(head, rows[:ROWS], paint), *_more(len(rows), "readings"), *said])


def _reading(moment: Moment, pull: str, stands: Mapping[str, str]) -> Row:
    """`stands` has the body of each load: what the floor still carries has not risen, and the row says why."""
    tilts = [f"{tenths(degrees(tilt))}°" for tilt in moment.tilt.values()]
    axles = [tenths(1000 * way) for way in moment.axles.values()]
    loads = [
        "on the floor" if moment.floor[stands[load]] > 0 else tenths(1000 * way) for load, way in moment.load.items()
    ]
    return [_hand(moment), pull, *tilts, *axles, *loads]


def _hand(moment: Moment) -> str:
    """A reading as it was asked for; where the trial stopped, as a ruler tells it."""
    way = 1000 * moment.hand
    return f"{numeral(way)} mm" if abs(way - round(way, 2)) < _ASKED else millimetres(moment.hand)


def _table(head: Row, rows: Sequence[Row], paint: Paint) -> list[str]:
    columns = [max(width(row[n]) for row in (head, *rows)) for n in range(len(head))]

    def line(row: Row) -> str:
        return "  " + "  ".join(" " * (size - width(cell)) + cell for cell, size in zip(row, columns, strict=True))

    return [paint("quiet", line(head)), *map(line, rows)]


def _more(count: int, what: str) -> list[str]:
    return [f"  ... {count - ROWS} more {what}: --json shows all"] if count > ROWS else []


def _assumed(sentences: Sequence[str], paint: Paint) -> str:
    lines = [fill(one, _WIDE, initial_indent="  ", subsequent_indent="    ") for one in sentences]
    return "\n".join([paint("quiet", "assumed where the file says nothing"), *lines])
