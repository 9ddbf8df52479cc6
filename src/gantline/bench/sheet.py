"""The plan as a page says it, in words and tables: what the page, the print and the terminal have in common."""

from fractions import Fraction

from msgspec import Struct

from gantline.account import Caution
from gantline.figure import NotDrawable, Scene, draw
from gantline.quantity import tenths

from . import words
from .anchors import HANGER_ON
from .cutting import Cut
from .fitting import BEST, number
from .laws import Law
from .marks import Mark
from .plan import Plan, Reading
from .room import PAD, SHORT, assumed, stacked
from .scales import pulls_down
from .seen import Seen, Tilt
from .steps import steps
from .words import fixed, listed, metres, newtons, percent

_STRANDS = 6  # with marks of their own; of more, the first and the last
_TIPS = 1  # degrees that are seen without a rule
_HAND = Fraction(10, 100)  # what the rope at the hand is moved in the table of marks

_LARGE = 1.65  # what is written in the figure, which stands small on the page


class Table(Struct, frozen=True):
    """`head` names the columns, the first of which names the rows."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


class Sheet(Struct, frozen=True):
    """One page. `facts` are a name and what is to be said of it."""

    title: str
    lead: str
    facts: tuple[tuple[str, str], ...]
    scene: Scene | None
    readings: Table
    marks: Table
    anchors: Table
    laws: Table
    steps: tuple[str, ...]
    cautions: tuple[Caution, ...]
    general: str


def sheet(plan: Plan) -> Sheet:
    """The page of a plan."""
    return Sheet(
        plan.title, _lead(plan), _facts(plan), _scene(plan), _readings(plan), _marks(plan), _anchors(plan),
        laws_table(plan.laws), steps(plan), _cautions(plan), words.GENERAL,
    )  # fmt: skip


def _lead(plan: Plan) -> str:
    stands_in = f"{words.kilograms(plan.choice.hung.mass)} stand in for the {plan.rig.loads[0].name}"
    kit = f"{plan.kit.title}{' (a sample: invented; write down your own)' if plan.kit.invented else ''}"
    return f"To show it small: {stands_in}, and every number is worked out anew for them. Kit: {kit}."


def _scene(plan: Plan) -> Scene | None:
    try:
        return draw(plan.rig, plan.answer, "numbered", caption=False, large=_LARGE)
    except NotDrawable:
        return None


# -- facts ------------------------------------------------------------------------------------------------------------


def _facts(plan: Plan) -> tuple[tuple[str, str], ...]:
    found = [("Hang", _hang(plan)), ("Read on", _read_on(plan))]
    found += [("Blocks", _blocks(plan)), ("Cut", _cut(plan)), ("Room", _room(plan)), ("Anchor", _anchor(plan))]
    if plan.seen:
        found.append(("See", _see(plan.seen)))
    return tuple((name, words.sentence(says)) for name, says in found)


def _hang(plan: Plan) -> str:
    hung = plan.choice.hung
    heaviest = sorted(hung.pieces, key=lambda piece: number(piece[1].mass), reverse=True)
    pieces = listed(f"{count} × {mass.name}" for count, mass in heaviest)
    several = sum(count for count, _ in hung.pieces) > 1
    weight = hung.mass * number(plan.rig.gravity)
    return f"{words.kilograms(hung.mass)} ({newtons(weight)}): {pieces}{', one below the other' * several}."


def _read_on(plan: Plan) -> str:
    held = plan.choice.held
    unit = held.unit
    how = words.HELD[held.way].format(less=words.in_unit(held.less, unit))
    zero = f" Empty, it shows {words.in_unit(held.zero, unit)}: that is in the numbers." if held.zero else ""
    return f"{held.scale.name}, {how}.{zero}{_fit(plan)}"


def _fit(plan: Plan) -> str:
    low, high = (words.in_unit(edge, plan.choice.held.unit) for edge in plan.choice.held.band)
    if all(reading.well for reading in plan.readings):
        return f" Every reading below lies between {low} and {high}, 30 to 80 % of its span."
    return (
        f" No load of the kit keeps every reading between {low} and {high}, 30 to 80 % of the span; this comes nearest."
    )


def _blocks(plan: Plan) -> str:
    moving = {part.name for part in plan.rig.moving}
    said = [
        f"{taken.part}: {taken.block.name}{f', {words.given(taken.block.mass)}' if taken.part in moving else ''}"
        for taken in plan.taken
    ]
    if said:
        return f"{'; '.join(said)}."
    weights = [
        f"{name} {newtons(number)}" for name, w in plan.answer.weights if name in moving and (number := w.number)
    ]
    return f"the kit lists none, so the file's own stay{': ' * bool(weights)}{listed(weights) if weights else ''}."


def _cut(plan: Plan) -> str:
    cord = f"{plan.cord.name}, {words.given(plan.cord.diameter)}"
    return f"{cord}. {' '.join(_one_cut(cut, len(plan.cuts)) for cut in plan.cuts)}"


def _one_cut(cut: Cut, ropes: int) -> str:
    name = f"{words.sentence(cut.rope)}: " if ropes > 1 else ""
    parts = [f"strands {metres(cut.strands)}", f"wraps {metres(cut.wraps)}"]
    if cut.lead:
        parts += [f"run to the hand {metres(cut.lead)}", f"tail {metres(cut.tail)}"]
    level = f" (level runs reckoned with {metres(Fraction(1, 2))} each)" if cut.level else ""
    return f"{name}{metres_cut(cut.cut)}: {listed([*parts, f'two knots {metres(cut.knots)}'])}{level}{_usual(cut)}."


def _usual(cut: Cut) -> str:
    return " (tail and knots: common practice)" if cut.tail else " (common practice)"


def metres_cut(length: Fraction) -> str:
    return f"{float(length):.1f}\u00a0m"


def _room(plan: Plan) -> str:
    room = plan.room
    ratio = plan.haul / plan.rise
    below = metres(stacked(plan.choice.hung) + PAD.value)
    return (
        f"Hook {metres(room.height)} above the table; masses and pad take {below}. Raise {metres(plan.rise)}, which "
        f"takes {metres(plan.haul)} of rope. At {metres(room.meeting)} ({metres(room.meeting * ratio)} of rope) "
        f"{room.meets.above} and {room.meets.below} meet: stop {metres(SHORT.value)} before (common "
        f"practice).{_assumed(plan)}"
    )


def _assumed(plan: Plan) -> str:
    found = [f"{what} {metres(one.value)}" for what, one in assumed(plan.rig, plan.taken, plan.choice.hung)]
    return f" Assumed, so measure yours: {listed(found)}." if found else ""


def _anchor(plan: Plan) -> str:
    stand = plan.kit.stand
    most = max(plan.anchors, key=lambda anchor: anchor.working)
    carries = f"{stand.anchor}: up to {newtons(most.working)} at {most.name} while it is used as planned."
    if len(plan.anchors) > 1:
        carries += f" Each of {listed(anchor.name for anchor in plan.anchors)} needs one that holds."
    if stand.rated is None:
        return f"{carries} Nobody has rated it: no more than {words.kilograms(stand.heaviest)} is planned for it."
    return f"{carries} Rated {words.given(stand.rated)} by {stand.rated_by}."


def _see(seen: Seen) -> str:
    """How far blocks tip, to a tenth of a degree, and what the cord takes."""
    tips = [tilt for tilt in seen.tilts if abs(tilt.raising or 0) >= _TIPS]
    said = "; ".join(_tilt(tilt) for tilt in tips) or f"no block tips by as much as {_TIPS}°"
    return f"{said}. {metres(Fraction(seen.stretch))} of rope come in for the cord's stretch alone.{_unmeasured(seen)}"


def _unmeasured(seen: Seen) -> str:
    return f" Assumed, so measure yours: {listed(seen.assumed)}." if seen.assumed else ""


def _tilt(tilt: Tilt) -> str:
    raising, lowering = tilt.raising or 0.0, tilt.lowering
    says = f"{tilt.block} tips {tenths(abs(raising))}° while raising, its {_side(raising)} side up"
    if lowering is None:
        return says
    return f"{says}, and {tenths(abs(lowering))}° letting down, its {_side(lowering)} side up"


def _side(tilt: float) -> str:
    return "right" if tilt > 0 else "left"


# -- tables -----------------------------------------------------------------------------------------------------------


def _readings(plan: Plan) -> Table:
    unit = plan.choice.held.unit
    low, high = plan.efficiency
    rows = tuple(_reading(plan, reading) for reading in plan.readings)
    half = words.in_unit(number(plan.choice.held.scale.division) / 2, unit)
    return Table(
        "What you will read",
        ("", "pull, N", "from – to", f"scale, {unit}", "from – to"), rows,
        f"Each wheel keeps {_keeps(plan)} of the pull{', assumed' * plan.loss_assumed}; from – to: {percent(high)} to "
        f"{percent(low)} ({BEST.source}). Half a division more or less: {half}.",
    )  # fmt: skip


def _keeps(plan: Plan) -> str:
    own = {sheave.efficiency.number for sheave in plan.rig.sheaves if sheave.efficiency}
    shares = sorted(share for share in own if share is not None)
    return percent(shares[0]) if len(shares) == 1 else f"{percent(shares[0])} to {percent(shares[-1])}, its own,"


def _reading(plan: Plan, reading: Reading) -> tuple[str, ...]:
    shown = [plan.choice.held.marked(force) for force in (reading.shown, *reading.shows)]
    single = reading.way == "ideal"
    return (
        words.WAYS[reading.way], fixed(reading.pull), "" if single else _band(*reading.pulls), fixed(shown[0]),
        "" if single else _band(*shown[1:]),
    )  # fmt: skip


def _band(low: Fraction, high: Fraction) -> str:
    return f"{fixed(low)} – {fixed(high)}"


def _anchors(plan: Plan) -> Table:
    rows = tuple(
        (anchor.name, fixed(anchor.rest), _force(anchor.hauling), _force(anchor.letting), _force(anchor.two_blocked))
        for anchor in plan.anchors
    )
    unknown = " A dash: blocks that both move meet first, and the ropes alone do not settle it." * any(
        anchor.two_blocked is None for anchor in plan.anchors
    )
    sideways = " Level runs pull sideways as well." * any(anchor.sideways for anchor in plan.anchors)
    return Table(
        "What each fixed part carries, N", ("", "at rest", "hauling", "letting down", "blocks met"), rows,
        f"Down is positive; with the worst wheels above. {_hanger_on(plan)}{unknown}{sideways}",
    )  # fmt: skip


def _hanger_on(plan: Plan) -> str:
    mass = words.kilograms(HANGER_ON.value)
    if pulls_down(plan.rig):
        return f"Blocks met: {mass} hanging on the rope ({HANGER_ON.source})."
    return f"Blocks met: an upward pull as large as {mass} weigh (assumed; bent knees can do more)."


def _force(force: Fraction | None) -> str:
    return "–" if force is None else fixed(force)


def _marks(plan: Plan) -> Table:
    ratio = plan.haul / plan.rise
    rows = [("rope at the hand", "against a peg", metres(_HAND), metres(plan.haul))]
    rows += [_mark(plan, mark, ratio) for mark in _shown(plan)]
    return Table(
        "Tape marks on, and see how far each moves", ("mark", "where", f"hand {metres(_HAND)}", "whole way"),
        tuple(rows), "For perfect wheels and a rope that does not stretch.",
    )  # fmt: skip


def _shown(plan: Plan) -> list[Mark]:
    at_hand = {strand.name for strand in plan.rig.strands if "hand" in (strand.start.part, strand.end.part)}
    strands = [mark for mark in plan.marks if ":" in mark.part and mark.part not in at_hand]
    rest = [mark for mark in plan.marks if ":" not in mark.part]
    return rest + (strands if len(strands) <= _STRANDS else [strands[0], strands[1], strands[-1]])


def _mark(plan: Plan, mark: Mark, ratio: Fraction) -> tuple[str, str, str, str]:
    rope, _, index = mark.part.partition(":")
    name = mark.part if not index else f"strand {index}" if len(plan.rig.ropes) == 1 else f"{rope} {index}"
    where = "half-way along" if index else "against a rule"
    whole = "over a wheel" if index and mark.way else _way(mark, plan.rise)
    return name, where, _way(mark, _HAND / ratio), whole


def _way(mark: Mark, rise: Fraction) -> str:
    if not mark.way:
        return "stays"
    sense = "sideways" if mark.level else "up" if mark.way > 0 else "down"
    return f"{metres(abs(mark.way) * rise)} {sense}"


def laws_table(laws: tuple[Law, ...]) -> Table:
    """The rules for the loss side by side; those that do not fit are named below."""
    fit = [law for law in laws if law.pull is not None]
    pulls = [law.pull for law in fit if law.pull is not None]
    spread = f"The largest asks {fixed(max(pulls) / min(pulls))} times the pull of the smallest. " if pulls else ""
    return Table(
        "The pull while raising, by the usual rules", ("rule", "source", "pull, N", "against here"),
        tuple(_law(law) for law in fit), f"{spread}{words.ASSUMED_LOSS}{_unfit(laws)}",
    )  # fmt: skip


def _law(law: Law) -> tuple[str, str, str, str]:
    against = "" if law.against is None else _signed(law.against)
    return law.name, law.source, "" if law.pull is None else fixed(law.pull), against


def _signed(share: Fraction) -> str:
    shown = f"{float(share * 100):+.0f}"
    return "0" if share == 0 else f"{shown}\u00a0%".replace("-", "−")


def _unfit(laws: tuple[Law, ...]) -> str:
    why: dict[str, list[str]] = {}
    for law in laws:
        if law.pull is None:
            why.setdefault(law.unfit, []).append(law.name)
    return "".join(f" Not for this rig, {reason}: {', '.join(names)}." for reason, names in why.items())


def _cautions(plan: Plan) -> tuple[Caution, ...]:
    """Those of the rig, said for what hangs here; and those that only a plan can say."""
    mass = words.kilograms(plan.choice.hung.mass)
    hung = Caution("small", f"{mass} hang: say it aloud before they leave the pad, and write it up.", words.PRACTICE)
    found = tuple(hung if caution.id == "small" else caution for caution in plan.cautions)
    return (*found, *_met(plan), Caution("snap", words.SNAP, words.PRACTICE))


def _met(plan: Plan) -> tuple[Caution, ...]:
    """What blocks that meet would ask of the fixed part that gets most of it."""
    forces = [(abs(anchor.two_blocked), anchor.name) for anchor in plan.anchors if anchor.two_blocked is not None]
    if not forces:
        return ()
    most, name = max(forces)
    says = (
        f"Stop well before blocks meet. Past that the fixing feels whatever is pulled: {newtons(most)} at {name} if "
        f"somebody pulls with as much as {words.kilograms(HANGER_ON.value)} weigh."
    )
    return (Caution("met", says, words.OWN),)
