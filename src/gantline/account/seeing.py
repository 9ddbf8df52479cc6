"""What a learner will see when a rig is tried: what, why, how much, and what would make it smaller.

Each remedy is tried too: its number is that of a trial of the changed rig.
"""

from collections.abc import Callable
from fractions import Fraction
from math import degrees, radians

from msgspec import Struct
from msgspec.structs import replace

from gantline.mechanics import Steady, Trial, steady, trial
from gantline.quantity import tenths
from gantline.rig import Cord, Given, Moving, Rig, Sheave, StandIn, stand_in, with_sheaves

from .phrases import en
from .phrases.en.seeing import SEEING, SMALLER
from .trials import assumed_says, forces_said, meeting_says, millimetres

READ_AT = (0.01, 0.02, 0.05, 0.1)  # m of rope, where a ruler is read
LEAST = 0.1  # degrees: a tilt below it is not spoken of


class Remedy(Struct, frozen=True):
    """Something that makes it smaller: what, in a sentence, and the measure before and after (rad, or m of rope)."""

    id: str
    says: str
    before: float
    after: float
    unit: str


class Seen(Struct, frozen=True):
    """What a trial shows, in sentences.

    `trial` follows the raising at READ_AT, of the rig `standing.rig` (a stand-in where the load is heavy); `perfect` is
    the pull with wheels that lose nothing (N); `sees` what happens in order, `why` the reason, `smaller` what makes it
    smaller, `assumed` the measures the file does not give.
    """

    standing: StandIn
    trial: Trial
    perfect: float | None
    sees: tuple[str, ...]
    why: str
    smaller: tuple[Remedy, ...]
    assumed: tuple[str, ...]


def seen(rig: Rig) -> Seen | None:
    """What is seen when a rig, or its stand-in, is tried; None where the model does not reach it."""
    standing = stand_in(rig)
    found = trial(standing.rig, READ_AT)
    if found.setup is None or found.raising is None or found.lowering is None or not found.history:
        return None
    if not any(wheel.ratio != 1 for wheel in found.setup.wheels):
        return None
    state = steady(_perfect(standing.rig)).raising
    perfect = state.effort if state else None
    return Seen(
        standing, found, perfect, _sees(standing.rig, found, perfect), SEEING["why" if _tips(found) else "why-level"],
        _smaller(standing.rig, found), assumed_says(found),
    )  # fmt: skip


def block(found: Trial) -> str:
    """The name of the body asked about."""
    assert found.setup is not None
    return found.setup.bodies[found.setup.aim].name


def _tilt(state: Steady | None, name: str) -> float:
    """The tilt of a block in degrees, 0 of what does not tilt."""
    return degrees(state.tilt.get(name, 0.0)) if state else 0.0


def _tips(found: Trial) -> bool:
    return abs(_tilt(found.raising, block(found))) >= LEAST


def _sees(rig: Rig, found: Trial, perfect: float | None) -> tuple[str, ...]:
    assert found.setup is not None
    assert found.raising is not None
    assert found.lowering is not None
    body = found.setup.bodies[found.setup.aim]
    load = f"the {en.joined(body.loads or (body.name,))}"
    said = [_turning(found), *([SEEING["dips"]] if _dips(found) else [])]
    if found.leaves_floor is not None and found.leaves_floor > 0:
        said.append(
            SEEING["off" if _tips(found) else "off-level"].format(
                load=load[:1].upper() + load[1:], off=millimetres(found.leaves_floor)
            )
        )
    elif found.history[-1].floor[body.name] > 0:
        said.append(SEEING["stays"].format(load=load, hand=millimetres(found.history[-1].hand)))
    up, down = _tilt(found.raising, body.name), _tilt(found.lowering, body.name)
    if body.tilts:
        plain = up * down < 0 and _toward_hand(found, found.raising)
        which = "level" if not _tips(found) else "tips" if plain else "tips-aside"
        said.append(SEEING[which].format(up=_angle(up), down=_angle(down)))
    if perfect is not None:
        efforts = forces_said(rig, (found.raising.effort, found.lowering.effort, perfect))
        said.append(SEEING["pull"].format(**dict(zip(("up", "down", "perfect"), efforts, strict=True))))
    return tuple(one for one in (*said, *meeting_says(found)) if one)


def _toward_hand(found: Trial, state: Steady) -> bool:
    """Whether a block is lifted on the side of the strand that pulls hardest, which is the one nearest the hand."""
    assert found.setup is not None
    pulls = [
        (state.tensions[span.name], touch.x + touch.side * touch.radius)
        for span in found.setup.spans for touch in span.touches
        if touch.body == found.setup.aim and touch.part != "hand"
    ]  # fmt: skip
    across = max(pulls)[1] - min(pulls)[1]
    return across * state.tilt[block(found)] > 0


def _turning(found: Trial) -> str:
    """Which wheel starts first and which last; nothing where there is one, or the last one was not seen to start."""
    starts = {event.part: event.hand for event in found.events if event.what == "turns"}
    wheels = found.setup.wheels if found.setup else ()
    if len(wheels) < 2 or len(starts) < len(wheels):
        return ""
    last = max(starts, key=lambda name: starts[name])
    back = any(event.what == "turns back" and event.part == last for event in found.events)
    return SEEING["first-back" if back else "first"].format(last=millimetres(starts[last]))


