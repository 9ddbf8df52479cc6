"""The page to rehearse at: a film's steps one by one, the tutor's voice kept as it is spoken, each step by itself."""

from collections.abc import Mapping

import msgspec

from gantline.figure import Layout, lay_out
from gantline.film import Shot, Storyboard
from gantline.lesson import step_plate

from .document import document, packaged
from .markup import Markup, element
from .rope_rule import rope_rule
from .stage import formula_line, plate_figure, rail_button

_ARROWS = {"record": "M4 9a7 7 0 1 0 14 0a7 7 0 1 0-14 0z", "hear": "M6 3l10 6-10 6z"}


def write(board: Storyboard, name: str) -> str:
    """The whole page. `name` is what its two files will be called, without an ending."""
    shots = [shot for shot in board.shots if shot.step and shot.says]
    body = [
        element("a", "Skip to the account", href="#main", class_="skip"),
        _header(),
        element("main", _stage(board, shots), _takes(board, shots, name), id="main"),
        element("script", Markup(_record(board, shots, name)), type="application/json", id="shots"),
    ]
    title = f"Rehearsal: {board.title}"
    return document(
        title, packaged("style.css") + packaged("rehearse.css"), packaged("rehearse.js"), body, scripts_from="data:"
    )


def _header() -> Markup:
    links = [("account", "The account"), ("takes", "Takes and saving")]
    return element(
        "header",
        element("p", "Gantline rehearsal", class_="running"),
        element("nav", element("ul", [element("li", element("a", name, href=f"#{id}")) for id, name in links]),
                class_="places", aria_label="Contents of this page"),
        element("a", "Takes", href="#takes", class_="to-contents quiet"),
        element("button", "Dark page", type="button", class_="quiet ground", hidden=True),
        class_="head",
    )  # fmt: skip


# -- the stage --------------------------------------------------------------------------------------------------------


def _stage(board: Storyboard, shots: list[Shot]) -> Markup:
    layouts = [lay_out(act.rig, act.answer) for act in board.acts]
    steps = [_step(board, shots, number, layouts[shot.act]) for number, shot in enumerate(shots)]
    return element(
        "section",
        element("div", element("h1", board.title, id="title"), rope_rule(), element("p", _LEAD, class_="standfirst"),
                _microphone(), class_="title"),
        element("div", steps, class_="steps"),
        _rail(board, shots),
        element("p", class_="said", role="status", aria_live="polite"),
        class_="stage", id="account", aria_labelledby="title",
    )  # fmt: skip


_LEAD = (
    "Say each step in your own words. Recording begins at the step you see; go on with the right arrow key or a "
    "presenter's clicker, and each press is kept as the start of the next step. Nothing leaves this machine: what you "
    "say stays in this browser until you let go of it, and goes into the files you save."
)


def _microphone() -> Markup:
    """The level, and what the microphone is doing; shown where scripts run."""
    level = element("div", element("div", class_="fill"), class_="meter", role="meter", aria_label="Level of the sound",
                    aria_valuemin=0, aria_valuemax=100, aria_valuenow=0, aria_valuetext="off")  # fmt: skip
    return element(
        "div",
        element("p", element("span", class_="disc"), element("span", "The microphone is off.", class_="doing"),
                class_="state", role="status"),
        level,
        element("p", element("button", "Turn on the microphone", type="button", class_="keep main listen")),
        class_="microphone", hidden=True,
    )  # fmt: skip


def _step(board: Storyboard, shots: list[Shot], number: int, layout: Layout) -> Markup:
    shot, act = shots[number], board.acts[shots[number].act]
    step, prefix = shot.step, f"s{number + 1}-"
    assert step is not None
    wait = f"Then leave about {shot.pause:g} s for the learner." if shot.pause >= 2 else ""
    after = shots[number + 1].says if number + 1 < len(shots) else ""
    shown = step.formula or step.formula_text
    return element(
        "div",
        element("div",
            element("p", f"{_place(board, shots, number)}: {step.idea}", class_="place", id=f"{prefix}place"),
            element("p", shot.says, class_="say"),
            element("p", wait, class_="note") if wait else None,
            element("p", element("span", "Next: ", class_="label"), after, class_="after") if after else None,
            class_="words",
        ),
        element("div", plate_figure(step_plate(act.rig, act.answer, layout, step, frame="steps"), prefix),
                class_="picture"),
        formula_line(act, shown) if shown else None,
        class_="step", role="group", aria_labelledby=f"{prefix}place",
    )  # fmt: skip


def _place(board: Storyboard, shots: list[Shot], number: int) -> str:
    count = sum(shot.act == shots[number].act for shot in shots)
    place = f"Step {_own(shots, number)} of {count}"
    return (
        place if len(board.acts) == 1 else f"{board.acts[shots[number].act].rig.title}, {place[:1].lower()}{place[1:]}"
    )


