"""What the hand's pull is made of while the ropes run one way: a share of every weight, and of a drag in every sheave.

The rig's own equations, solved once for each thing that pulls; every share is an exact rational function of the one
efficiency e that all sheaves have. A sheave with drag c passes on t_b = t_a/e + c while the rope runs from a to b.
"""

from collections.abc import Callable
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from flint import fmpq
from msgspec import Struct
from msgspec.structs import replace

from gantline.rig import Given, Rig, with_efficiency

from .assembly import assemble
from .forces import Flows, Question, equations, flow_rows, solve_numbers, solve_symbols
from .laws.weight import weight_and_mass
from .motion import motions
from .numbers import exact, numbers
from .ring import FormulaTooLarge, Functions, Ratio, Rationals
from .solver import solve
from .system import Coordinate

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

    Array = npt.NDArray[np.float64]

LOSS = Fraction(9, 10)  # a stand-in that decides pivots and signs; the functions hold for every e that runs alike


class Share(Struct, frozen=True):
    """A rational function of e: integer coefficients of numerator and denominator, highest power first."""

    over: tuple[int, ...]
    under: tuple[int, ...]

    def at(self, e: Any) -> Any:
        """Its value at a number, exact for a Fraction, or at every number of an array."""
        return _horner(self.over, e) / _horner(self.under, e)

    def slope(self, e: Any) -> Any:
        """Its derivative there."""
        under = _horner(self.under, e)
        top = _horner(_derived(self.over), e) * under - _horner(self.over, e) * _horner(_derived(self.under), e)
        return top / (under * under)

    @property
    def power(self) -> int | None:
        """n where the function is e to the power n, None where it is another."""
        parts = [tuple(c for c in side if c) for side in (self.over, self.under)]
        return len(self.over) - len(self.under) if parts == [(1,), (1,)] else None


class Branch(Struct, frozen=True):
    """The pull of the hand (N) is load * W + block * w + drag * c + rest: the ropes run one way, raising or lowering.

    `rest` is what all other weights of the file bring (N), `load` and `block` are per newton, `drag` per newton of drag
    in each sheave. `block` is nothing where no block's weight counts apart from the load's.
    """

    load: Share
    block: Share
    drag: Share
    rest: Share

    def at(self, e: Any) -> tuple[Any, Any, Any, Any]:
        """The four shares at an efficiency, or at every one of an array."""
        return self._each(lambda share: share.at(e))

    def slope(self, e: Any) -> tuple[Any, Any, Any, Any]:
        """Their derivatives there."""
        return self._each(lambda share: share.slope(e))

    def _each(self, of: Callable[[Share], Any]) -> tuple[Any, Any, Any, Any]:
        load = of(self.load)
        block = load if self.block == self.load else of(self.block)
        return load, block, of(self.drag), of(self.rest) if any(self.rest.over) else 0


class Shares(Struct, frozen=True):
    """Both branches of a rig. `block` names the block whose weight is w; `velocity_ratio` is rope taken up by rise.

    `law` is raising over lowering, None where not all that hangs goes up and down together.
    """

    raising: Branch
    lowering: Branch
    block: str | None
    velocity_ratio: Fraction
    law: Share | None


class NoShares(Exception):
    """The pull of this rig is not a sum of shares; `reason` says why, in the words after "because"."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


def shares(rig: Rig) -> Shares:
    """The shares of a rig's pull, one efficiency in all sheaves. Raises NoShares for a rig that has none."""
    _check_before(rig)
    letter = _free(rig)
    uniform = with_efficiency(rig, LOSS, letter, every=True)
    answer = solve(uniform)
    if answer.status != "holds" or answer.freedoms != 1:
        raise NoShares("no single steady pull holds it")
    ratio = answer.velocity_ratio.number if answer.velocity_ratio else None
    if not ratio:
        raise NoShares("its load does not rise as the rope is taken up")
    try:
        case = _Case(uniform, letter)
        up, down = case.branch(1), case.branch(-1)
        law = case.law(up, down)
    except FormulaTooLarge:
        raise NoShares("it has too many sheaves for one formula") from None
    return Shares(_branch(up), _branch(down), case.block, abs(ratio), law)


def _branch(ratios: dict[str, Ratio]) -> Branch:
    return Branch(**{what: _share(ratio) for what, ratio in ratios.items()})


def _check_before(rig: Rig) -> None:
    if rig.hand is None:
        raise NoShares("no hand pulls on it")
    if rig.aim is None or rig.aim not in {load.name for load in rig.loads}:
        raise NoShares("it is not said which load is raised")
    if rig.effort is not None:
        raise NoShares("its pull is given, so there is none to measure")
    if not rig.sheaves:
        raise NoShares("it has no sheave that could take some of the pull")
    for part in rig.movers:
        given = getattr(part, "weight", None) or getattr(part, "mass", None)
        if part.name != rig.aim and given is not None and given.number is None:
            raise NoShares(f"the weight of {part.name} is a letter without a number")


def _free(rig: Rig) -> str:
    taken, letter = set(numbers(rig).names), "e"
    while letter in taken:
        letter += "_"
    return letter


