"""The stage of the page: the account step by step, each with its plate, and the rail that leads through it."""

from collections.abc import Mapping

import msgspec

from gantline.account import Refusal
from gantline.figure import Scene
from gantline.film import Act
from gantline.lesson import Beat, Part, Question, Reply, Shown
from gantline.mechanics import way_symbols
from gantline.quantity import plain

from . import mathml
from .markup import Markup, element
from .plates import plate
from .rope_rule import rope_rule

_ARROWS = {"back": "M13 3 5 9l8 6M5 9h14", "next": "M9 3l8 6-8 6M17 9H3", "play": "M6 3l10 6-10 6z"}

_LONG = 18  # characters of a side that make a formula long


def stage(part: Part, level: int) -> Markup:
    """The account of a rig. With scripts it is one step at a time; without, all steps down the page."""
    told = _told(part, [_beat(part, number, beat) for number, beat in enumerate(part.beats, 1)])
    return element(
        "section",
        element(
            "div",
            element(f"h{level}", part.title, id=f"{part.key}-title"),
            rope_rule(),
            element("p", part.standfirst, class_="standfirst"),
            class_="title",
        ),
        element("div", told, class_="steps") if told else _verdict(part),
        _rail(part) if told else None,
        element("p", class_="said", role="status", aria_live="polite") if told else None,
        _motion(part) if any(beat.hauls for beat in part.beats) else None,
        class_="stage", id=f"{part.key}-account", aria_labelledby=f"{part.key}-title",
    )  # fmt: skip


def _told(part: Part, beats: list[Markup]) -> list[Markup]:
    """The steps. From the question to the answer they are folded, so that a number can come first without scripts."""
    asks = next((n for n, beat in enumerate(part.beats, 1) if beat.asks), 0)
    last = next((n for n, beat in enumerate(part.beats, 1) if beat.step.id == "solve"), 0)
    if not 0 < asks < last:
        return beats
    summary = element("summary", f"Open steps {asks + 1} to {last}: the reckoning and the answer")
    return [*beats[:asks], element("details", summary, beats[asks:last], class_="reveal"), *beats[last:]]


def kinds(part: Part | Act) -> Mapping[str, str]:
    """Which letters are pulls and which are ways, for their colour."""
    found = dict.fromkeys((letter for _, letter in part.answer.tension_symbols), "is-pull")
    found[part.rig.effort_symbol] = "is-pull"
    return found | dict.fromkeys(way_symbols(part.rig).values(), "is-way")


def _verdict(part: Part) -> Markup:
    """Where no method will do: what can be said, beside the rig."""
    reason = part.account.reason if isinstance(part.account, Refusal) else ""
    words = element("div", element("p", part.says, class_="say"), element("p", reason), class_="words")
    return element("div", words, plate_figure(part.figures[0][1], f"{part.key}-only-"), class_="steps lone")


def _beat(part: Part, number: int, beat: Beat) -> Markup:
    count, step = len(part.beats), beat.step
    prefix = f"{part.key}-s{number}-"
    return element(
        "div",
        element("div",
            element("p", f"Step {number} of {count}: {step.idea}", class_="place", id=f"{prefix}place"),
            element("p", beat.say, class_="say"),
            _ask(part, prefix) if beat.asks else None,
            _replies(part, part.question) if beat.replies and part.question else None,
            class_="words",
        ),
        element(
            "div", plate_figure(beat.scene, prefix), _hauling(part, prefix) if beat.hauls else None, class_="picture"
        ),
        formula_line(part, beat.formula) if beat.formula else None,
        class_="step", role="group", aria_labelledby=f"{prefix}place", data_idea=step.idea,
        data_seconds=f"{step.seconds + step.pause:g}", data_asks=beat.asks, data_hauls=beat.hauls,
        data_waits=beat.asks or step.view == "ask",
    )  # fmt: skip


def formula_line(part: Part | Act, formula: Shown) -> Markup:
    """A formula, smaller where it is long; one that may still be wider than a phone can be scrolled, by key too."""
    longest = max(len(side) for side in plain(formula).split(" = "))
    size = "formula long" if longest > _LONG else "formula"
    return element("p", mathml.write(formula, kinds(part)), class_=size, tabindex=0 if longest > _LONG else None)


def plate_figure(scene: Scene, prefix: str) -> Markup:
    """A plate as a figure of the page."""
    return element("figure", plate(scene, prefix), class_="plate-figure")


# -- the question -----------------------------------------------------------------------------------------------------


