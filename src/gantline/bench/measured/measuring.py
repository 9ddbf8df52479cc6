"""From readings to what they say of the rig: the whole of `gantline measure` as one value."""

from fractions import Fraction

from msgspec import Struct

from gantline.mechanics import NoShares, Shares, shares
from gantline.problems import Place, Problem
from gantline.rig import Moving, Rig
from gantline.sources import GRAVITY

from .advice import Advice, advise
from .budget import Combined, Limits, budget, correlations
from .draws import DRAWS, Spread, monte_carlo
from .fit import LEAST, LIMIT, MOST, START, Fit, NoFit, fit
from .lines import Line, best, straight
from .means import WAYS, Mean, Scatter, means, scatter
from .model import UNKNOWNS, Model
from .ratio import Ratio, ratio_law
from .readings import Readings, read_readings
from .screening import screened


class Settings(Struct, frozen=True):
    """What is said of the instruments and the fit. `division` is the scale's (N), None: read off the readings.

    `taken` are unknowns that are not measured: drag and zero as nothing, block as the file's weight. `decimals` is the
    mark before decimals, "." or ",", "" where the table is to show it.
    """

    division: float | None = None
    limits: Limits = Limits()
    taken: tuple[str, ...] = ()
    draws: int = DRAWS
    decimals: str = ""


class Estimate(Struct, frozen=True):
    """One unknown: `value` is None where the readings cannot tell it (then `tied` names what it cannot be told from).

    `spread` is what the Monte Carlo says of it. `held` says that it was taken as it stands, and not measured.
    """

    name: str
    value: float | None
    held: bool = False
    combined: Combined | None = None
    spread: Spread | None = None
    tied: tuple[str, ...] = ()

    @property
    def u(self) -> float | None:
        return self.combined.u if self.combined else None

    @property
    def interval(self) -> tuple[float, float] | None:
        """The 95 % interval by propagation."""
        if self.combined is None or self.value is None:
            return None
        return self.value - self.combined.half, self.value + self.combined.half


class Residual(Struct, frozen=True):
    """One mean against the model: both in N, and how many of its standard deviations lie between."""

    mean: Mean
    expected: float
    deviation: float

    @property
    def steps(self) -> float:
        return (self.mean.value - self.expected) / self.deviation


class Goodness(Struct, frozen=True):
    """How the model fits: chi2 over `left` degrees of freedom, its chance, and by how much all scatter was widened."""

    chi2: float
    left: int
    chance: float
    birge: float

    @property
    def lacking(self) -> bool:
        return self.chance < LIMIT


class Fitted(Struct, frozen=True):
    """What the fit left: the four unknowns as the model has them, told or not (together they give every reading), the
    means against it, how good it is, the law of the machine each way read, and how results hang together."""

    at: tuple[float, float, float, float]
    residuals: tuple[Residual, ...]
    goodness: Goodness
    lines: tuple[tuple[str, Line], ...]
    correlations: tuple[tuple[str, str, float], ...]


class Measured(Struct, frozen=True):
    """Everything the readings say. `fitted` is None where no reading says its load; `ratio` is the cross-check, or why
    there is none; `scatter` is that of one pull; `draws` is how many the Monte Carlo took."""

    title: str
    readings: Readings
    settings: Settings
    shares: Shares
    division: float
    scatter: Scatter | None
    estimates: tuple[Estimate, ...]
    fitted: Fitted | None
    ratio: Ratio | str
    advice: tuple[Advice, ...]
    draws: int

    @property
    def block(self) -> str | None:
        """The block whose weight is measured, None where the rig has none."""
        return self.shares.block

    @property
    def residuals(self) -> tuple[Residual, ...]:
        return self.fitted.residuals if self.fitted else ()

    def estimate(self, name: str) -> Estimate:
        return next(one for one in self.estimates if one.name == name)


def measure(rig: Rig, readings: Readings, settings: Settings = Settings()) -> Measured:  # noqa: B008 - a frozen value
    """What the readings say of a rig. Raises NoShares for a rig whose pull is no sum of shares, else NoFit."""
    of = shares(rig)
    readings = screened(readings, of)
    division = settings.division if settings.division is not None else float(readings.steps.pull or 0)
    found = means(readings.rows)
    pulls = [mean for mean in found if mean.what in WAYS]
    if pulls and division <= 0:
        raise ValueError("the division of a scale is above zero")
    done = _fitted(rig, of, found, readings, settings, division) if pulls else None
    spread = done.scatter if done else scatter(found)
    ratio = ratio_law(found, readings.rows, of, spread, division)
    estimates, draws = _estimates(of, done, settings) if done else (_none(of, settings), 0)
    return Measured(
        title=rig.title,
        readings=readings,
        settings=settings,
        shares=of,
        division=division,
        scatter=spread,
        estimates=estimates,
        fitted=_left(found, done, settings.limits) if done else None,
        ratio=ratio,
        advice=advise(estimates, done, of),
        draws=draws,
    )


