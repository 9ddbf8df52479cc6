"""Which masses to hang and which scale to read them on: every reading between 30 and 80 per cent of the span."""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from gantline.mechanics import Answer, Way, solve
from gantline.rig import Rig
from gantline.sources import Constant

from .fitting import loaded, number, rubbing, spread
from .kit import Kit, Mass
from .scales import Held, held, pulls_down

LEAST = Constant(Fraction(1, 2), "kg", "common practice: 0.5 to 2 kg shows a tackle well, and no more than reads well")
WAYS: tuple[Way, ...] = ("raising", "ideal", "lowering")
_MOST_TOTALS = 1000  # past it, only the first of those that lie close together is kept


class Hung(Struct, frozen=True):
    """Masses hung below one another: how many of which, their sum (kg)."""

    pieces: tuple[tuple[int, Mass], ...]
    mass: Fraction


class Choice(Struct, frozen=True):
    """What to hang and what to read it on. `outside`: how far the worst readings lie outside the band, of the span."""

    hung: Hung
    held: Held
    outside: Fraction = Fraction(0)


def totals(masses: tuple[Mass, ...], most: Fraction) -> list[Hung]:
    """Every sum up to `most` (kg) that the masses make, each in the fewest pieces, the lightest first."""
    made: dict[Fraction, tuple[tuple[int, Mass], ...]] = {Fraction(0): ()}
    for mass in masses:
        found = dict(made)
        for total, pieces in made.items():
            for count in range(1, mass.count + 1):
                more = total + count * number(mass.mass)
                if more > most:
                    break
                new = (*pieces, (count, mass))
                if more not in found or _pieces(new) < _pieces(found[more]):
                    found[more] = new
        made = _thinned(found, most)
    return [Hung(made[total], total) for total in sorted(made) if total]


def _pieces(pieces: tuple[tuple[int, Mass], ...]) -> int:
    return sum(count for count, _ in pieces)


def _thinned(
    found: dict[Fraction, tuple[tuple[int, Mass], ...]], most: Fraction
) -> dict[Fraction, tuple[tuple[int, Mass], ...]]:
    if len(found) <= _MOST_TOTALS:
        return found
    kept: dict[int, Fraction] = {}
    for total in sorted(found):
        kept.setdefault(int(total * _MOST_TOTALS / most), total)
    return {total: found[total] for total in kept.values()}


def choose(rig: Rig, kit: Kit, options: list[Hung], symbols: frozenset[str]) -> Choice | None:
    """The lightest of `options` that reads well on one of the scales, from half a kilogram up where that can be.

    Where none does, the one that comes nearest without going past the span; None where there is none of that either.
    """
    choices = list(_choices(rig, kit, options, symbols))
    good = [choice for choice in choices if choice.outside == 0]
    if good:
        ample = [choice for choice in good if choice.hung.mass >= LEAST.value]
        return min(ample, key=lambda c: c.hung.mass) if ample else max(good, key=lambda c: c.hung.mass)
    return min(choices, key=lambda choice: choice.outside, default=None)


def _choices(rig: Rig, kit: Kit, options: list[Hung], symbols: frozenset[str]) -> Iterator[Choice]:
    pulls = _pulls(rig, options, symbols)
    for scale in kit.scales if pulls else ():
        as_held = held(scale, pulls_down(rig))
        least, most = as_held.band
        for hung in options:
            shows = [as_held.shows(at_none + grows * hung.mass) for at_none, grows in pulls]
            low, high = min(shows), max(shows)
            if low > 0 and high <= as_held.span:
                past = max(Fraction(0), least - low) + max(Fraction(0), high - most)
                yield Choice(hung, as_held, past / as_held.span)


def _pulls(rig: Rig, options: list[Hung], symbols: frozenset[str]) -> list[tuple[Fraction, Fraction]]:
    """Each way's pull with the worst wheels, as what it is without a load (N) and what a kilogram adds to it.

    Every law here is of first degree in the weights, so two solved rigs settle it while the ropes run the same way.
    """
    if not options:
        return []
    heavy = options[-1].mass
    light = options[-2].mass if len(options) > 1 else heavy / 2
    worst = spread(rig)[0]
    light_rig, heavy_rig = (
        solve(rubbing(loaded(rig, mass * number(rig.gravity)), worst, symbols)) for mass in (light, heavy)
    )
    found = []
    for way in WAYS:
        low, high = effort(light_rig, way), effort(heavy_rig, way)
        if low is not None and high is not None:
            grows = (high - low) / (heavy - light)
            found.append((high - grows * heavy, grows))
    return found


def effort(answer: Answer, way: Way) -> Fraction | None:
    """The pull (N) while the ropes run that way, None where they do not."""
    regime = answer.regime(way) if answer.status == "holds" else None
    return regime.effort.number if regime and regime.effort else None
