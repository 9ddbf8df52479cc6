"""Which masses to hang and which scale to read them on: every reading between 30 and 80 per cent of the span."""

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec import Struct

from gantline.mechanics import sweep
from gantline.rig import Rig
from gantline.sources import Constant

from .fitting import load_symbol, loaded, number, rubbing, spread
from .kit import Kit, Mass
from .scales import HIGH, LOW, Held, held, pulls_down

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

LEAST = Constant(Fraction(1, 2), "kg", "common practice: 0.5 to 2 kg shows a tackle well, and no more than reads well")
_MOST_TOTALS = 4000  # past it, only the first of those that lie close together is kept


class Hung(Struct, frozen=True):
    """Masses hung below one another: how many of which, their sum (kg)."""

    pieces: tuple[tuple[int, Mass], ...]
    mass: Fraction


class Choice(Struct, frozen=True):
    """What to hang and what to read it on. `outside`: how far the worst readings lie outside the band, of the span."""

    hung: Hung
    held: Held
    outside: float = 0.0


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
    if not options:
        return
    lowest, highest = _extremes(rig, options, symbols)
    for scale in kit.scales:
        as_held = held(scale, pulls_down(rig))
        shift, span = float(as_held.zero - as_held.less), float(as_held.span)
        for hung, low, high in zip(options, lowest, highest, strict=True):
            if low + shift > 0 and high + shift <= span:
                under, over = float(LOW) - (low + shift) / span, (high + shift) / span - float(HIGH)
                yield Choice(hung, as_held, _past(under) + _past(over))


def _past(share: float) -> float:
    """How far past the band, where that is more than rounding."""
    return share if share > 1e-9 else 0.0


def _extremes(rig: Rig, options: list[Hung], symbols: frozenset[str]) -> tuple[list[float], list[float]]:
    """The smallest and the largest pull (N) for each option: with the worst wheels, letting down and raising."""
    import numpy as np

    weights = np.array([float(hung.mass) for hung in options]) * float(number(rig.gravity))
    worst = rubbing(loaded(rig, options[-1].mass * number(rig.gravity)), spread(rig)[0], symbols)
    pulls = [_pulls(worst, weights, way) for way in ("raising.effort", "lowering.effort", "effort")]
    known = [pull for pull in pulls if pull is not None]
    return np.min(known, axis=0).tolist(), np.max(known, axis=0).tolist()


def _pulls(rig: Rig, weights: "Array", want: str) -> "Array | None":
    """Pulls for all weights; None where the ropes do not run that way."""
    import numpy as np

    try:
        return np.broadcast_to(sweep(rig, {load_symbol(rig): weights}, (want,))[want], weights.shape)
    except KeyError:
        return None