def _ask(part: Part, prefix: str) -> Markup | None:
    """The field for a number. It is shown only where scripts run, for without them nothing could keep it."""
    asked = part.question
    if asked is None:
        return None
    at = next((n for n, beat in enumerate(part.beats, 1) if beat.replies), 0)
    field = element("input", id=f"{prefix}number", type="text", inputmode="decimal", autocomplete="off", maxlength=40)
    return element(
        "form",
        element("p", "Here or on paper. There is no clock; the lesson waits.", class_="aside"),
        element("label", f"Your number for {asked.letter}, in {asked.unit}", for_=f"{prefix}number", class_="unseen"),
        element("p", field, element("span", asked.unit, class_="unit"), class_="field"),
        element("p",
            element("button", "Keep my number", type="submit", class_="keep", aria_disabled="true"),
            element("button", "Go on without one", type="button", class_="quiet without"),
            class_="choices",
        ),
        element("p", class_="missing", role="status"),
        element("p", f"It stays in this page only, and comes back at step {at}." if at else
                "It stays in this page only.", class_="note"),
        class_="ask", hidden=True, novalidate=True,
    )  # fmt: skip


def _replies(part: Part, asked: Question) -> Markup:
    """Every reply the page may give, hidden; the player shows the one that fits the number kept."""
    same = element("div", _kept(asked.unit, ""), element("p", _SAME), class_="reply",
                   data_low=f"{asked.low:.12g}", data_high=f"{asked.high:.12g}", hidden=True)  # fmt: skip
    named = [_named(part, asked, reply) for reply in asked.replies]
    other = element("div", _kept(asked.unit, f" The rig says {asked.number}."), element("p", _OTHER),
                    class_="reply", hidden=True)  # fmt: skip
    return element("div", same, named, other, class_="replies")


_SAME = "So does the rig. Say which pulls you counted; then see whether your reason is the same as here."
_OTHER = "How you got there cannot be told from here. Go back through the steps and compare them with your way."


def _named(part: Part, asked: Question, reply: Reply) -> Markup:
    rows = [("yours", reply.formula, reply.number), ("the rig", asked.formula, asked.number)]
    reckoning = [
        element("tr", element("th", who, scope="row"),
                element("td", mathml.write(formula, kinds(part)) if formula else None), element("td", number))
        for who, formula, number in rows
    ]  # fmt: skip
    return element(
        "div", _kept(asked.unit, ""), element("p", reply.says),
        element("table", element("caption", "Both ways of reckoning", class_="unseen"), element("tbody", reckoning)),
        class_="reply", data_low=f"{reply.low:.12g}", data_high=f"{reply.high:.12g}", hidden=True,
    )  # fmt: skip


def _kept(unit: str, more: str) -> Markup:
    return element("p", "You kept ", element("span", class_="kept"), f"\u00a0{unit}.{more}", class_="say")


# -- hauling ----------------------------------------------------------------------------------------------------------


def _hauling(part: Part, prefix: str) -> Markup | None:
    """The rig that can be hauled, and the slider that hauls it; shown by the player."""
    if part.hauling is None:
        return None
    return element(
        "div",
        element("figure", plate(part.hauling.scene, f"{prefix}haul-"), class_="plate-figure moving"),
        element("p",
            element("label", "Haul the rope", for_=f"{prefix}slider"),
            element("input", id=f"{prefix}slider", type="range", min="0", max="100", value="0"),
            element("output", class_="ways", for_=f"{prefix}slider"),
            class_="slider",
        ),
        class_="hauling", hidden=True,
    )  # fmt: skip


def _motion(part: Part) -> Markup | None:
    """How everything moves, for the player: rates on the page, and the way of the hand and the load in words."""
    if part.hauling is None:
        return None
    record = {"motion": part.hauling.motion, "ways": part.hauling.ways}
    return element("script", Markup(_json(record)), type="application/json", class_="motion")


def _json(record: object) -> str:
    return msgspec.json.encode(record).decode().replace("<", "\\u003c")


# -- the rail ---------------------------------------------------------------------------------------------------------


def _rail(part: Part) -> Markup:
    marks = [
        element("button", element("span", str(number), class_="number"), element("span", beat.step.idea, class_="idea"),
                type="button", role="radio", aria_checked="false", tabindex="-1", class_="mark",
                aria_label=f"Step {number}: {beat.step.idea}", data_asks=beat.asks)
        for number, beat in enumerate(part.beats, 1)
    ]  # fmt: skip
    return element(
        "div",
        rail_button("back", "Back"), rail_button("next", "Next", after=True),
        element("div", marks, class_="strand", role="radiogroup", aria_label="Steps"),
        rail_button("play", "Play"),
        element("p", element("kbd", "←"), element("kbd", "→"), " step ", element("kbd", "space"), " play",
                class_="keys", aria_hidden="true"),
        class_="rail", role="group", aria_label=f"Steps of {part.title}", hidden=True,
    )  # fmt: skip


def rail_button(name: str, words: str, after: bool = False) -> Markup:
    """A button of the rail, with its arrow before or after its words."""
    path = element("path", d=_ARROWS[name])
    arrow = element("svg", path, viewBox="0 0 22 18", width="22", height="18", aria_hidden="true", class_="arrow")
    label = element("span", words, class_="label")
    return element("button", label if after else arrow, arrow if after else label, type="button", class_=name)