class _OneLetter(Functions):
    """Rational functions of one letter; everything else the rig gives is its number."""

    def __init__(self, letter: str, of: dict[str, fmpq]) -> None:
        super().__init__((letter,))
        self.letter, self._of = letter, of

    def given(self, given: Given) -> Ratio:
        if given.symbol == self.letter:
            return self.symbol(self.letter)
        return self.constant(exact(self._of[given.symbol]))


class _Case:
    """One rig's equations over numbers, which find the pivots, and over functions of e."""

    def __init__(self, rig: Rig, letter: str) -> None:
        of = numbers(rig).of
        self.rig, self.ring = rig, _OneLetter(letter, of)
        self.plain, self.system = assemble(rig, Rationals(of)), assemble(rig, self.ring)
        self.flowing = flow_rows(self.plain)
        self.way = self._way()
        self.load = self.at(rig.aim or "")
        self.block = self._block()

    def at(self, part: str) -> Coordinate:
        return Coordinate(self.system.body[part], "rise")

    def _way(self) -> dict[Coordinate, Any]:
        way = motions(self.rig, self.plain).way
        if way is None:
            raise NoShares("it can move in more than one way")
        return way

    def _block(self) -> str | None:
        """The block whose weight is measured: the load's own, else the only other that moves."""
        bearer = self.rig.bearer(self.rig.aim or "")
        if bearer != self.rig.aim:
            return bearer
        moving = [block.name for block in self.rig.moving]
        return moving[0] if len(moving) == 1 else None

    def branch(self, sense: int) -> dict[str, Ratio]:
        """The shares while the load rises (`sense` 1) or sinks (-1), each the pull that one thing alone asks for."""
        flows = self._flows(sense)
        plan = solve_numbers(equations(self.plain, Question(hand=True), flows, self.flowing))
        if not plan.unique:
            raise NoShares("its pulls are not decided by balance alone")
        rows = equations(self.system, Question(hand=True), flows, flow_rows(self.system))

        def effort(right: list[Ratio]) -> Ratio:
            return solve_symbols(replace(rows, right=right), plan).values[rows.effort].reduced()  # type: ignore[no-any-return]

        one, zero = self.ring.one, self.ring.zero
        return {
            "load": effort(self._right({self.load: one})),
            "block": effort(self._right({self.at(self.block): one})) if self.block else zero,
            "drag": effort(self._dragged(flows)),
            "rest": effort(self._right(self._rest())),
        }

    def _right(self, weights: dict[Coordinate, Ratio]) -> list[Ratio]:
        """The right side of the balances for these weights alone; the row for an asked load comes last: nothing."""
        return [*(weights.get(c, self.ring.zero) for c in self.system.coordinates), self.ring.zero]

    def _flows(self, sense: int) -> Flows:
        rates = [sum((v * self.way.get(c, 0) for c, v in row.items()), 0) for row in self.flowing]
        return tuple(sense * (int(rate > 0) - int(rate < 0)) for rate in rates)

    def _rest(self) -> dict[Coordinate, Ratio]:
        """All weights of the file but the load and the block that are measured."""
        left = dict(self.system.weights)
        for name in (self.rig.aim, self.block):
            if name is not None:
                part, c = self.rig.part(name), self.at(name)
                own = weight_and_mass(part, self.rig.gravity, self.ring)[0]
                if own is not None:
                    left[c] = (left[c] - own).reduced()
        return left

    def law(self, up: dict[str, Ratio], down: dict[str, Ratio]) -> Share | None:
        """Raising over lowering, where the load and its block are all that hangs: then it needs no weight at all."""
        together = self.block is None or self.at(self.block) == self.load
        if up["rest"] or down["rest"] or not together:
            return None
        return _share((up["load"] / down["load"]).reduced())

    def _dragged(self, flows: Flows) -> list[Ratio]:
        """The right side that one newton of drag in every running sheave brings: what each strand has more than its
        rope's first, taken to the balances of the parts it pulls."""
        ends = {tie.after: n for n, tie in enumerate(self.system.ties)}
        right: dict[Coordinate, Ratio] = {}
        e, more = self.ring.symbol(self.ring.letter), self.ring.zero
        for n, element in enumerate(self.system.elements):
            flow = flows[ends[n]] if n in ends else None
            if flow is None:
                more = self.ring.zero
            elif flow > 0:
                more = more / e + self.ring.one
            elif flow < 0:
                more = e * (more - self.ring.one)
            for coordinate, share in element.growth:
                right[coordinate] = right.get(coordinate, self.ring.zero) + share * more
        return self._right(right)


def _share(ratio: Ratio) -> Share:
    return Share(_coefficients(ratio.num), _coefficients(ratio.den))


def _coefficients(polynomial: Any) -> tuple[int, ...]:
    terms = {int(power[0]): int(c) for power, c in zip(polynomial.monoms(), polynomial.coeffs(), strict=True)}
    highest = max(terms, default=0)
    return tuple(terms.get(power, 0) for power in range(highest, -1, -1))


def _derived(coefficients: tuple[int, ...]) -> tuple[int, ...]:
    top = len(coefficients) - 1
    return tuple(c * (top - n) for n, c in enumerate(coefficients[:-1])) or (0,)


def _horner(coefficients: tuple[int, ...], at: Any) -> Any:
    total: Any = Fraction(coefficients[0]) if isinstance(at, Fraction) else coefficients[0]
    for c in coefficients[1:]:
        total = total * at + c if c else total * at
    return total
