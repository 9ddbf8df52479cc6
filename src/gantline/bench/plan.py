"""The plan of a demonstration: what to hang, what to read it on, what will be read, what to cut, what holds it all."""

from bisect import bisect_left
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from gantline.account import Caution, cautions
from gantline.mechanics import Answer, Way, solve
from gantline.rig import Rig

from .anchors import Anchor, anchors
from .choosing import WAYS, Choice, Hung, choose, effort, totals
from .cutting import Cut, cuts, reel
from .fitting import Taken, blocks, expected, fit, loaded, number, rubbing, spread
from .kit import Cord, Kit
from .laws import Law, laws
from .marks import Mark, marks
from .refusing import Declined, declined
from .room import Room, rates, room, sizes
from .seen import Seen, seen

CENTIMETRE = Fraction(1, 100)


class Reading(Struct, frozen=True):
    """One way the rope runs: the pull (N) expected, with the best and with the worst wheels, and what the scale shows
    for them. `well` says whether all of it lies where the scale is read well."""

    way: Way
    pull: Fraction
    pulls: tuple[Fraction, Fraction]
    shown: Fraction
    shows: tuple[Fraction, Fraction]
    well: bool


class Plan(Struct, frozen=True):
    """A demonstration. `rig` has the kit's blocks and the load to hang; `answer` has the losses expected of it.

    `efficiency` is the lowest and highest that the bands hold for; `loss_assumed`: neither kit nor file gives that of
    every sheave. `rise` (m) is how far to raise, `haul` (m) the rope that takes. `seen` is None where the
    rig is outside what a trial can tell.
    """

    rig: Rig
    answer: Answer
    kit: Kit
    taken: tuple[Taken, ...]
    choice: Choice
    readings: tuple[Reading, ...]
    efficiency: tuple[Fraction, Fraction]
    loss_assumed: bool
    room: Room
    rise: Fraction
    haul: Fraction
    cord: Cord
    cuts: tuple[Cut, ...]
    anchors: tuple[Anchor, ...]
    marks: tuple[Mark, ...]
    laws: tuple[Law, ...]
    seen: Seen | None
    cautions: tuple[Caution, ...]

    @property
    def title(self) -> str:
        return self.rig.title or "A rope-and-pulley rig"


def plan(rig: Rig, kit: Kit) -> Plan | Declined:
    """The plan for showing a rig with what the kit has, or why there is none."""
    base = replace(rig, effort=None)
    answer = solve(base)
    no = declined(base, answer)
    if no:
        return no
    if rig.gravity.number is None:
        return _unknown(("g",))
    taken = blocks(base, kit)
    if isinstance(taken, Declined):
        return taken
    symbols = frozenset(symbol for symbol, _ in answer.givens)
    fitted = fit(base, taken, symbols)
    missing = _missing(fitted)
    if missing:
        return _unknown(missing)
    choice = _chosen(fitted, kit, symbols)
    return choice if isinstance(choice, Declined) else _planned(fitted, kit, taken, choice, symbols)


def _missing(fitted: Rig) -> tuple[str, ...]:
    """The letters that have no number yet, once the load has one."""
    known = solve(loaded(fitted, Fraction(1)))
    effort = known.ideal.effort
    if effort is None or effort.number is not None:
        return ()
    asked = fitted.asked.distance.symbol if fitted.asked else ""
    return tuple(symbol for symbol, value in known.givens if value.number is None and symbol != asked)


def _unknown(symbols: tuple[str, ...]) -> Declined:
    return Declined(
        "bench-number-missing", f"{', '.join(symbols)} stands without a number",
        "what is read on a scale, and what an anchor carries, are numbers", "give it one, in the file or with --set.",
    )  # fmt: skip


def _chosen(rig: Rig, kit: Kit, symbols: frozenset[str]) -> Choice | Declined:
    """What to hang, within what the anchor is for."""
    everything = totals(kit.masses, sum((mass.count * number(mass.mass) for mass in kit.masses), Fraction(0)))
    heaviest = solve(loaded(rig, everything[-1].mass * number(rig.gravity)))
    no = declined(rig, heaviest)
    if no:
        return no
    allowed = bisect_left(everything, True, key=lambda hung: not _allowed(rig, kit, hung, symbols))
    choice = choose(rig, kit, everything[:allowed], symbols)
    if choice is not None and choice.outside == 0:
        return choice
    beyond = choose(rig, kit, everything[allowed:], symbols)
    if not allowed or (beyond is not None and beyond.outside == 0):
        return _too_heavy(kit, beyond.hung if beyond else everything[0])
    return choice or _off_scale()


def _allowed(rig: Rig, kit: Kit, hung: Hung, symbols: frozenset[str]) -> bool:
    """Whether an anchor may take it: within the limit for an unrated one, else all forces within the rating."""
    stand = kit.stand
    if stand.rated is None:
        return hung.mass <= stand.heaviest
    worst = solve(rubbing(loaded(rig, hung.mass * number(rig.gravity)), spread(rig)[0], symbols))
    return all(anchor.working <= number(stand.rated) for anchor in anchors(rig, worst, None, symbols))