def _dips(found: Trial) -> bool:
    """Whether an axle of the block asked about is seen lower than it began, by a tenth of a millimetre or more."""
    own = {wheel.name for wheel in found.setup.wheels if wheel.body == found.setup.aim} if found.setup else set()
    return any(moment.axles[name] < -1e-4 for moment in found.history for name in own)


def _angle(angle: float) -> str:
    return f"{tenths(abs(angle))} degrees"


# -- what makes it smaller --------------------------------------------------------------------------------------------


def _smaller(rig: Rig, found: Trial) -> tuple[Remedy, ...]:
    remedies = []
    before = abs(_tilt(found.raising, block(found)))
    for name, change in _CHANGES.items() if _tips(found) else ():
        changed = change(rig, found)
        after = abs(_tilt(steady(changed).raising, block(found))) if changed is not None else before
        if after < before - LEAST / 2:
            says = SMALLER[name].format(before=_angle(before), after=_angle(after))
            remedies.append(Remedy(name, says, radians(before), radians(after), "rad"))
    if found.leaves_floor:
        off = trial(_stiffer(rig, found), READ_AT[-1:]).leaves_floor
        if off is not None and off < found.leaves_floor:
            says = SMALLER["cord"].format(before=millimetres(found.leaves_floor), after=millimetres(off))
            remedies.append(Remedy("cord", says, found.leaves_floor, off, "m"))
    return tuple(remedies)


def _deeper(rig: Rig, found: Trial) -> Rig | None:
    """The load hung twice as deep below the wheels."""
    assert found.setup is not None
    part, hook = rig.part(block(found)), found.setup.bodies[found.setup.aim].hook
    if not isinstance(part, Moving) or not hook:
        return None
    deep = replace(part, hook=_length(rig, "hook", Fraction(2 * hook)))
    return replace(rig, parts=tuple(deep if one is part else one for one in rig.parts))


def _better(rig: Rig, found: Trial) -> Rig | None:
    """Every wheel losing half of what it loses."""
    assert found.setup is not None
    keeps = {wheel.name: Fraction(1 / wheel.ratio).limit_denominator(10**6) for wheel in found.setup.wheels}

    def better(sheave: Sheave) -> Sheave:
        if sheave.name not in keeps:
            return sheave
        return replace(sheave, efficiency=_given(rig, "e", (1 + keeps[sheave.name]) / 2, "ratio"))

    return with_sheaves(rig, better)


def _middle(rig: Rig, found: Trial) -> Rig | None:
    """Three wheels a block, and the rope led over the middle ones last."""
    wide = [part for part in rig.parts if len(getattr(part, "sheaves", ())) == 3]
    blocks = {part.name for part in rig.parts if getattr(part, "sheaves", ())}
    if len(rig.ropes) != 1 or len(wide) != len(blocks) or len(wide) != 2 or not _outermost_last(rig):
        return None
    sheaves = {sheave.name: sheave for part in wide for sheave in part.sheaves}  # type: ignore[union-attr]
    swapped = {1: 1, 2: 3, 3: 2}

    def swap(sheave: Sheave) -> Sheave:
        return sheaves[f"{sheave.block}.{swapped[sheave.index]}"]

    rope = rig.ropes[0]
    contacts = tuple(replace(c, sheave=swap(c.sheave)) if c.sheave else c for c in rope.contacts)
    strands = tuple(replace(s, start=contacts[n], end=contacts[n + 1]) for n, s in enumerate(rope.strands))
    return replace(rig, ropes=(replace(rope, contacts=contacts, strands=strands),))


def _outermost_last(rig: Rig) -> bool:
    """Whether the rope meets the wheels of each block in their order, so that the third is met last."""
    met = [contact.sheave for contact in rig.ropes[0].contacts if contact.sheave]
    orders = {block: [s.index for s in met if s.block == block] for block in {s.block for s in met}}
    return all(order == [1, 2, 3] for order in orders.values())


def _stiffer(rig: Rig, found: Trial) -> Rig:
    """Every rope ten times as stiff."""
    assert found.setup is not None
    cords = []
    for number, rope in enumerate(rig.ropes):
        span = next(span for span in found.setup.spans if span.rope == number)
        stiff = _given(rig, "EA", Fraction(10 * span.stiffness * span.length), "force")
        cord = rig.cord(rope.name) or Cord(rope.name, rope.place)
        cords.append(replace(cord, stiffness=stiff))
    return replace(rig, cords=tuple(cords))


def _perfect(rig: Rig) -> Rig:
    """The rig with wheels that lose nothing."""
    cords = tuple(replace(cord, drag=None) for cord in rig.cords)
    whole = _given(rig, "e", Fraction(1), "ratio")
    return with_sheaves(replace(rig, cords=cords), lambda sheave: replace(sheave, efficiency=whole))


def _length(rig: Rig, symbol: str, metres: Fraction) -> Given:
    return _given(rig, symbol, metres, "length")


def _given(rig: Rig, symbol: str, number: Fraction, kind: str) -> Given:
    return Given(symbol, number, kind, "", rig.gravity.place)


_CHANGES: dict[str, Callable[[Rig, Trial], Rig | None]] = {"hook": _deeper, "wheels": _better, "middle": _middle}