def read_measured(rig: Rig, data: bytes, settings: Settings) -> tuple[Measured | None, tuple[Problem, ...]]:
    """What the bytes of a table say of a rig, or None and what keeps them from saying it."""
    readings, problems = read_readings(data, rig.gravity.number or GRAVITY.value, settings.decimals)
    if readings is None:
        return None, problems
    try:
        measured = measure(rig, readings, settings)
    except NoShares as none:
        return None, (_no_shares(none.reason),)
    except NoFit:
        return None, (_no_fit(),)
    if not any(row.raising or row.lowering for row in measured.readings.rows):
        return None, (_none_left(measured.readings),)
    return measured, ()


def _no_shares(reason: str) -> Problem:
    return _problem(
        "rig-not-measured",
        f"nothing can be measured on this rig: {reason}",
        "the pull must be a sum of the weights, with one loss in every sheave",
        "give the rig a hand, one load to raise, and blocks of known weight.",
    )


def _no_fit() -> Problem:
    return _problem(
        "readings-no-fit",
        f"no efficiency between {LEAST:.0%} and {MOST:.0%} comes near these readings",
        "the pull must go with the load as the wheels of this rig allow",
        "see whether loads, pulls and their units stand in their columns, and whether it is this rig.",
    )


def _none_left(readings: Readings) -> Problem:
    first = next((one.reason for one in readings.refused), "every row is empty")
    return _problem(
        "readings-none",
        f"no row is left to use; of the first, {first}",
        "without readings there is nothing to fit",
        "look at the headings, their units and the numbers.",
    )


def _problem(code: str, says: str, why: str, do: str) -> Problem:
    return Problem(code, Place(1, 1), "", says, why, do)


def _fitted(
    rig: Rig, of: Shares, found: tuple[Mean, ...], readings: Readings, settings: Settings, division: float
) -> Fit:
    written = _weight(rig, of.block)
    taken = {name: written if name == "block" else 0.0 for name in settings.taken}
    if of.block is None:
        taken["block"] = 0.0
    weighed = float(readings.steps.block or 0)
    return fit(Model(of, found), division, weighed, taken, {"efficiency": START, "block": written})


def _weight(rig: Rig, block: str | None) -> float:
    """The block's weight in the file (N), 0 where it says none."""
    part = rig.part(block) if block else None
    if not isinstance(part, Moving):
        return 0.0
    mass = part.mass.number * (rig.gravity.number or 0) if part.mass and part.mass.number else Fraction(0)
    return float(part.weight.number if part.weight and part.weight.number else mass)


def _left(found: tuple[Mean, ...], done: Fit, limits: Limits) -> Fitted:
    e, block, drag, zero = (float(number) for number in done.at)
    good = Goodness(done.chi2, done.left, done.chance, done.birge)
    return Fitted(
        (e, block, drag, zero), _residuals(done), good, _lines(found, done, limits), correlations(done, limits)
    )


def _estimates(of: Shares, done: Fit, settings: Settings) -> tuple[tuple[Estimate, ...], int]:
    combined = budget(done, settings.limits)
    spreads, draws = monte_carlo(done, settings.limits, settings.draws) if combined else ({}, 0)
    found = []
    for n, name in enumerate(UNKNOWNS):
        if name == "block" and of.block is None:
            continue
        if name in done.held:
            found.append(Estimate(name, float(done.at[n]), held=True))
        elif done.told[n]:
            found.append(Estimate(name, float(done.at[n]), False, combined[name], spreads.get(name)))
        else:
            found.append(Estimate(name, None, tied=_tied(done, n)))
    return tuple(found), draws if spreads else 0


def _tied(done: Fit, n: int) -> tuple[str, ...]:
    """The unknowns that change together with this one and leave every reading as it is."""
    with_it = {other for tie in done.ties if tie[n] for other in range(4) if tie[other] and other != n}
    return tuple(UNKNOWNS[other] for other in sorted(with_it))


def _none(of: Shares, settings: Settings) -> tuple[Estimate, ...]:
    """Where no load was written down nothing is fitted: the ratio law alone may speak."""
    names = [name for name in UNKNOWNS if name != "block" or of.block is not None]
    return tuple(Estimate(name, None, tied=tuple(other for other in names if other != name)) for name in names)


def _residuals(done: Fit) -> tuple[Residual, ...]:
    expected = done.model.expected(done.at)
    return tuple(
        Residual(mean, float(model), float(deviation))
        for mean, model, deviation in zip(done.model.means, expected, done.deviations, strict=True)
    )


def _lines(found: tuple[Mean, ...], done: Fit, limits: Limits) -> tuple[tuple[str, Line], ...]:
    """A straight line each way that was read at two loads."""
    deviations = dict(zip(found, (float(d) for d in done.deviations), strict=True))
    lines = []
    for way in WAYS:
        own = [mean for mean in found if mean.what == way]
        if len(own) > 1:
            line = _line(own, [deviations[mean] for mean in own], limits.masses)
            lines.append((way, line if (done.scatter and done.scatter.repeated) or not line.left else line.scaled))
    return tuple(lines)


def _line(own: list[Mean], u_y: list[float], masses: float | None) -> Line:
    """Exact where loads have no stated error, else by the effective variance."""
    x, y = [mean.load for mean in own], [mean.value for mean in own]
    if masses:
        return best(x, y, [load * masses / 3**0.5 for load in x], u_y)
    return straight([Fraction(load) for load in x], [Fraction(value) for value in y], u_y)