def _too_heavy(kit: Kit, hung: Hung) -> Declined:
    kilograms = f"{float(hung.mass):g} kg"
    if kit.stand.rated is None:
        return Declined(
            "bench-anchor-unrated", f"a load that reads well here is {kilograms}, and nobody has rated the anchor",
            f"on an unrated anchor no more than {float(kit.stand.heaviest):g} kg is planned: it carries load, blocks "
            "and pull together, and more when blocks meet",
            "take a more sensitive scale or lighter masses; or have the anchor rated, and write `rated`, `rated_by`.",
        )  # fmt: skip
    return Declined(
        "bench-anchor-overloaded",
        f"a load that reads well here is {kilograms}, which asks more of the anchor than its rating",
        f"{kit.stand.rated_by} rates it for {float(number(kit.stand.rated)):g} N",
        "take a more sensitive scale or lighter masses, or another anchor.",
    )  # fmt: skip


def _off_scale() -> Declined:
    return Declined(
        "bench-off-scale", "no masses of the kit give a reading that stays on one of its scales",
        "a scale pulled past its span is bent, and one that shows nothing tells nothing",
        "add lighter or heavier masses, or another scale.",
    )  # fmt: skip


def _planned(
    fitted: Rig, kit: Kit, taken: tuple[Taken, ...], choice: Choice, symbols: frozenset[str]
) -> Plan | Declined:
    rig = expected(loaded(fitted, choice.hung.mass * number(fitted.gravity)), symbols)
    answer = solve(rig)
    low, high = spread(rig)
    rise = rates(rig, answer)
    if answer.status != "holds" or rise is None or answer.velocity_ratio is None:
        return declined(rig, answer) or _loose()
    space = room(rig, taken, choice.hung, number(kit.stand.height), rise)
    if space is None:
        return _no_room()
    size = sizes(rig, taken)
    needed = {cord.name: sum(c.cut for c in cuts(rig, space, size, number(cord.diameter))) for cord in kit.cords}
    cord = reel(kit.cords, {name: Fraction(length) for name, length in needed.items()})
    if cord is None:
        return _no_cord(min(map(Fraction, needed.values())))
    worst, best = (solve(rubbing(rig, share, symbols)) for share in (low, high))
    far = _rise(rig, space)
    ratio = answer.velocity_ratio.number or Fraction(0)
    return Plan(
        rig, answer, kit, taken, choice, _readings(choice, answer, best, worst), (low, high),
        not all(sheave.efficiency for sheave in fitted.sheaves), space, far, far * ratio,
        cord, cuts(rig, space, size, number(cord.diameter)), anchors(rig, worst, space.meets, symbols),
        marks(rig, rise), laws(rig, answer, symbols),
        seen(rig, taken, cord, space), cautions(rig, worst),
    )  # fmt: skip


def _rise(rig: Rig, space: Room) -> Fraction:
    """How far to raise: what the file asks, or as far as there is room, in whole centimetres."""
    asked = rig.asked.distance.number if rig.asked else None
    most = min(space.rise, asked) if asked else space.rise
    return most // CENTIMETRE * CENTIMETRE or most


def _readings(choice: Choice, answer: Answer, best: Answer, worst: Answer) -> tuple[Reading, ...]:
    return tuple(reading for way in WAYS if (reading := _reading(way, choice, answer, best, worst)))


def _reading(way: Way, choice: Choice, answer: Answer, best: Answer, worst: Answer) -> Reading | None:
    found = [effort(each, way) for each in (answer, best, worst)]
    pulls = [pull for pull in found if pull is not None]
    if len(pulls) < len(found):
        return None
    held = choice.held
    shows = [held.shows(pull) for pull in pulls]
    least, most = held.band
    return Reading(
        way, pulls[0], (min(pulls), max(pulls)), shows[0], (min(shows), max(shows)),
        least <= min(shows) and max(shows) <= most,
    )  # fmt: skip


def _loose() -> Declined:
    return Declined(
        "bench-no-one-motion", "the hand does not settle how this rig moves",
        "marks and travel can be told only where hauling moves everything in one way",
        "hold the rest fast: write it as fixed, then plan.",
    )  # fmt: skip


def _no_room() -> Declined:
    return Declined(
        "bench-no-room", "blocks, masses and knots are as high as the stand already", "nothing could rise under it",
        "take a higher stand, fewer masses one below the other, or smaller blocks.",
    )  # fmt: skip


def _no_cord(length: Fraction) -> Declined:
    return Declined(
        "bench-no-cord", f"{float(length):g} m of cord are needed, and no reel has so much",
        "a rope that is too short keeps the load from standing on its pad", "add a longer reel, or a lower stand.",
    )  # fmt: skip