def _own(shots: list[Shot], number: int) -> int:
    """The number of a step within its rig, from 1."""
    return sum(shot.act == shots[number].act for shot in shots[: number + 1])


def _rail(board: Storyboard, shots: list[Shot]) -> Markup:
    strands = [
        element("div", [_mark(shots, n) for n, shot in enumerate(shots) if shot.act == act], class_="strand",
                role="radiogroup", aria_label=f"Steps: {each.rig.title or board.title}")
        for act, each in enumerate(board.acts)
    ]  # fmt: skip
    return element(
        "div",
        rail_button("back", "Back"), rail_button("next", "Next", after=True),
        strands,
        _button("record", "Record"), element("button", "Retake", type="button", class_="retake"),
        _button("hear", "Hear it"),
        class_="rail", role="group", aria_label="Steps and takes", hidden=True,
    )  # fmt: skip


def _mark(shots: list[Shot], number: int) -> Markup:
    step = shots[number].step
    assert step is not None
    own = _own(shots, number)
    return element("button", element("span", str(own), class_="number"), element("span", step.idea, class_="idea"),
                   type="button", role="radio", aria_checked="false", tabindex="-1", class_="mark",
                   aria_label=f"Step {own}: {step.idea}")  # fmt: skip


def _button(name: str, words: str) -> Markup:
    path = element("path", d=_ARROWS[name])
    sign = element("svg", path, viewBox="0 0 22 18", width="22", height="18", aria_hidden="true", class_="arrow full")
    return element("button", sign, element("span", words, class_="label"), type="button", class_=name)


# -- takes and saving -------------------------------------------------------------------------------------------------


def _takes(board: Storyboard, shots: list[Shot], name: str) -> Markup:
    head = [element("th", words, scope="col") for words in ("Step", "By the words", "Your take", "Its start", "Remark")]
    rows = [
        [_head(board, act), [_row(board, shots, number) for number, shot in enumerate(shots) if shot.act == act]]
        for act in range(len(board.acts))
    ]
    return element(
        "section",
        element("h2", "Takes and saving", id="takes-h"),
        element("p", "A step without a take is silent in the film, as long as its words would take.", class_="lead"),
        element("div", element("table", element("caption", "Takes, step by step", class_="unseen"),
                               element("thead", element("tr", head)), element("tbody", rows)), class_="wide"),
        element("p", class_="total"),
        element("div",
            element("button", f"Save {name}.wav", type="button", class_="keep save-sound"),
            element("button", f"Save {name}.taps.json", type="button", class_="keep save-taps"),
            element("button", "Let go of all takes", type="button", class_="quiet let-go", hidden=True),
            element("label", "Go on with a saved rehearsal: choose both of its files", for_="saved"),
            element("input", type="file", id="saved", multiple=True, accept=".wav,.json"),
            class_="saving",
        ),
        element("p", class_="kept-how", role="status"),
        class_="takes", id="takes", aria_labelledby="takes-h", hidden=True,
    )  # fmt: skip


def _head(board: Storyboard, act: int) -> Markup | None:
    """A row that names the rig, where there are several."""
    if len(board.acts) == 1:
        return None
    return element("tr", element("th", board.acts[act].rig.title, scope="rowgroup", colspan=5), class_="rig-name")


def _row(board: Storyboard, shots: list[Shot], number: int) -> Markup:
    step = shots[number].step
    assert step is not None
    place = _place(board, shots, number)
    go = element("button", f"{_own(shots, number)}. {step.idea}", type="button", class_="quiet go")
    controls = [
        element("button", words, type="button", class_=f"quiet {kind}", aria_label=f"{words}: {place}")
        for words, kind in (("Hear", "hear-row"), ("earlier", "shift earlier"), ("later", "shift later"))
    ]
    return element("tr", element("th", go, scope="row"), element("td", f"{_expected(shots[number]):.1f} s"),
                   element("td", "–", class_="took"), element("td", controls, class_="controls"),
                   element("td", class_="remark"), class_="take")  # fmt: skip


def _expected(shot: Shot) -> float:
    return shot.seconds - shot.pause


def _record(board: Storyboard, shots: list[Shot], name: str) -> str:
    """What the page's script needs to know of each step, as JSON that cannot end the element it stands in."""
    steps: list[Mapping[str, object]] = [
        {"step": shot.id, "says": shot.says, "seconds": round(_expected(shot), 1), "act": shot.act} for shot in shots
    ]
    return msgspec.json.encode({"name": name, "steps": steps}).decode().replace("<", "\\u003c")
